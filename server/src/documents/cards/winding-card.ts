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
import { cautionsOf } from '../../words/cautions.ts';
import { poleLetter } from '../../words/directions.ts';
import { gaugeWords, PLASTIC_WORDS, titleOf } from '../../words/parts.ts';
import { capital } from '../../words/text.ts';
import { WIRE_SPARE } from '../../words/wire-spare.ts';
import { type HtmlNode, h, section, table, typed } from '../html.ts';
import type { Card, CardSource } from './card.ts';
import { boxCell, cardWith, type Field, fields, mind, pickupHead, tickBox, unknown } from './frame.ts';
import { mountDrawing } from './mount-drawing.ts';
import { kiloohm, millimetres, passText, written } from './numbers.ts';
import { aboutPickup } from './pickup-words.ts';

export function windingCard(analysed: PickupAnalysis, coil: Coil, { analysis, setting }: CardSource): Card {
  const { pickup } = analysed;
  const { bench } = analysis;
  const quick = quickOf(bench)(pickup);
  const winding = quick.windings.get(coil);
  const rows = windingProgressRows(quick, coil, bench, { temperatureC: setting.roomC });
  const title = `Winding: ${coil.name} coil`;
  return cardWith(
    {
      ...pickupHead(analysed, 'winding', title),
      of: [pickup.name, coil.name],
      title,
      pageTitle: `${title}, ${titleOf(pickup)}`,
      about: [titleOf(pickup), ...aboutPickup(pickup)],
    },
    setting,
    fields(mainFields(coil, rows.at(-1), bench, setting.roomC), 'key f3'),
    fields(detailFields(quick, coil, winding)),
    h('h2', {}, 'Mount and turn'),
    ...mounting(analysed, coil),
    h(
      'div',
      { class: 'steps' },
      progressTable(rows, winding, bench, setting.roomC),
      h('div', {}, asWound(coil), breaks()),
    ),
    progressNote(coil, rows),
    mind([
      ...cautionsOf('winder'),
      'Write the way the spindle turns and the way the wire lies as two facts: seen from one side they are opposite.',
      ...(pickup.coils.length > 1 ? ['Equal turns decide hum in series, not equal resistance.'] : []),
      ...cautionsOf('solder', 'enamel'),
    ]),
  );
}

function mainFields(
  coil: Coil,
  whole: ProgressRow | undefined,
  bench: Bench | undefined,
  roomC: number,
): readonly Field[] {
  const ohm = whole?.resistanceOhm;
  return [
    {
      label: coil.turns && coil.counted ? 'turns planned' : coil.counted ? 'turns counted' : 'turns',
      value: h('span', { class: 'big' }, plannedTurns(coil)),
    },
    { label: 'wire', value: h('span', { class: 'big' }, wireText(coil)) },
    {
      label: `resistance at ${printCelsius(roomC)}`,
      value: ohm
        ? [h('span', { class: 'big' }, `${kiloohm(ohm.value, bench)}\u202FkΩ`), ` passes ${passText(ohm, bench)}`]
        : unknown('bobbin, wire and turns settle it'),
    },
  ];
}

function plannedTurns(coil: Coil): string {
  const stated = (coil.turns ?? coil.counted)?.value;
  if (!stated) return 'unknown';
  return stated.sd ? `${printCount(stated.si)} ± ${printCount(stated.sd)}` : printCount(stated.si);
}

function wireText({ wire }: Coil): string {
  const gauge = wire?.gaugeAwg?.value;
  if (gauge !== undefined) return gaugeWords(gauge);
  return wire?.bareDiameter ? `${millimetres(wire.bareDiameter.value.si, 4)}\u202Fmm bare` : 'unknown';
}

function detailFields(quick: QuickEstimates, coil: Coil, winding: WindingEstimates | undefined): readonly Field[] {
  const { bobbin, spool } = coil;
  const core = bobbin?.core?.value;
  const window = bobbin?.window?.value;
  const machine = machineSettings(quick, coil);
  const perM = winding?.ohmPerM20C;
  const perMetre = perM && `${printNumber(perM.value, 2)}\u202FΩ/m`;
  return [
    { label: 'enamel', value: enamelText(coil) },
    {
      label: 'spool',
      value: spool ? [typed(spool.name), perMetre ? `, ${perMetre}` : ''] : perMetre && `none, nominal ${perMetre}`,
    },
    {
      label: 'overall diameter',
      value: winding?.overallDiameterM
        ? `${millimetres(winding.overallDiameterM.value, 4)}\u202Fmm`
        : unknown('measure it, mean of five'),
    },
    { label: `wire needed, ${WIRE_SPARE}`, value: wireNeeded(quick, coil, winding) },
    {
      label: 'bobbin',
      value: bobbin
        ? [typed(bobbin.name), bobbin.plastic ? `, ${PLASTIC_WORDS[bobbin.plastic.value]}` : ', plastic unknown']
        : 'unknown',
    },
    {
      label: 'core, first layer',
      value: core
        ? `${millimetres(core.length.si)} × ${millimetres(core.width.si)}\u202Fmm, ${core.corner ? `corners ${millimetres(core.corner.si)}` : 'ends round'}`
        : unknown('measure it'),
    },
    {
      label: 'window, height × depth',
      value: window
        ? `${millimetres(window.height.si)} × ${millimetres(window.depth.si)}\u202Fmm`
        : unknown('measure it'),
    },
    { label: 'build of depth', value: buildText(winding, window?.depth.si) },
    { label: 'tension', value: written(coil.tension?.value) },
    ...(coil.foil
      ? [
          {
            label: 'foil over the winding',
            value:
              coil.foil.value === 'none'
                ? 'none'
                : ['over one turn of tape, its ends insulated from each other, tied to ', typed(coil.foil.value.text)],
          },
        ]
      : []),
    {
      label: 'guide moves a turn',
      value: machine ? `${millimetres(machine.pitchM, 3)}\u202Fmm${coil.traverse ? '' : ', side by side'}` : undefined,
    },
    { label: 'turns in a full layer', value: machine && `about ${printCount(machine.turnsPerLayer)}` },
    {
      label: 'spindle speed',
      value: machine && `${printNumber(machine.speedRpm, 0)}\u202Frpm, ${printNumber(machine.minutes, 0)}\u202Fmin`,
    },
    ...polesField(coil, quick),
  ];
}

function polesField(coil: Coil, quick: QuickEstimates): readonly Field[] {
  const poles = coil.bobbin?.poles?.value;
  const pole = coil.bobbin?.pole?.value;
  const sign = quick.signs.find((each) => each.coil === coil)?.pole?.sign;
  if (pole === 'none') return [{ label: 'poles', value: 'none' }];
  const count = poles ? `${poles.count} ${pole?.form ?? 'pole'}s` : 'count unknown';
  const up =
    sign === undefined ? 'which is up: unknown, a compass settles it' : `${poleLetter(poleOf(sign))} up after assembly`;
  const spread = poles?.spread ? `, spread ${millimetres(poles.spread.si)}\u202Fmm` : '';
  return [
    { label: 'poles', value: `${count}${spread}` },
    { label: 'polarity', value: up },
    { label: 'start, inner end', value: leadText(coil, 'start') },
    { label: 'finish, outer end', value: leadText(coil, 'finish') },
  ];
}

function leadText(coil: Coil, end: CoilEnd): readonly HtmlNode[] {
  const lead = coil[end]?.value;
  if (!lead) return ['unknown: note the colour'];
  return [
    ...(lead.own ? [typed(lead.own.value)] : ['magnet wire']),
    ...(lead.to ? [', to ', typed(lead.to.value.text)] : []),
  ];
}

function enamelText({ wire }: Coil): string {
  const enamel = wire?.enamel?.value;
  if (!enamel) return unknown('try the iron on an end');
  const through = ENAMELS[enamel].solderThroughC;
  const name = enamel.replaceAll('-', ' ');
  return through ? `${name}, solders through at ${through.minimum}\u202F°C` : `${name}, strip before tinning`;
}

function wireNeeded(quick: QuickEstimates, coil: Coil, winding: WindingEstimates | undefined): string {
  const kilograms = wireNeededKg(quick, coil);
  if (kilograms === undefined || !winding?.wireLengthM) return unknown('bobbin, wire and turns settle it');
  const metres = printNumber(winding.wireLengthM.value * WIRE_ALLOWANCE, 0);
  const left = coil.spool?.left?.value;
  const grams = `${metres}\u202Fm, ${printValue({ value: kilograms, dimension: 'mass', digits: 2 })}`;
  return left ? `${grams} of ${printValue({ value: left.si, dimension: 'mass' })}` : grams;
}

function buildText(winding: WindingEstimates | undefined, depthM: number | undefined): string {
  const { buildM, windowFilled } = winding ?? {};
  if (!buildM || !windowFilled || depthM === undefined) return unknown('window and overall diameter settle it');
  const over = windowFilled.value > 1 ? ': does not fit' : '';
  return `${millimetres(buildM.value)} of ${millimetres(depthM)}\u202Fmm, ${printNumber(windowFilled.value * 100, 0)}\u202F%${over}`;
}

function mounting({ pickup }: PickupAnalysis, coil: Coil): readonly HtmlNode[] {
  const stated = coil.spindle?.value;
  const wire: Rotation | undefined = wireDirection(coil);
  const face = stated?.towardIt ?? 'top';
  const bySpindle = wire && spindleFor(wire, face);
  const rotation = stated?.rotation ?? bySpindle;
  const lies = stated ? rotationFromSpindle(stated) : undefined;
  const contradiction = lies !== undefined && coil.wound !== undefined && lies !== coil.wound.value;
  const id = `mount-${[pickup.name, coil.name].join('-').replace(/[^A-Za-z0-9-]/g, '-')}`;
  const drawing = mountDrawing({ id, towardSpindle: face, spindle: rotation, wire });
  if (wire === undefined) {
    return [
      h('div', { class: 'drawing' }, { svg: drawing }),
      h(
        'p',
        {},
        'The winding direction is unknown: it is never assumed. State it in the spec before winding, and print again.',
      ),
    ];
  }
  const other = opposite(face);
  return [
    h('div', { class: 'drawing' }, { svg: drawing }),
    h(
      'p',
      {},
      `${capital(face)} toward the spindle: spindle ${rotation}, seen facing it. The wire then lies `,
      h('b', {}, wire),
      ` from start to finish, seen from the strings. ${stated ? '' : `With the ${other} toward it the spindle turns ${spindleFor(wire, other)}. `}`,
      ...(contradiction ? [h('b', {}, 'The spec states a spindle that gives the other way: settle it first. ')] : []),
      ...tickBox('checked on the first ten turns'),
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
  roomC: number,
): HtmlNode {
  const { geometry } = winding ?? {};
  if (rows.length === 0 || !geometry)
    return h('p', {}, `Resistance on the way ${unknown('bobbin, wire and turns settle it')}.`);
  return section(
    table({
      caption: `Resistance on the way, kΩ, coil at ${printCelsius(roomC)}`,
      columns: [['turns', 'n'], ['metres', 'n'], ['expected', 'n'], 'passes', ['counter', 'box'], ['read', 'box']],
      rows: rows.map(({ turns, resistanceOhm }) => [
        h('th', { scope: 'row', class: 'n' }, h('b', {}, printCount(turns))),
        h('td', { class: 'n' }, printNumber(windCoil(geometry, turns).wireLengthM, 0)),
        h('td', { class: 'n x' }, kiloohm(resistanceOhm.value, bench)),
        h('td', { class: 's' }, passText(resistanceOhm, bench)),
        boxCell(),
        boxCell(),
      ]),
    }),
  );
}

function progressNote(coil: Coil, rows: readonly ProgressRow[]): HtmlNode {
  const [first] = rows;
  const at = first && rows.length > 1 ? printCount(first.turns) : 'any';
  const counted =
    coil.counted && coil.turns ? ` The last line is for the ${printCount(coil.counted.value.si)} turns counted.` : '';
  return h(
    'p',
    { class: 'q' },
    `Outside the band at ${at} turns: check the spool before you go on. A coil fresh off the machine is warm: 5\u202F°C reads 2\u202F% high.${counted}`,
  );
}

function breaks(): HtmlNode {
  const blank = [h('td', {}), h('td', {})];
  return section(
    table({
      className: 'blank',
      caption: 'Breaks',
      columns: ['at turn', 'mended how, turns lost'],
      rows: [blank, blank, blank],
    }),
  );
}

function asWound(coil: Coil): HtmlNode {
  return section(
    h('h2', {}, 'As wound'),
    fields(
      [
        { label: 'counter', value: coil.counted && printCount(coil.counted.value.si) },
        { label: 'kΩ' },
        { label: 'room, °C' },
        { label: 'after leads, kΩ' },
        { label: 'to poles, open?' },
        { label: 'date, hand' },
      ],
      'f2',
    ),
  );
}
