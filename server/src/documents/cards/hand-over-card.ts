/** What leaves the shop with the work. Sections and fields are the shop's choice: some laws prescribe what a repair invoice shows. */
import type { InstrumentAnalysis, PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { Finding } from '../../checks/finding.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { Pickup } from '../../model/pickup.ts';
import { printQuantity } from '../../quantities/print.ts';
import { cautionsOf } from '../../words/cautions.ts';
import { phaseExplained } from '../../words/phases.ts';
import { type HtmlNode, h, typed } from '../html.ts';
import type { Card, CardSource, HandOverSection } from './card.ts';
import { fields, frame } from './frame.ts';
import { instrumentTitle } from './instrument-card.ts';
import { ofDimension, turnsText } from './numbers.ts';
import { aboutPickup, titleOf } from './pickup-words.ts';
import { positionTable } from './position-table.ts';
import { isWoundHere } from './winding-card.ts';

export interface HandedOver {
  readonly name: string;
  readonly title: string;
  readonly about: readonly (string | undefined)[];
  readonly findings: readonly Finding[];
  readonly pickups: readonly PickupAnalysis[];
  readonly instrument: InstrumentAnalysis | undefined;
}

export const handedOverPickup = (analysed: PickupAnalysis): HandedOver => ({
  name: analysed.pickup.name,
  title: titleOf(analysed.pickup),
  about: aboutPickup(analysed.pickup),
  findings: analysed.findings,
  pickups: [analysed],
  instrument: undefined,
});

/** With those of its pickups that the file itself holds or uses. */
export const handedOverInstrument = (analysed: InstrumentAnalysis, pickups: readonly PickupAnalysis[]): HandedOver => ({
  name: analysed.instrument.name,
  title: instrumentTitle(analysed.instrument),
  about: [`${analysed.instrument.slots.length} pickups`],
  findings: [...analysed.findings, ...pickups.flatMap(({ findings }) => findings)],
  pickups,
  instrument: analysed,
});

export function handOverCard(handed: HandedOver, source: CardSource): Card {
  const title = `Hand-over: ${handed.title}`;
  const { handOver, handOverFields } = source.setting;
  const extra = handOverFields.filter((field) => !handOver.some((section) => section === field.title));
  return {
    kind: 'hand-over',
    about: [handed.name],
    title,
    body: frame(
      { title, about: handed.about, atRoom: handed.instrument !== undefined, findings: handed.findings },
      source.setting,
      fields([
        { label: 'customer', value: customers(handed.pickups) },
        { label: 'received' },
        { label: 'handed over' },
        { label: 'by' },
      ]),
      ...handOver.map((section) => sectionNode(section, handed, source)),
      ...(extra.length > 0
        ? [
            fields(
              extra.map(({ title: label, text }) => ({ label, value: text === '' ? undefined : typed(text) })),
              'f2 tall',
            ),
          ]
        : []),
    ),
  };
}

const customers = (pickups: readonly PickupAnalysis[]): HtmlNode | undefined => {
  const named = [...new Set(pickups.flatMap(({ pickup }) => pickup.customer?.value ?? []))];
  return named.length > 0 ? typed(named.join('; ')) : undefined;
};

function sectionNode(section: HandOverSection, handed: HandedOver, source: CardSource): HtmlNode {
  const filled = source.setting.handOverFields.find(({ title }) => title === section)?.text;
  const own = filled ? [h('p', {}, typed(filled))] : [];
  const at = (title: string, ...content: readonly HtmlNode[]) =>
    h('section', { class: section === 'positions' ? 'long' : undefined }, h('h2', {}, title), ...own, ...content);
  switch (section) {
    case 'work':
      return at('Work done', list(notes(handed)), blank(1));
    case 'new':
      return at('Parts new', ...listOrBlank(handed.pickups.flatMap((each) => newParts(each, source))));
    case 'old':
      return at('Parts kept', ...listOrBlank(handed.pickups.flatMap((each) => keptParts(each, source))));
    case 'returned':
      return at('Old parts returned', blank(1));
    case 'positions':
      return handed.instrument
        ? h('section', { class: 'long' }, ...own, positionTable(handed.instrument, source))
        : at('Pickup', list(handed.pickups.map((each) => pickupLine(each))));
    case 'care':
      return at('Care', h('ul', {}, ...CARE.map((each) => h('li', {}, each))));
    case 'contact':
      return at('Contact', filled ? '' : blank(1));
  }
}

/** Heights: common practice, sources disagree. */
const CARE: readonly string[] = [
  'Pickup height with the last fret held: about 1.2 to 1.6 mm for two coils, 2.0 to 2.4 mm for one; too close pulls the strings off pitch.',
  'No solvent, no hair dryer: wax and bobbins soften. Wipe dry.',
  'Keep this sheet: the readings on it are what a later fault is judged by.',
  ...cautionsOf('magnets'),
];

const list = (lines: readonly (readonly HtmlNode[])[]): HtmlNode =>
  lines.length === 0 ? '' : h('ul', {}, ...lines.map((each) => h('li', {}, ...each)));

const listOrBlank = (lines: readonly (readonly HtmlNode[])[]): readonly HtmlNode[] =>
  lines.length === 0 ? [blank(1)] : [list(lines)];

/** Lines to write on. */
const blank = (lines: number): HtmlNode =>
  fields(
    Array.from({ length: lines }, () => ({ label: '' })),
    'f1',
  );

const notes = ({ pickups }: HandedOver): readonly (readonly HtmlNode[])[] =>
  pickups.flatMap(({ pickup }) => [
    ...(pickup.made ? [[typed(titleOf(pickup)), `: finished ${pickup.made.value}`]] : []),
    ...pickup.notes.map(({ value }) => [typed(value)]),
  ]);

function newParts({ pickup }: PickupAnalysis, { analysis }: CardSource): readonly (readonly HtmlNode[])[] {
  const quick = quickOf(analysis.bench)(pickup);
  return pickup.coils
    .filter(isWoundHere)
    .map((coil) => [typed(titleOf(pickup)), ', ', typed(coil.name), ` coil: ${coilText(quick, coil)}`]);
}

function keptParts({ pickup }: PickupAnalysis, { analysis }: CardSource): readonly (readonly HtmlNode[])[] {
  const quick = quickOf(analysis.bench)(pickup);
  return pickup.coils
    .filter((coil) => !isWoundHere(coil))
    .map((coil) => [typed(titleOf(pickup)), ', ', typed(coil.name), ` coil: ${coilText(quick, coil)}`]);
}

function coilText(quick: QuickEstimates, coil: Pickup['coils'][number]): string {
  const winding = quick.windings.get(coil);
  const gauge = coil.wire?.gaugeAwg?.value;
  const turns = coil.counted ?? coil.turns;
  const wound = [
    turns
      ? `${turnsText(turns.value.si)} turns`
      : winding?.turns
        ? printQuantity({ value: winding.turns.value, sd: winding.turns.sd, dimension: 'turns' })
        : 'turns unknown',
    ...(gauge === undefined ? [] : [`of ${gauge} AWG`]),
  ].join(' ');
  const ohm = winding?.resistance20COhm;
  return ohm ? `${wound}, ${ofDimension(ohm, 'resistance')} at 20\u202F°C` : wound;
}

function pickupLine({ pickup, quick }: PickupAnalysis): readonly HtmlNode[] {
  const ohm = quick.resistance20COhm;
  const words = ohm
    ? `${ofDimension(ohm, 'resistance')} at 20\u202F°C`
    : ohm === null
      ? 'open'
      : 'resistance unknown: read it';
  return [typed(titleOf(pickup)), `: hot to ground ${words}, ${phaseExplained(quick.phase)}`];
}
