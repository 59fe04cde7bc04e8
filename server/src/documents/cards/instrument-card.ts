/** The wiring of an instrument on paper: pickups, controls with taper and tolerance, positions. */

import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import type { InstrumentAnalysis } from '../../analysis/analysis-types.ts';
import { CAPACITOR_TOLERANCE, POT_TOLERANCE } from '../../estimates/common-practice.ts';
import { cableWords } from '../../estimates/positions.ts';
import type { Control, Instrument } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';
import { cautionsOf } from '../../words/cautions.ts';
import { wiringWords } from '../../words/control-words.ts';
import { titleOf } from '../../words/parts.ts';
import { type HtmlNode, h, rowHead, table, typed } from '../html.ts';
import { instrumentPicture } from '../instrument-diagram/from-model.ts';
import { instrumentDiagram } from '../instrument-diagram/instrument-diagram.ts';
import type { Card, CardSource } from './card.ts';
import { boxCell, cardWith, fields, mind } from './frame.ts';
import { millimetres, written } from './numbers.ts';
import { aboutInstrument } from './pickup-words.ts';
import { type PlacedDrawing, placedDrawing } from './placed-drawing.ts';
import { positionTable } from './position-table.ts';

export function instrumentCard(analysed: InstrumentAnalysis, source: CardSource): Card {
  const { instrument } = analysed;
  const drawn = schematic(analysed, source);
  return cardWith(
    {
      kind: 'wiring',
      of: [instrument.name],
      title: `Wiring: ${titleOf(instrument)}`,
      about: [...aboutInstrument(instrument), 'pickups, controls and positions'],
      atRoom: true,
      findings: analysed.findings,
      behind: drawn?.node,
      css: drawn?.css,
    },
    source.setting,
    pickupTable(instrument),
    controlTable(instrument),
    fields(
      [
        { label: 'cable', value: cableWords(instrument.cable) },
        { label: 'input', value: written(instrument.input?.value) ?? '1\u202FMΩ, assumed' },
        { label: 'ground', value: 'every ground and shield meets at one point; strings bonded to it' },
      ],
      'f3',
    ),
    positionTable(analysed, source),
    mind([
      'A pot turned down to 0 shorts the signal to ground, so the jack reads next to nothing: read with controls full up.',
      'Touch each cover and the strings at the amplifier: where touching makes the buzz louder, that metal is not grounded.',
      ...cautionsOf('solder', 'hearing'),
      ...(drawn
        ? []
        : ['The schematic is too large for a sheet: print the picture that `pickup-spec draw` makes of it.']),
    ]),
  );
}

/** The schematic on a page of its own, sideways; only where it fits with its type at 8 pt. */
function schematic(analysed: InstrumentAnalysis, { analysis }: CardSource): PlacedDrawing | undefined {
  const picture = instrumentPicture(analysis, analysed);
  const svg = instrumentDiagram(picture, 'wide');
  const height = Number(/viewBox="0 0 \d+ (\d+)"/.exec(svg)?.[1]);
  if (picture.sections.length !== 1 || !(height <= TALLEST_PX)) return undefined;
  const { node, css } = placedDrawing(svg);
  return { node: h('section', { class: 'sideways' }, node), css };
}

/** 190 mm of paper at the scale that 12 px of type are 8 pt at. */
const TALLEST_PX = (190 / 25.4) * 96 * (12 / (8 / 0.75));

function pickupTable(instrument: Instrument): HtmlNode {
  return table({
    caption: 'Pickups',
    columns: ['place', 'pickup', 'serial', ['to the saddle, mm', 'n'], 'hot', 'ground', 'others'],
    rows: instrument.slots.map(({ name, pickup, pickupName, distance }) => [
      rowHead(h('b', {}, typed(name))),
      h('td', {}, typed(pickup ? titleOf(pickup) : pickupName.value)),
      h('td', {}, typed(pickup?.serial?.value ?? 'none stated')),
      h('td', { class: 'n' }, distance ? millimetres(distance.si, 0) : 'unknown: measure'),
      ...(['hot', 'ground'] as const).map((kind) => h('td', {}, typed(jointText(pickup, [kind])))),
      h('td', {}, typed(othersText(pickup))),
    ]),
  });
}

function jointText(pickup: Pickup | undefined, kinds: readonly string[]): string {
  const joints = (pickup?.hookup?.joints ?? []).filter(({ kind }) => kinds.includes(kind));
  const leads = joints.flatMap(({ leads: paths }) => paths.map(({ text }) => leadLetters(text)));
  return leads.length > 0 ? leads.join(' + ') : 'not stated';
}

function othersText(pickup: Pickup | undefined): string {
  const joints = (pickup?.hookup?.joints ?? []).filter(({ kind }) => kind !== 'hot' && kind !== 'ground');
  const words = joints.map(({ kind, leads }) => {
    const letters = leads.map(({ text }) => leadLetters(text)).join(' + ');
    return kind === 'free' ? `${letters} taped off or to the switch` : `${kind} ${letters}`;
  });
  return words.length > 0 ? words.join('; ') : 'none';
}

function controlTable({ controls }: Instrument): HtmlNode {
  if (controls.length === 0) return h('p', {}, 'Controls: none stated.');
  return table({
    caption: 'Controls',
    columns: ['part', 'serves', 'track', 'taper', 'capacitor', 'passes', ['read', 'box']],
    // The halves of a blend are one part.
    rows: controls
      .filter((control) => control.kind !== 'blend' || control.end === 'first')
      .map((control) => [
        rowHead(h('b', {}, control.kind === 'bleed' ? 'treble bleed' : control.kind)),
        h('td', {}, typed(servesText(control))),
        ...partCells(control),
        boxCell(),
      ]),
    foot: [
      h(
        'td',
        { colspan: 7, class: 'q' },
        `Tolerance where none is stated: pots ±${POT_TOLERANCE * 100}\u202F%, capacitors ±${CAPACITOR_TOLERANCE * 100}\u202F%. Read each before it is fitted.`,
      ),
    ],
  });
}

function servesText(control: Control): string {
  const { forSlot, inPositions } = control;
  const slot =
    control.kind === 'blend'
      ? `${control.forSlot.value} at 0 to ${control.other.value} at 10, before the selector`
      : forSlot
        ? `${forSlot.value}, before the selector`
        : 'all, after the selector';
  return inPositions ? `${slot}; in position ${inPositions.map(({ value }) => value).join(', ')} only` : slot;
}

function partCells(control: Control): readonly HtmlNode[] {
  const cell = (text: string | undefined) => h('td', {}, text ?? 'none');
  if (control.kind === 'bleed') {
    const resistor =
      control.resistor && `${written(control.resistor)} in ${control.joined === 'series' ? 'series' : 'parallel'}`;
    return [
      cell(resistor),
      cell('fixed'),
      cell(written(control.capacitor)),
      cell(limits(control.capacitor.si, CAPACITOR_TOLERANCE, 'capacitance', control.capacitor.sd)),
    ];
  }
  return [
    cell(written(control.track)),
    cell([control.taper.replace('-', ' '), ...wiringWords(control)].join(', ')),
    cell(control.kind === 'tone' ? written(control.capacitor) : undefined),
    cell(limits(control.track.si, POT_TOLERANCE, 'resistance', control.track.sd)),
  ];
}

function limits(si: number, share: number, dimension: 'resistance' | 'capacitance', sd: number | undefined): string {
  const half = sd === undefined ? share * si : 2 * sd;
  const text = (value: number) => written({ dimension, si: value, written: '' }, 3) ?? '';
  return `${text(si - half)} to ${text(si + half)}`;
}
