import { given } from '../../../grammar/values/present.ts';
import type { Analysis, InstrumentAnalysis, PhotoAt } from '../analysis/analysis-types.ts';
import { type NumbersTable, pickupNumbers, positionNumbers } from '../comparison/numbers-table.ts';
import {
  nextReadingOnPage,
  numbersOnPage,
  planOnPage,
  plotOnPage,
  proposalsOnPage,
  readingsOnPage,
  usageOnPage,
} from '../documents/bench-view-page.ts';
import type { HtmlNode } from '../documents/html.ts';
import { impedancePicture, impedancePlot, impedanceTable } from '../documents/impedance-plot.ts';
import { partWords } from '../documents/parts-sheet.ts';
import { positionsPicture, positionsSheet, positionsTable } from '../documents/positions-sheet.ts';
import { beforeAfterPicture } from '../documents/response-plot/before-after.ts';
import {
  noResponseWords,
  pickupResponsePicture,
  positionResponsePicture,
  quickOfBench,
} from '../documents/response-plot/from-model.ts';
import { type ResponsePicture, responsePlot, responseTable } from '../documents/response-plot/response-plot.ts';
import { switchPicture } from '../documents/switch-diagram/from-model.ts';
import { switchDiagram, switchTable } from '../documents/switch-diagram/switch-diagram.ts';
import { loadOf } from '../estimates/pickup-estimates.ts';
import { sweptInBoth, sweptTwice } from '../estimates/sweep-comparison.ts';
import { holdingSweep } from '../estimates/sweeps-used.ts';
import {
  isStillToBeWound,
  type MissingReading,
  missingInstrumentReadings,
  missingPickupReadings,
} from '../features/missing-readings.ts';
import { partUsage } from '../features/part-usage.ts';
import { photographsOf } from '../model/photographs.ts';
import type { Place } from '../model/place.ts';
import { measureNext } from '../proposal/measure-next.ts';
import { measureNextIn } from '../proposal/measure-next-instrument.ts';
import { measurementWords } from '../proposal/measurement-words.ts';
import { openStrings } from '../sound/open-strings.ts';
import type { Language } from '../words/languages/language.ts';
import { LEFT_OUT } from '../words/left-out.ts';
import { photographedWords } from '../words/parts.ts';
import {
  isSectionName,
  type MissingRow,
  type PlotView,
  type ResponseView,
  type Section,
  type SectionAsked,
  type SectionContents,
  type SectionName,
  type ShownPhoto,
  WIDE_FROM,
} from './bench-view-protocol.ts';
import {
  type Before,
  type ComparedStates,
  instrumentNamed,
  nameBefore,
  ownThings,
  pickupNamed,
} from './compared-states.ts';
import { comparisonView } from './comparison-view.ts';
import { heardAt, potsFrom } from './heard.ts';
import { planView } from './plan-view.ts';
import { proposalsView } from './proposals-view.ts';
import type { Subject } from './protocol-parts.ts';
import { plotWidth, sheetWidth } from './sheet-width.ts';
import { toRange } from './to-protocol.ts';
import { whatIfView } from './what-if.ts';

/** A section of the bench view: how it is made, and how it stands in the saved page. */
interface Maker<N extends SectionName> {
  /** `undefined`: there is none of what is asked for. */
  make(states: ComparedStates, params: SectionAsked): SectionContents[N] | undefined;
  /** `undefined`: the page leaves it out. */
  readonly inPage: ((content: SectionContents[N], t: Language) => readonly HtmlNode[]) | undefined;
}

/** In the order in which the saved page has them. */
const MAKERS: { readonly [N in SectionName]: Maker<N> } = {
  numbers: {
    make: (states, params) => numbersView(states, params) ?? { caption: states.t('Numbers'), rows: [] },
    inPage: numbersOnPage,
  },
  response: { make: responseView, inPage: plotOnPage },
  sweeps: { make: sweepsView, inPage: plotOnPage },
  impedance: { make: impedanceView, inPage: plotOnPage },
  positions: { make: positionsView, inPage: plotOnPage },
  switches: { make: switchesView, inPage: plotOnPage },
  next: { make: nextView, inPage: ({ reading }, t) => nextReadingOnPage(reading, t) },
  missing: {
    make: (states, { subject }) => ({
      readings: missingRows(states, subject),
      ...given({ why: whyNone(states, subject) }),
    }),
    inPage: ({ readings }, t) => readingsOnPage(readings, t),
  },
  // A saved page holds copies of the photographs themselves: it reads their files.
  photos: { make: photosView, inPage: undefined },
  proposals: { make: proposalsView, inPage: proposalsOnPage },
  plan: { make: planView, inPage: planOnPage },
  // Nothing can be moved on paper.
  whatIf: { make: whatIfView, inPage: undefined },
  usage: { make: usageView, inPage: usageOnPage },
  // The page of a comparison is a page of its own.
  comparison: {
    make: (states, params) => states.before && comparisonView(states, states.before, params),
    inPage: undefined,
  },
};

/** One section of the bench view; `undefined` where there is no such section now. */
export function sectionOf<N extends SectionName>(
  section: N,
  states: ComparedStates,
  params: SectionAsked,
): Section<N> | undefined {
  const { make }: Maker<N> = MAKERS[section];
  const content = make(states, params);
  return content && { section, ...content };
}

/** The sections that a saved page shows. */
export const sectionsInPage = (states: ComparedStates, params: SectionAsked): readonly HtmlNode[] =>
  Object.keys(MAKERS)
    .filter(isSectionName)
    .flatMap((name) => inPage(name, states, params));

function inPage<N extends SectionName>(name: N, states: ComparedStates, params: SectionAsked): readonly HtmlNode[] {
  const { make, inPage: shown }: Maker<N> = MAKERS[name];
  const content = shown && make(states, params);
  return content && shown ? shown(content, states.t) : [];
}

function whyNone({ now, t }: ComparedStates, { kind, name }: Subject): string | undefined {
  const pickup = kind === 'pickup' ? pickupNamed(now, name) : undefined;
  return pickup && isStillToBeWound(pickup)
    ? t('It is still to be wound for its target: there is nothing to read yet.')
    : undefined;
}

function missingRows({ document, now, t }: ComparedStates, { kind, name }: Subject): readonly MissingRow[] {
  const pickup = kind === 'pickup' ? pickupNamed(now, name) : undefined;
  const instrument = kind === 'instrument' ? instrumentNamed(now, name) : undefined;
  const readings: readonly MissingReading[] = pickup
    ? missingPickupReadings(now, pickup, t)
    : instrument
      ? missingInstrumentReadings(instrument, t)
      : [];
  return readings.map(({ place, ...row }) => ({ ...row, ...given({ range: rangeIn(document, now, place) }) }));
}

function nextView(
  { document, now, t }: ComparedStates,
  { subject: { kind, name } }: SectionAsked,
): SectionContents['next'] {
  const pickup = kind === 'pickup' ? pickupNamed(now, name) : undefined;
  const instrument = kind === 'instrument' ? instrumentNamed(now, name) : undefined;
  const next = pickup ? measureNext(pickup, now) : instrument && measureNextIn(instrument, now);
  if (next === undefined) return {};
  return { reading: { ...measurementWords(next, t), ...given({ range: rangeIn(document, now, next.place) }) } };
}

function photosView({ document, now, t }: ComparedStates, { subject }: SectionAsked): SectionContents['photos'] {
  const shown = ownThings(now, subject).flatMap(photographsOf);
  return {
    photos: shown.map(
      ({ line, of }): ShownPhoto => ({
        caption: line.value.caption,
        ...pictureOf(now.photoAt(line), line.value.file.value, t),
        ...given({ of: of && photographedWords(of, t), range: rangeIn(document, now, line.place) }),
      }),
    ),
  };
}

function usageView({ document, now, among, t }: ComparedStates): SectionContents['usage'] {
  return {
    rows: partUsage(now, among ?? [now], t).map(({ part, usedBy, left }) => ({
      part: partWords(part, t),
      usedBy,
      ...given({ left, range: rangeIn(document, now, part.place) }),
    })),
  };
}

/** `undefined` where the place lies in another file. */
function rangeIn(document: ComparedStates['document'], now: ComparedStates['now'], place: Place) {
  const at = now.locate(place);
  return at?.uri === now.uri ? toRange(document, at) : undefined;
}

function pictureOf(at: PhotoAt, written: string, t: Language): Partial<ShownPhoto> {
  if (at.kind === 'outside') return { why: t('{0} lies outside the workspace; it is not opened.', written) };
  const { uri, file } = at;
  if (file === undefined) return { why: t('{0} is being read.', written) };
  if (file.kind === 'missing') return { why: t('There is no photograph {0}.', written) };
  if (file.kind !== 'photo')
    return { why: `${written} ${file.reason}.`, ...(t.code === 'en' ? {} : { foreign: 'en' }) };
  const { width, height, mark } = file;
  return { uri, width, height, mark };
}

export function numbersView({ now, before, t }: ComparedStates, params: Heard): NumbersTable | undefined {
  const { subject } = params;
  if (subject.kind === 'pickup') {
    const pickup = pickupNamed(now, subject.name);
    return pickup && pickupNumbers(pickup, before && pickupNamed(before.analysis, nameBefore(before, subject)), t);
  }
  const heard = heardAt(now, params);
  if (heard === undefined) return undefined;
  const table: NumbersTable | undefined = positionNumbers(
    heard.instrument,
    heard.position.key.value,
    { played: potsFrom(params.pots), before: before && instrumentBefore(before, heard.instrument) },
    t,
  );
  return table;
}

type Heard = Pick<SectionAsked, 'subject' | 'position' | 'pots'>;

export function responseView(states: ComparedStates, params: Heard & Pick<SectionAsked, 'width'>): ResponseView {
  const picture = responsePicture(states, params);
  const estimates = heardEstimates(states.now, params);
  return {
    isMeasured: estimates?.peakDb?.basis === 'reading',
    ...(picture
      ? { svg: responsePlot(picture, plotWidth(params.width)), table: responseTable(picture) }
      : { why: noResponseWords(estimates, states.t) }),
    leftOut: LEFT_OUT.map((each) => states.t(each)),
    strings: openStrings(stringCount(states.now, params)).map(({ name, hz }) => ({ name, hz })),
  };
}

/** What is heard: the position's estimates, or those of the pickup by itself. */
function heardEstimates(now: Analysis, params: Heard) {
  const heard = heardAt(now, params);
  if (heard === undefined) return pickupNamed(now, params.subject.name)?.estimates();
  return heard.instrument.positions(potsFrom(params.pots)).find(({ key }) => key === heard.position.key.value);
}

/** As the instrument that it is heard through says, else the pickup. */
function stringCount(now: Analysis, params: Heard): number | undefined {
  const { kind, name } = params.subject;
  const instrument = heardAt(now, params)?.instrument.instrument;
  const pickup =
    kind === 'pickup' ? pickupNamed(now, name)?.pickup : instrument?.slots.find(({ pickup }) => pickup)?.pickup;
  return instrument?.strings?.value.count ?? pickup?.strings?.value;
}

/** The response at the jack in the position heard; of a pickup heard by itself, under the usual load. */
export function responsePicture(
  { now, before, called, t }: ComparedStates,
  params: Heard,
): ResponsePicture | undefined {
  const { subject } = params;
  const names = { before: before?.label(t) ?? '', now: called ?? t('now') };
  const heard = heardAt(now, params);
  if (heard) {
    const past = before && instrumentBefore(before, heard.instrument);
    return positionResponsePicture({ analysis: now, instrument: heard.instrument }, heard.position.key.value, {
      played: potsFrom(params.pots),
      t,
      names,
      before: before && past && { analysis: before.analysis, instrument: past },
    });
  }
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  if (pickup === undefined) return undefined;
  const past = before && pickupNamed(before.analysis, nameBefore(before, subject));
  return pickupResponsePicture(
    { analysis: now, pickup },
    before && past && { analysis: before.analysis, pickup: past },
    { t, names },
  );
}

/** The state to compare with and now, each as it was swept; else two sweeps of the pickup as it is. */
function sweepsView({ now, before, t }: ComparedStates, { subject, width }: SectionAsked): PlotView {
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name)?.pickup : undefined;
  if (pickup === undefined) return {};
  const quick = quickOfBench(now)(pickup);
  const past = before && pickupNamed(before.analysis, nameBefore(before, subject))?.pickup;
  const apart = before && past && sweptInBoth(quickOfBench(before.analysis)(past), quick);
  const pair = apart ?? sweptTwice(quick);
  if (pair === undefined) return {};
  const names = apart && before && { before: before.label(t), now: t('now') };
  const picture = beforeAfterPicture(pair, pickup, loadOf(pickup), t, names);
  return { svg: responsePlot(picture, plotWidth(width)), table: responseTable(picture) };
}

function impedanceView({ now, t }: ComparedStates, { subject, width }: SectionAsked): PlotView {
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  if (pickup === undefined || !holdingSweep(quickOfBench(now)(pickup.pickup), 'whole')) return {};
  const picture = impedancePicture(pickup, quickOfBench(now), t);
  if (picture === undefined) return {};
  return { svg: impedancePlot(picture, plotWidth(width)), table: impedanceTable(picture) };
}

function positionsView({ now, t }: ComparedStates, params: Heard & Pick<SectionAsked, 'width'>): PlotView {
  const heard = heardAt(now, params);
  if (heard === undefined) return {};
  const live = heard.position.key.value;
  const picture = positionsPicture(now, heard.instrument, { t, played: potsFrom(params.pots), live });
  if (picture === undefined) return {};
  return {
    svg: positionsSheet(picture, params.width >= WIDE_FROM ? 'wide' : plotWidth(params.width)),
    table: positionsTable(picture),
  };
}

/** Nothing where no wiring is written; of a pickup by itself neither. */
function switchesView({ now, t }: ComparedStates, params: Heard & Pick<SectionAsked, 'width'>): PlotView {
  const heard = params.subject.kind === 'instrument' ? heardAt(now, params) : undefined;
  const picture = heard && switchPicture(now, heard.instrument, heard.position.key.value, t);
  if (picture === undefined) return {};
  return {
    svg: switchDiagram(picture, sheetWidth(params.width)),
    table: switchTable(picture),
  };
}

function instrumentBefore(before: Before, now: InstrumentAnalysis): InstrumentAnalysis | undefined {
  const { name } = now.instrument;
  return instrumentNamed(before.analysis, nameBefore(before, { kind: 'instrument', name }));
}
