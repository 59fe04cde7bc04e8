/** Pickups beside what they were before the work, from one text: the one that each reworks, or what was found of it. */
import { schemas } from '../../../grammar/src/schema/index.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { instrumentAnalysis } from '../analysis/instrument-analysis.ts';
import { pickupAnalysis } from '../analysis/pickup-analysis.ts';
import { formerState } from '../model/former-state.ts';
import type { Instrument, Selection, Slot } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Wording } from '../words/languages/language.ts';
import { compareFacts, type FactChange, type FactComparison } from './compare-facts.ts';
import { type Comparison, compareAnalyses } from './comparison.ts';
import { limitedTo } from './limited-analysis.ts';
import { pickupBlocks } from './state-of.ts';
import type { StatedBlock, StatedFact } from './stated-blocks.ts';

/** Two states of some pickups, and of the instruments that hold them. */
export interface Rework {
  /** What the state before is called: its name, or that it was found so. */
  readonly label: Wording;
  readonly before: Analysis;
  readonly after: Analysis;
  readonly facts: FactComparison;
}

const AS_FOUND: Wording = (t) => t('the state as found');

/** Those of the pickups that have a former state, put back into it together. `undefined` where none has one. */
export function reworkOf(analysis: Analysis, pickups: readonly Pickup[]): Rework | undefined {
  const pairs = pairsOf(pickups);
  if (pairs.length === 0) return undefined;
  const { bench } = analysis;
  const formerOf = new Map(pairs.map(({ now, former }) => [now, former]));
  const holding = analysis.instruments.filter(({ instrument }) =>
    instrument.slots.some(({ pickup }) => pickup && formerOf.has(pickup)),
  );
  const put = holding.map(({ written }) => instrumentAnalysis(putBack(written, formerOf), bench));
  const now = pairs.map((pair) => pickupAnalysis(pair.now, bench));
  const formers = pairs.map(({ former }) => pickupAnalysis(former, bench));
  return {
    label: labelOf(pairs),
    before: limitedTo(analysis, formers, put),
    after: limitedTo(analysis, now, holding),
    facts: factsOf(analysis, pairs),
  };
}

/** What the former state of these pickups is called; `undefined` where there is none. */
export function formerLabel(pickups: readonly Pickup[]): Wording | undefined {
  const pairs = pairsOf(pickups);
  return pairs.length === 0 ? undefined : labelOf(pairs);
}

/** Each pickup of the file that has a former state, by itself. */
export const reworksOf = (analysis: Analysis): readonly Rework[] =>
  analysis.pickups.flatMap(({ pickup }) => reworkOf(analysis, [pickup]) ?? []);

export const compareRework = ({ before, after, facts }: Rework): Comparison => compareAnalyses(before, after, facts);

interface Pair {
  readonly now: Pickup;
  readonly former: Pickup;
}

const pairsOf = (pickups: readonly Pickup[]): readonly Pair[] =>
  pickups.flatMap((now) => {
    const former = formerState(now);
    return former ? [{ now, former }] : [];
  });

function labelOf(pairs: readonly Pair[]): Wording {
  const names = new Set(pairs.map(({ now, former }) => (now.reworks ? former.name : undefined)));
  const [first] = names;
  if (names.size > 1) return (t) => t('the states before');
  return first === undefined ? AS_FOUND : () => first;
}

const remembered = new WeakMap<
  Instrument,
  { readonly formers: ReadonlyMap<Pickup, Pickup>; readonly before: Instrument }
>();

/** The instrument with the pickups as they were; the same object for the same pickups. */
function putBack(instrument: Instrument, formers: ReadonlyMap<Pickup, Pickup>): Instrument {
  const known = remembered.get(instrument);
  if (
    known &&
    known.formers.size === formers.size &&
    [...formers].every(([now, was]) => known.formers.get(now) === was)
  )
    return known.before;
  const slots = new Map(
    instrument.slots.map((slot): readonly [Slot, Slot] => {
      const former = slot.pickup && formers.get(slot.pickup);
      return [slot, former ? { ...slot, pickup: former } : slot];
    }),
  );
  const before = {
    ...instrument,
    slots: [...slots.values()],
    positions: instrument.positions.map((position) => ({
      ...position,
      selection: position.selection && selectedFrom(position.selection, slots),
    })),
    readings: [],
  };
  remembered.set(instrument, { formers, before });
  return before;
}

function selectedFrom(selection: Selection, slots: ReadonlyMap<Slot, Slot>): Selection {
  switch (selection.kind) {
    case 'pickup':
    case 'coil':
    case 'tap':
      return { ...selection, slot: slots.get(selection.slot) ?? selection.slot };
    case 'reversed':
      return { ...selection, of: selectedFrom(selection.of, slots) };
    case 'series':
    case 'parallel':
      return { ...selection, of: selection.of.map((each) => selectedFrom(each, slots)) };
    case 'nets':
      return selection;
  }
}

/** What the work changed in the text. The shop's parts are no part of it, nor is what was read in either state. */
function factsOf(analysis: Analysis, pairs: readonly Pair[]): FactComparison {
  const compared = pairs.map(({ now, former }) => {
    const after = blocksOf(analysis, now.name);
    const before = now.reworks ? blocksOf(analysis, former.name) : after.map((block) => asFound(block, former));
    return compareFacts(
      before.map((block) => withoutHistory(block, [])),
      after.map((block) => withoutHistory(block, [IS_NEW])),
    );
  });
  return {
    changes: compared.flatMap(({ changes }) =>
      changes.filter((change) => change.path.length > 1 || !isOfTheName(change)),
    ),
    renamed: new Map(pairs.map(({ now, former }) => [former.name, now.name])),
  };
}

/** Name and title tell the two states apart; they are no work. */
const isOfTheName = (change: FactChange): boolean =>
  change.kind === 'renamed' ||
  (change.kind === 'fact changed' && change.after.field === '' && change.after.text.startsWith('title '));

const blocksOf = (analysis: Analysis, name: string): readonly StatedBlock[] =>
  pickupBlocks(analysis, [name]).filter(({ keyword }) => keyword === 'pickup');

/** Without what belongs to one state alone, but for some fields: that a coil is new is what the later state did. */
function withoutHistory(block: StatedBlock, but: readonly string[]): StatedBlock {
  const facts = schemas.get(block.keyword)?.facts ?? {};
  return {
    ...block,
    facts: block.facts.filter(({ field }) => facts[field]?.history !== 'of the state' || but.includes(field)),
    blocks: block.blocks
      .filter(({ keyword }) => schemas.get(keyword)?.history !== 'of the state')
      .map((inner) => withoutHistory(inner, but)),
  };
}

const IS_NEW = 'isNew';

/** What one block that tells both states says of the former. */
function asFound(block: StatedBlock, former: Pickup): StatedBlock {
  const isKnown = ({ field }: StatedFact): boolean => field !== 'magnet' || former.barMagnet !== undefined;
  return {
    ...block,
    facts: block.facts.filter(isKnown),
    blocks: block.blocks
      .filter(({ keyword }) => keyword !== 'potting')
      .map((inner) =>
        inner.facts.some(({ field }) => field === IS_NEW)
          ? { ...inner, facts: inner.facts.filter(({ field }) => STAYS.has(field)), blocks: [] }
          : inner,
      ),
  };
}

/** Of a coil that came out: where it lay and where its ends went. */
const STAYS: ReadonlySet<string> = new Set(['start', 'finish', 'serves', 'below']);
