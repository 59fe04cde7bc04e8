/**
 * The smallest sets of changes that put a pickup, or an instrument with all its pickups and positions, in phase and quiet. Sets are
 * searched on the model, the cheapest first, and each one is then written into the text, analysed again as any text is, and kept
 * only if the findings are gone and none has come.
 */

import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { replaceAt } from '../checks/edits.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import { cautionsOf } from '../words/cautions.ts';
import type { Heard } from '../words/heard.ts';
import { ENGLISH, type Language, type PlainText, type Wording } from '../words/languages/language.ts';
import { list } from '../words/text.ts';
import { changedPickup } from './changed-pickup.ts';
import { type Judge, judgeOf } from './faults.ts';
import { type Searched, whyImpossible } from './impossible.ts';
import { keepLikes } from './keep-likes.ts';
import { changesOf, coversOff, isLeads, type Move, possibleMoves } from './moves.ts';
import { outlookOf } from './outlook.ts';
import { pickupEdits } from './pickup-edits.ts';
import {
  findingsIn,
  isFault,
  type RepairSubject,
  type Scope,
  scopeOf,
  withoutAccepted,
  withoutMeant,
} from './scope.ts';
import { cheapestSolutions, type Search } from './search.ts';
import { coverWords, ORDER, stepWords } from './step-words.ts';
import { wiredLeadEdits } from './wired-leads.ts';
import { COVER, hazardsOf, type Work } from './work.ts';

export type { RepairSubject } from './scope.ts';

export interface RepairStep {
  readonly text: string;
  readonly words: Wording;
  /** What it does to the signal and the hum, and why it takes the work it takes. */
  readonly why: string;
  readonly minutes: number;
  /** What to write. Steps at one pickup change the same lines: the first of them holds the edits of all. */
  readonly edits: readonly Edit[];
}

export interface RepairPlan {
  /** The work of all steps; common practice, no published source. */
  readonly minutes: number;
  readonly steps: readonly RepairStep[];
  /** What its work can do to a person. */
  readonly cautions: readonly PlainText[];
  /** Findings of the subject that stay, as information. */
  readonly leaves: readonly Finding[];
  /** Readings that no longer agree once the plan is done. */
  readonly against: readonly Finding[];
  /** What it leaves to be heard: on first use, some tens of milliseconds. */
  outlook(): readonly Heard[];
}

export interface RepairOutcome {
  /** What the plans put right; empty where nothing is wrong. */
  readonly faults: readonly Finding[];
  /** Fewest findings left first, then what fits the readings, then the least work; every one verified. */
  readonly plans: readonly RepairPlan[];
  /** Why there is no plan: what hinders judging, or a sentence that proves that nothing helps. */
  readonly impossible?: string;
  /** Where nothing but winding a coil again helps, that it is so. */
  readonly onlyRewinding?: string;
  /** What the spec leaves doubtful and the plans rest on. */
  questions(t?: Language): readonly string[];
  /** Every set of changes that takes less than this has been looked at. */
  readonly completeBelowMinutes: number;
}

export function planRepairs(analysis: Analysis, subject: RepairSubject): RepairOutcome {
  const { beside, ...planned } = plansFor(analysis, subject);
  return { ...planned, ...beside() };
}

interface Planned extends Omit<RepairOutcome, 'impossible' | 'onlyRewinding'> {
  /** Why there is no plan, or that nothing but winding again helps: further searches. */
  beside(): Pick<RepairOutcome, 'impossible' | 'onlyRewinding'>;
}

/** The plans alone. */
export function plansFor(analysis: Analysis, subject: RepairSubject): Planned {
  const scope = scopeOf(analysis, subject);
  if (!scope) return { ...NOTHING, beside: () => ({ impossible: 'There is no such pickup or instrument.' }) };
  const own = findingsIn(analysis, scope);
  const faults = own.filter(isFault);
  const hindrance = own.find(({ code, severity }) => HINDERS.test(code) && severity !== 'information');
  if (hindrance) {
    const impossible = `Phase and hum can only be judged once the wiring is whole: first put right "${hindrance.what}"`;
    return { ...NOTHING, faults, beside: () => ({ impossible }) };
  }
  if (faults.length === 0) return NOTHING;
  const { quick, moves, judge: strict } = searchable(analysis, scope);
  const judge = withoutAccepted(strict, faults);
  const asMeant = cheapestSolutions(moves, judge, LIMITS);
  const search = asMeant.solutions.length > 0 ? asMeant : cheapestSolutions(moves, withoutMeant(judge), LIMITS);
  const all = [...new Set([...analysis.pickupsInSight(), ...scope.pickups])];
  const plans = search.solutions
    .filter(({ moves: made }) => !scope.pickups.some((pickup) => isRoundabout(pickup, made, moves)))
    .flatMap(({ moves: made, minutes }): readonly RepairPlan[] => {
      const steps = stepsOf(made, quick, all, scope.instrument);
      const after = steps && verified(analysis, steps, subject);
      const cautions = cautionsOf(...made.flatMap(({ work }) => hazardsOf(work)));
      return after ? [{ minutes, steps, cautions, ...after }] : [];
    })
    .sort(inRank);
  const { completeBelowMinutes } = search;
  const questions = (t = ENGLISH) => fittedTwice(scope, t);
  const why = () => reasonFor(faults, { faults: judge.faults([]) ?? [], moves, judge, pickups: quick, search });
  return {
    faults,
    plans,
    questions,
    completeBelowMinutes,
    beside: () => (plans.length > 0 ? rewindOnly(search, moves, judge) : { impossible: why() }),
  };
}

const NOTHING: Planned = {
  faults: [],
  plans: [],
  questions: () => [],
  completeBelowMinutes: Number.POSITIVE_INFINITY,
  beside: () => ({}),
};

/** One piece lies in one place: a change of its block would be made to both. */
function fittedTwice({ pickups, instrument }: Scope, t: Language): readonly string[] {
  return pickups.flatMap((pickup) => {
    const places = (instrument?.slots ?? []).filter((slot) => slot.pickup === pickup).map(({ name }) => name);
    if (places.length < 2) return [];
    return [
      t(
        '{0} is fitted as {1}: one piece cannot be, and what a plan does to it is done to each. Give every piece a block of its own, such as `pickup {0}-2 like {0}`, and plan again.',
        pickup.name,
        list(places, t('and')),
      ),
    ];
  });
}

/** How far is looked. Plans dearer than the best by more than an hour's work are of no interest to anybody. */
const LIMITS = { states: 6_000, beyondBestMinutes: 60, solutions: 4 } as const;

const TURNS_WHOLE: readonly Work[] = ['hot and ground', 'dummy at its hookup'];

const worksAt = (pickup: Pickup, moves: readonly Move[]): readonly Work[] =>
  moves.flatMap((each) => (each.on === 'pickup' && each.pickup === pickup ? [each.work] : []));

/** The leads of every coil swapped come to hot and ground swapped, which is less work. */
const isRoundabout = (pickup: Pickup, made: readonly Move[], moves: readonly Move[]): boolean =>
  pickup.coils.length > 1 &&
  worksAt(pickup, made).filter(isLeads).length === pickup.coils.length &&
  worksAt(pickup, moves).some((work) => TURNS_WHOLE.includes(work));

/** Pickups are not turned to suit wires that do not do what the positions ask for. */
const HINDERS =
  /^(?:circuit|lead|syntax|use)\/|^name\/(?:unknown|cycle)$|^switch\/(?:hot-shorted|lug-serves-two|position-differs|silent)$/;

/** What the planner searches; for tests that search by themselves. */
export function searchable(
  analysis: Analysis,
  { pickups, instrument }: Scope,
): { readonly quick: readonly QuickEstimates[]; readonly moves: readonly Move[]; readonly judge: Judge } {
  const solved = quickOf(analysis.bench);
  const quick = pickups.map(solved);
  return { quick, moves: possibleMoves(quick, instrument), judge: judgeOf(quick, instrument, solved) };
}

/** Steps from the inside of a pickup outward, with what to write; `undefined` where it cannot be written. */
export function stepsOf(
  moves: readonly Move[],
  quick: readonly QuickEstimates[],
  pickups: readonly Pickup[],
  instrument?: Instrument,
): readonly RepairStep[] | undefined {
  const ordered = [...moves].sort((a, b) => ORDER.indexOf(a.work) - ORDER.indexOf(b.work));
  const changes = changesOf(moves);
  const after = (pickup: Pickup): Pickup | undefined => {
    const change = changes.get(pickup);
    const signs = quick.find(({ netlist }) => netlist.pickup === pickup)?.signs ?? [];
    return change ? changedPickup(pickup, signs, change) : pickup;
  };
  const written = new Set<Pickup>();
  const pickupStepEdits = (pickup: Pickup): readonly Edit[] | undefined => {
    if (written.has(pickup)) return [];
    written.add(pickup);
    const changed = after(pickup);
    const own = changed && pickupEdits(pickup, changed, pickups);
    const kept = pickups.map((other) => {
      const now = after(other);
      const edits = now === other ? [] : now && pickupEdits(other, now, pickups);
      return other === pickup || !own || !edits ? [] : keepLikes({ pickup, edits: own }, { pickup: other, edits });
    });
    const wired = changed && instrument ? wiredLeadEdits(instrument, pickup, changed) : [];
    return own && wired && kept.every((each) => each !== undefined)
      ? [...own, ...kept.flatMap((each) => each ?? []), ...wired]
      : undefined;
  };
  const steps = ordered.map((move): RepairStep | undefined => {
    const edits =
      move.on === 'position' ? [replaceAt(move.choice.place, move.choice.to)] : pickupStepEdits(move.pickup);
    return edits && { ...stepWords(move), minutes: move.minutes, edits };
  });
  const covers = coversOff(moves).map(
    (pickup): RepairStep => ({ ...coverWords(pickup), minutes: COVER.minutes, edits: [] }),
  );
  return steps.some((step) => step === undefined) ? undefined : [...covers, ...steps.flatMap((step) => step ?? [])];
}

const inRank = (a: RepairPlan, b: RepairPlan): number =>
  a.leaves.length - b.leaves.length || a.against.length - b.against.length || a.minutes - b.minutes;

/** What the text says after the steps; `undefined` where a fault stays or a new one comes. */
function verified(
  analysis: Analysis,
  steps: readonly RepairStep[],
  subject: RepairSubject,
): Pick<RepairPlan, 'leaves' | 'against' | 'outlook'> | undefined {
  const after = analysis.edited(steps.flatMap(({ edits }) => edits));
  const scope = after && scopeOf(after, subject);
  const own = scope && findingsIn(after, scope);
  if (!own || own.some(isFault)) return undefined;
  const [before, now] = [countsOf(analysis), countsOf(after)];
  const come = after.findings.filter((each) => (before.get(keyOf(each)) ?? 0) < (now.get(keyOf(each)) ?? 0));
  if (come.some(isSerious)) return undefined;
  return {
    leaves: own.filter(({ severity, code }) => severity === 'information' && !isReading(code)),
    against: come.filter(({ severity, code }) => severity !== 'hint' && isReading(code)),
    outlook: () => outlookOf(after, scope),
  };
}

function countsOf({ findings }: Analysis): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const each of findings) counts.set(keyOf(each), (counts.get(keyOf(each)) ?? 0) + 1);
  return counts;
}

const isReading = (code: string): boolean => code.startsWith('reading/');

/** Readings taken before a change are history: that they no longer agree is no new fault. */
const isSerious = ({ code, severity }: Finding): boolean =>
  code === 'phase/unproven' || ((severity === 'error' || severity === 'warning') && !isReading(code));

const keyOf = ({ code, subject, severity }: Finding): string =>
  [code, severity, subject.pickup, subject.instrument, subject.position].join('|');

function rewindOnly({ solutions }: Search, moves: readonly Move[], judge: Judge): { readonly onlyRewinding?: string } {
  if (!solutions.every((each) => each.moves.some(({ work }) => work === 'rewind'))) return {};
  const without = cheapestSolutions(
    moves.filter(({ work }) => work !== 'rewind'),
    judge,
    LIMITS,
  );
  if (without.solutions.length > 0) return {};
  const complete = without.completeBelowMinutes === Number.POSITIVE_INFINITY;
  return {
    onlyRewinding: `Nothing but winding a coil again helps: ${complete ? 'every' : 'every likely'} set of other changes leaves a fault.`,
  };
}

function reasonFor(findings: readonly Finding[], searched: Searched): string {
  if (searched.faults.length === 0)
    return `No plan: the faults (${list([...new Set(findings.map(({ code }) => code))])}) lie in what the planner does not change.`;
  return searched.search.solutions.length > 0
    ? 'Every set of changes that puts these faults right brings others.'
    : whyImpossible(searched);
}
