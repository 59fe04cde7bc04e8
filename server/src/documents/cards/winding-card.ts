/** What stands beside the winder: what to wind, how to mount and turn, what the meter shows on the way. One card a coil. */

import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { WindingEstimates } from '../../estimates/coil-winding.ts';
import { WIRE_ALLOWANCE } from '../../estimates/common-practice.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { declaredRotation } from '../../estimates/signs.ts';
import { machineSettings, type ProgressRow, windingProgressRows, wireNeededKg } from '../../estimates/winding-plan.ts';
import type { Bench } from '../../model/bench.ts';
import {
  type Coil,
  type CoilEnd,
  opposite,
  poleOf,
  type Rotation,
  rotationFromSpindle,
  rotationOf,
} from '../../model/coil.ts';
import { windCoil } from '../../physics/coil-geometry.ts';
import { ENAMELS } from '../../physics/enamel.ts';
import { printCelsius, printCount, printNumber, printValue } from '../../quantities/print.ts';
import { poleLetter } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';
import { gaugeWords, PLASTIC_WORDS, titleOf } from '../../words/parts.ts';
import { capital } from '../../words/text.ts';
import { WIRE_SPARE_SHARE } from '../../words/wire-spare.ts';
import { type HtmlNode, h, phrase, section, table, typed } from '../html.ts';
import type { Card, CardSetting, CardSource } from './card.ts';
import { boxCell, cardWith, cautions, type Field, fields, mind, pickupHead, tickBox, unknown } from './frame.ts';
import { mountDrawing } from './mount-drawing.ts';
import { kiloohm, millimetres, passText, written } from './numbers.ts';
import { aboutPickup } from './pickup-words.ts';

export function windingCard(analysed: PickupAnalysis, coil: Coil, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const { bench } = analysis;
  const { t } = setting;
  const quick = quickOf(bench)(pickup);
  const winding = quick.windings.get(coil);
  const rows = windingProgressRows(quick, coil, bench, { temperatureC: setting.roomC });
  const title = t('Winding: {0} coil', coil.name);
  return cardWith(
    {
      ...pickupHead(analysed, 'winding', title, t),
      of: [pickup.name, coil.name],
      title,
      pageTitle: `${title}, ${titleOf(pickup)}`,
      about: [titleOf(pickup), ...aboutPickup(pickup, t)],
    },
    setting,
    fields(mainFields(coil, rows.at(-1), bench, setting), 'key f3'),
    fields(detailFields(quick, coil, winding, t)),
    h('h2', {}, t('Mount and turn')),
    ...mounting(analysed, coil, t),
    h(
      'div',
      { class: 'steps' },
      progressTable(rows, winding, bench, setting),
      h('div', {}, asWound(coil, t), breaks(t)),
    ),
    progressNote(coil, rows, t),
    mind(t, [
      ...cautions(t, 'winder'),
      t(
        'Write the way the spindle turns and the way the wire lies as two facts: seen from one side they are opposite.',
      ),
      ...(pickup.coils.length > 1 ? [t('Equal turns decide hum in series, not equal resistance.')] : []),
      ...cautions(t, 'solder', 'enamel'),
    ]),
  );
}

function mainFields(
  coil: Coil,
  whole: ProgressRow | undefined,
  bench: Bench | undefined,
  { roomC, t }: CardSetting,
): readonly Field[] {
  const ohm = whole?.resistanceOhm;
  return [
    {
      label: t(coil.turns && coil.counted ? 'turns planned' : coil.counted ? 'turns counted' : 'turns'),
      value: h('span', { class: 'big' }, plannedTurns(coil, t)),
    },
    { label: t('wire'), value: h('span', { class: 'big' }, wireText(coil, t)) },
    {
      label: t('resistance at {0}', printCelsius(roomC, t.numbers)),
      value: ohm
        ? [
            h('span', { class: 'big' }, `${kiloohm(ohm.value, bench, t)}\u202FkΩ`),
            ` ${t('passes {0}', passText(ohm, bench, t))}`,
          ]
        : unknown('bobbin, wire and turns settle it', t),
    },
  ];
}

function plannedTurns(coil: Coil, t: Language): string {
  const stated = (coil.turns ?? coil.counted)?.value;
  if (!stated) return t('unknown');
  const count = printCount(stated.si, t.numbers);
  return stated.sd ? `${count} ± ${printCount(stated.sd, t.numbers)}` : count;
}

function wireText({ wire }: Coil, t: Language): string {
  const gauge = wire?.gaugeAwg?.value;
  if (gauge !== undefined) return gaugeWords(gauge);
  return wire?.bareDiameter ? t('{0} bare', `${millimetres(wire.bareDiameter.value.si, t, 4)}\u202Fmm`) : t('unknown');
}

function detailFields(
  quick: QuickEstimates,
  coil: Coil,
  winding: WindingEstimates | undefined,
  t: Language,
): readonly Field[] {
  const { bobbin, spool } = coil;
  const core = bobbin?.core?.value;
  const window = bobbin?.window?.value;
  const machine = machineSettings(quick, coil);
  const perM = winding?.ohmPerM20C;
  const perMetre = perM && `${printNumber(perM.value, 2, t.numbers)}\u202FΩ/m`;
  return [
    { label: t('enamel'), value: enamelText(coil, t) },
    {
      label: t('spool'),
      value: spool
        ? [typed(spool.name), perMetre ? `, ${perMetre}` : '']
        : perMetre && t('none, nominal {0}', perMetre),
    },
    {
      label: t('overall diameter'),
      value: winding?.overallDiameterM
        ? `${millimetres(winding.overallDiameterM.value, t, 4)}\u202Fmm`
        : unknown('measure it, mean of five', t),
    },
    { label: t('wire needed, {0} spare', WIRE_SPARE_SHARE), value: wireNeeded(quick, coil, winding, t) },
    {
      label: t('bobbin'),
      value: bobbin
        ? [
            typed(bobbin.name),
            bobbin.plastic ? `, ${t(PLASTIC_WORDS[bobbin.plastic.value])}` : `, ${t('plastic unknown')}`,
          ]
        : t('unknown'),
    },
    {
      label: t('core, first layer'),
      value: core
        ? `${millimetres(core.length.si, t)} × ${millimetres(core.width.si, t)}\u202Fmm, ${core.corner ? t('corners {0}', millimetres(core.corner.si, t)) : t('ends round')}`
        : unknown('measure it', t),
    },
    {
      label: t('window, height × depth'),
      value: window
        ? `${millimetres(window.height.si, t)} × ${millimetres(window.depth.si, t)}\u202Fmm`
        : unknown('measure it', t),
    },
    { label: t('build of depth'), value: buildText(winding, window?.depth.si, t) },
    { label: t('tension'), value: written(coil.tension?.value, t) },
    ...(coil.foil
      ? [
          {
            label: t('foil over the winding'),
            value:
              coil.foil.value === 'none'
                ? t('none')
                : phrase(
                    t,
                    'over one turn of tape, its ends insulated from each other, tied to {0}',
                    typed(coil.foil.value.text),
                  ),
          },
        ]
      : []),
    {
      label: t('guide moves a turn'),
      value: machine
        ? `${millimetres(machine.pitchM, t, 3)}\u202Fmm${coil.traverse ? '' : `, ${t('side by side')}`}`
        : undefined,
    },
    {
      label: t('turns in a full layer'),
      value: machine && t('about {0}', printCount(machine.turnsPerLayer, t.numbers)),
    },
    {
      label: t('spindle speed'),
      value:
        machine &&
        t(
          '{0}\u202Frpm, {1}\u202Fmin',
          printCount(machine.speedRpm, t.numbers),
          printCount(machine.minutes, t.numbers),
        ),
    },
    ...polesField(coil, quick, t),
  ];
}

function polesField(coil: Coil, quick: QuickEstimates, t: Language): readonly Field[] {
  const poles = coil.bobbin?.poles?.value;
  const pole = coil.bobbin?.pole?.value;
  const sign = quick.signs.find((each) => each.coil === coil)?.pole?.sign;
  if (pole === 'none') return [{ label: t('poles'), value: t('none') }];
  const count = poles ? t(POLES[pole?.form ?? 'pole'], String(poles.count)) : t('count unknown');
  const up =
    sign === undefined
      ? t('which is up: unknown, a compass settles it')
      : t('{0} up after assembly', poleLetter(poleOf(sign)));
  const spread = poles?.spread ? `, ${t('spread {0}', `${millimetres(poles.spread.si, t)}\u202Fmm`)}` : '';
  return [
    { label: t('poles'), value: `${count}${spread}` },
    { label: t('polarity'), value: up },
    { label: t('start, inner end'), value: leadText(coil, 'start', t) },
    { label: t('finish, outer end'), value: leadText(coil, 'finish', t) },
  ];
}

const POLES = {
  slug: '{0} slugs',
  screw: '{0} screws',
  rod: '{0} rods',
  blade: '{0} blades',
  pole: '{0} poles',
} as const;

function leadText(coil: Coil, end: CoilEnd, t: Language): readonly HtmlNode[] {
  const lead = coil[end]?.value;
  if (!lead) return [t('unknown: note the colour')];
  return [
    ...(lead.own ? [typed(lead.own.value)] : [t('magnet wire')]),
    ...(lead.to ? phrase(t, ', to {0}', typed(lead.to.value.text)) : []),
  ];
}

function enamelText({ wire }: Coil, t: Language): string {
  const enamel = wire?.enamel?.value;
  if (!enamel) return unknown('try the iron on an end', t);
  const through = ENAMELS[enamel].solderThroughC;
  const name = t.word(enamel).replaceAll('-', ' ');
  return through
    ? t('{0}, solders through at {1}', name, printCelsius(through.minimum))
    : t('{0}, strip before tinning', name);
}

function wireNeeded(quick: QuickEstimates, coil: Coil, winding: WindingEstimates | undefined, t: Language): string {
  const kilograms = wireNeededKg(quick, coil);
  if (kilograms === undefined || !winding?.wireLengthM) return unknown('bobbin, wire and turns settle it', t);
  const metres = printNumber(winding.wireLengthM.value * WIRE_ALLOWANCE, 0, t.numbers);
  const left = coil.spool?.left?.value;
  const grams = `${metres}\u202Fm, ${printValue({ value: kilograms, dimension: 'mass', digits: 2, style: t.numbers })}`;
  return left ? t('{0} of {1}', grams, printValue({ value: left.si, dimension: 'mass', style: t.numbers })) : grams;
}

function buildText(winding: WindingEstimates | undefined, depthM: number | undefined, t: Language): string {
  const { buildM, windowFilled } = winding ?? {};
  if (!buildM || !windowFilled || depthM === undefined) return unknown('window and overall diameter settle it', t);
  const over = windowFilled.value > 1 ? `: ${t('does not fit')}` : '';
  const build = t('{0} of {1}', millimetres(buildM.value, t), `${millimetres(depthM, t)}\u202Fmm`);
  return `${build}, ${printNumber(windowFilled.value * 100, 0, t.numbers)}\u202F%${over}`;
}

function mounting({ pickup }: PickupAnalysis, coil: Coil, t: Language): readonly HtmlNode[] {
  const stated = coil.spindle?.value;
  const wire: Rotation | undefined = wireDirection(coil);
  const face = stated?.towardIt ?? 'top';
  const bySpindle = wire && spindleFor(wire, face);
  const rotation = stated?.rotation ?? bySpindle;
  const lies = stated ? rotationFromSpindle(stated) : undefined;
  const contradiction = lies !== undefined && coil.wound !== undefined && lies !== coil.wound.value;
  const id = `mount-${[pickup.name, coil.name].join('-').replace(/[^A-Za-z0-9-]/g, '-')}`;
  const drawing = mountDrawing({ t, id, towardSpindle: face, spindle: rotation, wire });
  if (wire === undefined) {
    return [
      h('div', { class: 'drawing' }, { svg: drawing }),
      h(
        'p',
        {},
        t(
          'The winding direction is unknown: it is never assumed. State it in the spec before winding, and print again.',
        ),
      ),
    ];
  }
  const other = opposite(face);
  return [
    h('div', { class: 'drawing' }, { svg: drawing }),
    h(
      'p',
      {},
      ...phrase(
        t,
        '{0} toward the spindle: spindle {1}, seen facing it. The wire then lies {2} from start to finish, seen from the strings.',
        capital(t(face)),
        t(rotation ?? spindleFor(wire, face)),
        h('b', {}, t(wire)),
      ),
      ' ',
      ...(stated
        ? []
        : [`${t('With the {0} toward it the spindle turns {1}.', t(other), t(spindleFor(wire, other)))} `]),
      ...(contradiction
        ? [h('b', {}, `${t('The spec states a spindle that gives the other way: settle it first.')} `)]
        : []),
      ...tickBox(t('checked on the first ten turns')),
    ),
  ];
}

/** As stated, or as the spindle gives it. */
function wireDirection(coil: Coil): Rotation | undefined {
  const stated = declaredRotation(coil);
  return stated && rotationOf(stated.sign);
}

/** The spindle that lays the wire so: what a spindle gives is its own opposite's opposite. */
const spindleFor = (wire: Rotation, towardIt: 'top' | 'bottom'): Rotation =>
  rotationFromSpindle({ rotation: wire, towardIt });

function progressTable(
  rows: readonly ProgressRow[],
  winding: WindingEstimates | undefined,
  bench: Bench | undefined,
  { roomC, t }: CardSetting,
): HtmlNode {
  const { geometry } = winding ?? {};
  if (rows.length === 0 || !geometry)
    return h('p', {}, t('Resistance on the way unknown: bobbin, wire and turns settle it.'));
  return section(
    table({
      caption: t('Resistance on the way, kΩ, coil at {0}', printCelsius(roomC, t.numbers)),
      columns: [
        [t('turns'), 'n'],
        [t('metres'), 'n'],
        [t('expected'), 'n'],
        t('passes'),
        [t('counter'), 'box'],
        [t('read'), 'box'],
      ],
      rows: rows.map(({ turns, resistanceOhm }) => [
        h('th', { scope: 'row', class: 'n' }, h('b', {}, printCount(turns, t.numbers))),
        h('td', { class: 'n' }, printNumber(windCoil(geometry, turns).wireLengthM, 0, t.numbers)),
        h('td', { class: 'n x' }, kiloohm(resistanceOhm.value, bench, t)),
        h('td', { class: 's' }, passText(resistanceOhm, bench, t)),
        boxCell(),
        boxCell(),
      ]),
    }),
  );
}

function progressNote(coil: Coil, rows: readonly ProgressRow[], t: Language): HtmlNode {
  const [first] = rows;
  const at = first && rows.length > 1 ? printCount(first.turns, t.numbers) : t('any');
  const counted =
    coil.counted && coil.turns
      ? ` ${t('The last line is for the {0} turns counted.', printCount(coil.counted.value.si, t.numbers))}`
      : '';
  return h(
    'p',
    { class: 'q' },
    t(
      'Outside the band at {0} turns: check the spool before you go on. A coil fresh off the machine is warm: 5\u202F°C reads 2\u202F% high.',
      at,
    ),
    counted,
  );
}

function breaks(t: Language): HtmlNode {
  const blank = [h('td', {}), h('td', {})];
  return section(
    table({
      className: 'blank',
      caption: t('Breaks'),
      columns: [t('at turn'), t('mended how, turns lost')],
      rows: [blank, blank, blank],
    }),
  );
}

function asWound(coil: Coil, t: Language): HtmlNode {
  return section(
    h('h2', {}, t('As wound')),
    fields(
      [
        { label: t('counter'), value: coil.counted && printCount(coil.counted.value.si, t.numbers) },
        { label: 'kΩ' },
        { label: t('room, °C') },
        { label: t('after leads, kΩ') },
        { label: t('to poles, open?') },
        { label: t('date, hand') },
      ],
      'f2',
    ),
  );
}
