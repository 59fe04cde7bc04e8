/** What leaves the shop with the work. Sections and fields are the shop's choice: some laws prescribe what a repair invoice shows. */

import type { InstrumentAnalysis, PickupAnalysis } from '../../analysis/analysis-types.ts';
import { quickOf } from '../../analysis/pickup-analysis.ts';
import type { Finding } from '../../checks/finding.ts';
import { wholePickupNumbers } from '../../comparison/numbers-table.ts';
import { reworkOf } from '../../comparison/reworks.ts';
import { told } from '../../estimates/coil-winding.ts';
import { HEIGHT_MM } from '../../estimates/common-practice.ts';
import { loadOf } from '../../estimates/pickup-estimates.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { celsius } from '../../model/bench.ts';
import type { Coil } from '../../model/coil.ts';
import { formerState } from '../../model/former-state.ts';
import type { Instrument } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';
import type { WaxPart } from '../../model/potting.ts';
import type { Readings } from '../../model/readings.ts';
import { workDone } from '../../model/work-done.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printCelsius, printCount, printNumber, printQuantity } from '../../quantities/print.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { gaugeWords, titleOf } from '../../words/parts.ts';
import { phaseExplained } from '../../words/phases.ts';
import { columnHeads, type HtmlNode, h, phrase, rowHead, table, typed } from '../html.ts';
import { photographsOnPage } from '../photographs.ts';
import { loadWords } from '../response-plot/load-words.ts';
import type { Card, CardSource, HandOverSection } from './card.ts';
import { cardWith, cautions, fields, tickBox } from './frame.ts';
import { ofDimension } from './numbers.ts';
import { aboutInstrument, aboutPickup } from './pickup-words.ts';
import { positionTable } from './position-table.ts';
import { toldReading } from './told-reading.ts';

export interface HandedOver {
  readonly name: string;
  readonly title: string;
  readonly about: readonly (string | undefined)[];
  readonly findings: readonly Finding[];
  readonly pickups: readonly PickupAnalysis[];
  readonly instrument: InstrumentAnalysis | undefined;
}

export const handedOverPickup = (analysed: PickupAnalysis, t: Language): HandedOver => ({
  name: analysed.pickup.name,
  title: titleOf(analysed.pickup),
  about: aboutPickup(analysed.pickup, t),
  findings: analysed.findings,
  pickups: [analysed],
  instrument: undefined,
});

/** With those of its pickups that the file itself holds or uses. */
export const handedOverInstrument = (
  analysed: InstrumentAnalysis,
  pickups: readonly PickupAnalysis[],
  t: Language,
): HandedOver => ({
  name: analysed.instrument.name,
  title: titleOf(analysed.instrument),
  about: [...aboutInstrument(analysed.instrument, t), t('{0} pickups', String(analysed.instrument.slots.length))],
  findings: [...analysed.findings, ...pickups.flatMap(({ findings }) => findings)],
  pickups,
  instrument: analysed,
});

export function handOverCard(handed: HandedOver, source: CardSource): Card {
  const { handOver, handOverFields, photos, t } = source.setting;
  const shown = [
    ...(handed.instrument ? [handed.instrument.instrument] : []),
    ...handed.pickups.map(({ pickup }) => pickup),
  ];
  const extra = handOverFields.filter((field) => !handOver.some((section) => section === field.title));
  return cardWith(
    {
      kind: 'hand-over',
      of: [handed.name],
      title: t('Hand-over: {0}', handed.title),
      about: handed.about,
      atRoom: handed.instrument !== undefined,
      findings: handed.findings,
    },
    source.setting,
    fields([
      { label: t('customer'), value: customers(shown) },
      { label: t('received') },
      { label: t('handed over') },
      { label: t('by') },
    ]),
    ...withContactKept(handOver, (section) => sectionNode(section, handed, source)),
    ...(extra.length > 0
      ? [
          fields(
            extra.map(({ title: label, text }) => ({ label, value: text === '' ? undefined : typed(text) })),
            'f2 tall',
          ),
        ]
      : []),
    ...(photos ? photographsOnPage(source.analysis, shown, photos, t) : []),
  );
}

/** Where to ask comes last and is one blank line: what stands before it comes with it, so that no page holds it and the foot alone. */
function withContactKept(
  sections: readonly HandOverSection[],
  nodeOf: (section: HandOverSection) => HtmlNode,
): readonly HtmlNode[] {
  const nodes = sections.map(nodeOf);
  const [before, last] = sections.slice(-2);
  if (last !== 'contact' || before === undefined || before === 'positions') return nodes;
  return [...nodes.slice(0, -2), h('div', { class: 'end' }, ...nodes.slice(-2))];
}

const customers = (things: readonly (Pickup | Instrument)[]): HtmlNode | undefined => {
  const named = [...new Set(things.flatMap(({ customer }) => customer?.value ?? []))];
  return named.length > 0 ? typed(named.join('; ')) : undefined;
};

function sectionNode(section: HandOverSection, handed: HandedOver, source: CardSource): HtmlNode {
  const { t } = source.setting;
  const filled = source.setting.handOverFields.find(({ title }) => title === section)?.text;
  const own = filled ? [h('p', {}, typed(filled))] : [];
  const at = (title: PlainText, ...content: readonly HtmlNode[]) =>
    h('section', { class: section === 'positions' ? 'long' : undefined }, h('h2', {}, t(title)), ...own, ...content);
  switch (section) {
    case 'work':
      return at(
        'Work done',
        list([...notes(handed, t), ...partLines(handed, (each) => workLines(each, t))]),
        ...handed.pickups.flatMap((each) => whatItDid(each, source)),
        blank(1),
      );
    case 'new':
      return at('Parts new', ...listOrBlank(partLines(handed, (each) => newParts(each, source))));
    case 'old':
      return at('Parts kept', ...listOrBlank(partLines(handed, (each) => keptParts(each, source))));
    case 'returned':
      return at('Old parts returned', ticks(partLines(handed, (each) => returnedParts(each, source))), blank(1));
    case 'positions':
      return handed.instrument
        ? h(
            'section',
            { class: 'long' },
            ...own,
            positionTable(handed.instrument, source),
            list(partLines(handed, ({ pickup }) => readingLines(pickup, t))),
          )
        : at('Pickup', list(handed.pickups.flatMap((each) => [pickupLine(each, t), ...readingLines(each.pickup, t)])));
    case 'care':
      return at('Care', h('ul', {}, ...care(t).map((each) => h('li', {}, each))));
    case 'contact':
      return at('Contact', filled ? '' : blank(1));
  }
}

const between = ([least, most]: readonly [number, number], t: Language): string =>
  t('{0} to {1}', printNumber(least, 1, t.numbers), `${printNumber(most, 1, t.numbers)}\u202Fmm`);

const care = (t: Language): readonly string[] => [
  t(
    'Pickup height with the last fret held: about {0} for two coils, {1} for one; too close pulls the strings off pitch.',
    between(HEIGHT_MM['two coils'], t),
    between(HEIGHT_MM['one coil'], t),
  ),
  t('No solvent, no hair dryer: wax and bobbins soften. Wipe dry.'),
  t('Keep this sheet: the readings on it are what a later fault is judged by.'),
  ...cautions(t, 'magnets'),
];

const list = (lines: readonly Line[]): HtmlNode =>
  lines.length === 0 ? '' : h('ul', {}, ...lines.map((each) => h('li', {}, ...each)));

const listOrBlank = (lines: readonly Line[]): readonly HtmlNode[] => (lines.length === 0 ? [blank(1)] : [list(lines)]);

/** Lines to write on. */
const blank = (lines: number): HtmlNode =>
  fields(
    Array.from({ length: lines }, () => ({ label: '' })),
    'f1',
  );

const notes = ({ pickups }: HandedOver, t: Language): readonly Line[] =>
  pickups.flatMap(({ pickup }) => [
    ...(pickup.made ? [[typed(titleOf(pickup)), `: ${t('finished {0}', pickup.made.value)}`]] : []),
    // What was noted of a state before this one was handed over with that.
    ...pickup.notes.filter(({ place }) => place.chunk === pickup.place.chunk).map(({ value }) => [typed(value)]),
  ]);

type Line = readonly HtmlNode[];

/** Lines about the parts of each pickup, which is named where there are several. */
const partLines = ({ pickups }: HandedOver, linesOf: (pickup: PickupAnalysis) => readonly Line[]): readonly Line[] =>
  pickups.flatMap((each) =>
    linesOf(each).map((line) => (pickups.length > 1 ? [typed(titleOf(each.pickup)), ', ', ...line] : line)),
  );

/** Each to be ticked: it is the customer's to say whether old parts go back. */
const ticks = (lines: readonly Line[]): HtmlNode =>
  lines.length === 0 ? '' : h('ul', { class: 'ticks' }, ...lines.map((each) => h('li', {}, ...tickBox(''), ...each)));

const coilLine = (pickup: Pickup, coil: Coil, { analysis, setting: { t } }: CardSource): Line => [
  ...phrase(t, '{0} coil', typed(coil.name)),
  `: ${coilText(quickOf(analysis.bench)(pickup), coil, t)}`,
];

function workLines({ pickup }: PickupAnalysis, t: Language): readonly Line[] {
  const { wound, bar, rods } = workDone(pickup);
  const { potting } = pickup;
  return [
    ...wound.filter(({ work }) => work).map(({ name }) => phrase(t, '{0} coil wound anew', typed(name))),
    ...(bar === 'turned' || bar === 'new' ? [[t(BAR_WORK[bar])]] : []),
    ...rods.map((coil) => phrase(t, RODS_WORK[coil.rods ?? 'kept'], typed(coil.name))),
    ...(potting ? [phrase(t, 'potted in {0}', potting.wax ? typed(mixWords(potting.wax.value, t)) : t('wax'))] : []),
  ];
}

/** `paraffin 80 %, beeswax 20 %`: what a later bath has to agree with. */
const mixWords = (wax: readonly WaxPart[], t: Language): string =>
  wax.map(({ ingredient, share }) => `${t.word(ingredient)} ${Math.round(100 * share)}\u202F%`).join(', ');

const BAR_WORK = { turned: 'bar magnet turned over', new: 'bar magnet exchanged' } as const;
/** A winding holds its rods: nobody turns them. */
const RODS_WORK = {
  kept: 'rod magnets of the {0} coil kept',
  turned: 'rod magnets of the {0} coil magnetised the other way',
  new: 'rod magnets of the {0} coil exchanged',
} as const;

/** The whole pickup's numbers before the work and now, where both are known to differ. */
function whatItDid({ pickup }: PickupAnalysis, { analysis, setting: { t } }: CardSource): readonly HtmlNode[] {
  const rework = reworkOf(analysis, [pickup]);
  const [before, now] = [rework?.before.pickups[0], rework?.after.pickups[0]];
  if (!before || !now) return [];
  const rows = wholePickupNumbers(now, before, t).filter(({ change = '' }) => change !== '');
  if (rows.length === 0) return [];
  return [
    table({
      caption: typed(t('{0}: what the work changed', titleOf(pickup))),
      columns: columnHeads(['', t('before'), t('now'), t('change')]),
      rows: rows.map(({ name, before: was = '', now: is, change = '' }) => [
        rowHead(name),
        h('td', {}, was),
        h('td', {}, is),
        h('td', {}, change),
      ]),
    }),
  ];
}

function newParts({ pickup }: PickupAnalysis, source: CardSource): readonly Line[] {
  const { wound, bar } = workDone(pickup);
  return [
    ...wound.map((coil) => coilLine(pickup, coil, source)),
    ...(bar === 'new' ? barLine(pickup, source.setting.t) : []),
  ];
}

function keptParts({ pickup }: PickupAnalysis, source: CardSource): readonly Line[] {
  const { kept, bar } = workDone(pickup);
  return [
    ...kept.map((coil) => coilLine(pickup, coil, source)),
    ...(bar === 'kept' || bar === 'turned' ? barLine(pickup, source.setting.t) : []),
  ];
}

function returnedParts({ pickup }: PickupAnalysis, source: CardSource): readonly Line[] {
  const { returned, returnedBar, bar } = workDone(pickup);
  const { t } = source.setting;
  return [
    ...returned.map(({ coil, of }) => returnedCoil(of, coil, source)),
    ...(bar === 'new' && formerState(pickup) ? [returnedBar ? barMagnet(returnedBar.name, t) : [t('bar magnet')]] : []),
  ];
}

/** With what is known of it; of one that was only found, its reading. */
function returnedCoil(pickup: Pickup, coil: Coil, source: CardSource): Line {
  const winding = quickOf(source.analysis.bench)(pickup).windings.get(coil);
  if (coil.turns || coil.counted || (winding && told(winding).resistance20COhm)) return coilLine(pickup, coil, source);
  const read = pickup.readings
    .flatMap(({ lines }) => lines)
    .find((line) => line.kind === 'coil resistance' && line.coil.text === coil.name);
  return [
    ...phrase(source.setting.t, '{0} coil as found', typed(coil.name)),
    ...(read ? [': ', typed(toldReading(read, source.setting.t))] : []),
  ];
}

function barLine(pickup: Pickup, t: Language): readonly Line[] {
  const magnet = pickup.barMagnet?.value.magnet;
  return magnet ? [barMagnet(magnet.name, t)] : [];
}

const barMagnet = (name: string, t: Language): Line => phrase(t, 'bar magnet {0}', typed(name));

/** The newest readings as they were written down: what a later fault is judged by. */
function readingLines({ readings }: Pickup, t: Language): readonly Line[] {
  const last = readings.filter(({ found }) => !found).at(-1);
  if (last === undefined || last.lines.length === 0) return [];
  const lines = last.lines.map((each) => toldReading(each, t));
  return [[`${t('Readings')}${takenWhen(last, t)}: `, typed(lines.join('; '))]];
}

const takenWhen = ({ title, date, room }: Readings, t: Language): string =>
  [title && ` ${title}`, date && t(' of {0}', date), room && t(' at {0}', printCelsius(celsius(room.value), t.numbers))]
    .filter(Boolean)
    .join('');

function coilText(quick: QuickEstimates, coil: Coil, t: Language): string {
  const winding = quick.windings.get(coil);
  const gauge = coil.wire?.gaugeAwg?.value;
  const turns = coil.counted ?? coil.turns;
  const wound = [
    turns
      ? t('{0} turns', printCount(turns.value.si, t.numbers))
      : winding?.turns
        ? printQuantity({ value: winding.turns.value, sd: winding.turns.sd, dimension: 'turns', style: t.numbers })
        : t('turns unknown'),
    ...(gauge === undefined ? [] : [t('of {0}', gaugeWords(gauge))]),
  ].join(' ');
  const ohm = winding && told(winding).resistance20COhm;
  return ohm ? `${wound}, ${at20C(ohm, t)}` : wound;
}

const at20C = (ohm: Estimate, t: Language): string => t('{0} at 20\u202F°C', ofDimension(ohm, 'resistance', t));

/** Only what was measured: a computed resonance is nothing to hand over. */
function measuredResonance({ pickup, estimates }: PickupAnalysis, t: Language): readonly string[] {
  const { resonanceHz } = estimates();
  if (resonanceHz?.basis !== 'reading') return [];
  return [
    t('resonance {0} under {1}, measured', ofDimension(resonanceHz, 'frequency', t), loadWords(loadOf(pickup), t)),
  ];
}

function pickupLine(each: PickupAnalysis, t: Language): readonly HtmlNode[] {
  const { pickup, quick } = each;
  const ohm = quick.resistance20COhm;
  const words = ohm ? at20C(ohm, t) : t(ohm === null ? 'open' : 'resistance unknown: read it');
  return [
    typed(titleOf(pickup)),
    `: ${[t('hot to ground {0}', words), ...measuredResonance(each, t), phaseExplained(quick.phase, t)].join(', ')}`,
  ];
}
