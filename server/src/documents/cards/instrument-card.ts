/** The wiring of an instrument on paper: pickups, controls with taper and tolerance, positions. */

import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import type { InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import { CAPACITOR_TOLERANCE, POT_TOLERANCE } from '../../estimates/common-practice.ts';
import type { Control, Instrument } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';
import { isPlaced } from '../../model/soldered.ts';
import { wiringWords } from '../../words/control-words.ts';
import type { Language } from '../../words/languages/language.ts';
import { titleOf } from '../../words/parts.ts';
import { type HtmlNode, h, rowHead, table, typed } from '../html.ts';
import { instrumentPicture } from '../instrument-diagram/from-model.ts';
import { instrumentDiagram } from '../instrument-diagram/instrument-diagram.ts';
import { switchPicture } from '../switch-diagram/from-model.ts';
import { switchDiagram } from '../switch-diagram/switch-diagram.ts';
import type { Card, CardSource } from './card.ts';
import { boxCell, cardWith, cautions, fields, mind } from './frame.ts';
import { millimetres, written } from './numbers.ts';
import { aboutInstrument } from './pickup-words.ts';
import { type PlacedDrawing, placedDrawing } from './placed-drawing.ts';
import { positionTable } from './position-table.ts';
import { toldQuantity } from './told-reading.ts';

export function instrumentCard(analysed: InstrumentAnalysis, source: CardSource): Card {
  const { instrument } = analysed;
  const { t } = source.setting;
  const drawn = schematic(analysed, source);
  return cardWith(
    {
      kind: 'wiring',
      of: [instrument.name],
      title: `${t('Wiring')}: ${titleOf(instrument)}`,
      about: [...aboutInstrument(instrument, t), t('pickups, controls and positions')],
      atRoom: true,
      findings: analysed.findings,
      behind: drawn?.node,
      css: drawn?.css,
    },
    source.setting,
    pickupTable(instrument, t),
    controlTable(instrument, t),
    fields(
      [
        { label: t('cable'), value: cableText(instrument, t) },
        { label: t('input'), value: written(instrument.input?.value, t) ?? t('{0}, assumed', '1\u202FMΩ') },
        { label: t('ground'), value: t('every ground and shield meets at one point; strings bonded to it') },
      ],
      'f3',
    ),
    positionTable(analysed, source),
    mind(t, [
      t(
        'A pot turned down to 0 shorts the signal to ground, so the jack reads next to nothing: read with controls full up.',
      ),
      t(
        'Touch each cover and the strings at the amplifier: where touching makes the buzz louder, that metal is not grounded.',
      ),
      ...cautions(t, 'solder', 'hearing'),
      ...(drawn
        ? []
        : [t('The drawing is too large for a sheet: print the picture that `pickup-spec draw` makes of it.')]),
    ]),
  );
}

/** The schematic, or the lugs of a wired instrument, on a page of its own, sideways; only where it fits with its type at 8 pt. */
function schematic(analysed: InstrumentAnalysis, { analysis, setting: { t } }: CardSource): PlacedDrawing | undefined {
  const lugs = switchPicture(analysis, analysed, undefined, t);
  const picture = instrumentPicture(analysis, analysed, { t });
  // What its states do stands in the table of positions.
  const svg = lugs ? switchDiagram({ ...lugs, states: [] }, 'wide') : instrumentDiagram(picture, 'wide');
  const height = Number(/viewBox="0 0 \d+ (\d+)"/.exec(svg)?.[1]);
  if ((!lugs && picture.sections.length !== 1) || !(height <= TALLEST_PX)) return undefined;
  const { node, css } = placedDrawing(svg);
  return { node: h('section', { class: 'sideways' }, node), css };
}

/** 190 mm of paper at the scale that 12 px of type are 8 pt at. */
const TALLEST_PX = (190 / 25.4) * 96 * (12 / (8 / 0.75));

/** Of the cable, as stated or assumed. */
const cableText = ({ cable }: Instrument, t: Language): string =>
  cable
    ? t('{0} of {1}', toldQuantity(cable.value.length, t), toldQuantity(cable.value.capacitancePerLength, t))
    : t('{0}, assumed', '450\u202FpF');

function pickupTable(instrument: Instrument, t: Language): HtmlNode {
  return table({
    caption: t('Pickups'),
    columns: [t('place'), t('pickup'), t('serial'), [t('to the saddle, mm'), 'n'], t('hot'), t('ground'), t('others')],
    rows: instrument.slots.map(({ name, pickup, pickupName, distance }) => [
      rowHead(h('b', {}, typed(name))),
      h('td', {}, typed(pickup ? titleOf(pickup) : pickupName.value)),
      h('td', {}, typed(pickup?.serial?.value ?? t('none stated'))),
      h('td', { class: 'n' }, distance ? millimetres(distance.si, t, 0) : t('unknown: measure')),
      ...(['hot', 'ground'] as const).map((kind) => h('td', {}, typed(jointText(pickup, [kind], t)))),
      h('td', {}, typed(othersText(pickup, t))),
    ]),
  });
}

function jointText(pickup: Pickup | undefined, kinds: readonly string[], t: Language): string {
  const joints = (pickup?.hookup?.joints ?? []).filter(({ kind }) => kinds.includes(kind));
  const leads = joints.flatMap(({ leads: paths }) => paths.map(({ text }) => leadLetters(text)));
  return leads.length > 0 ? leads.join(' + ') : t('not stated');
}

function othersText(pickup: Pickup | undefined, t: Language): string {
  const joints = (pickup?.hookup?.joints ?? []).filter(({ kind }) => kind !== 'hot' && kind !== 'ground');
  const words = joints.map(({ kind, leads }) => {
    const letters = leads.map(({ text }) => leadLetters(text)).join(' + ');
    return kind === 'free' ? t('{0} taped off or to the switch', letters) : `${t.word(kind)} ${letters}`;
  });
  return words.length > 0 ? words.join('; ') : t('none');
}

function controlTable({ controls, wiring }: Instrument, t: Language): HtmlNode {
  if (controls.length === 0) return h('p', {}, t('Controls: none stated.'));
  return table({
    caption: t('Controls'),
    columns: [t('part'), t('serves'), t('track'), t('taper'), t('capacitor'), t('passes'), [t('read'), 'box']],
    // The halves of a blend are one part.
    rows: controls
      .filter((control) => control.kind !== 'blend' || control.end === 'first')
      .map((control) => [
        rowHead(h('b', {}, t(control.kind === 'bleed' ? 'treble bleed' : control.kind)), ...ownName(control)),
        h('td', {}, isPlaced(control, wiring) ? t('where its lugs are soldered') : typed(servesText(control, t))),
        ...partCells(control, t),
        boxCell(),
      ]),
    foot: [
      h(
        'td',
        { colspan: 7, class: 'q' },
        t(
          'Tolerance where none is stated: pots {0}, capacitors {1}. Read each before it is fitted.',
          `±${POT_TOLERANCE * 100}\u202F%`,
          `±${CAPACITOR_TOLERANCE * 100}\u202F%`,
        ),
      ),
    ],
  });
}

/** By which the joints of the wiring know it. */
const ownName = ({ name }: Control): readonly HtmlNode[] => (name ? [typed(` ${name}`)] : []);

function servesText(control: Control, t: Language): string {
  const { forSlot, inPositions } = control;
  const slot =
    control.kind === 'blend'
      ? t('{0} at 0 to {1} at 10, before the selector', control.forSlot.value, control.other.value)
      : forSlot
        ? t('{0}, before the selector', forSlot.value)
        : t('all, after the selector');
  return inPositions ? `${slot}; ${t('in position {0} only', inPositions.map(({ value }) => value).join(', '))}` : slot;
}

function partCells(control: Control, t: Language): readonly HtmlNode[] {
  const cell = (text: string | undefined) => h('td', {}, text ?? t('none'));
  if (control.kind === 'bleed') {
    const resistor =
      control.resistor &&
      t(control.joined === 'series' ? '{0} in series' : '{0} in parallel', written(control.resistor, t) ?? '');
    return [
      cell(resistor),
      cell(t('fixed')),
      cell(written(control.capacitor, t)),
      cell(limits(control.capacitor.si, CAPACITOR_TOLERANCE, 'capacitance', control.capacitor.sd, t)),
    ];
  }
  return [
    cell(written(control.track, t)),
    cell([t.word(control.taper).replace('-', ' '), ...wiringWords(control).map((each) => t(each))].join(', ')),
    cell(control.kind === 'tone' ? written(control.capacitor, t) : undefined),
    cell(limits(control.track.si, POT_TOLERANCE, 'resistance', control.track.sd, t)),
  ];
}

function limits(
  si: number,
  share: number,
  dimension: 'resistance' | 'capacitance',
  sd: number | undefined,
  t: Language,
): string {
  const half = sd === undefined ? share * si : 2 * sd;
  const text = (value: number) => written({ dimension, si: value, written: '' }, t, 3) ?? '';
  return t('{0} to {1}', text(si - half), text(si + half));
}
