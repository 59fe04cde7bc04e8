/**
 * The search for builds: each candidate's turns by the models at hand; those that no other beats are analysed as a whole, which mends
 * the models of all that share their frame, until what is left standing has been analysed itself.
 */
import { type Aim, deviationOf, distanceOf, type JudgedAim } from '../estimates/aims.ts';
import type { Spool } from '../model/wire.ts';
import type { AtHand, WoundCoils } from './at-hand.ts';
import type { Candidate, CurvedOption } from './candidates.ts';

/** What a build costs beside being near. */
export interface Cost {
  /** Wires that no spool on the shelf has enough of; more where nobody has declared them. */
  readonly buys: number;
  /** Wire for all coils that are wound, with its allowance. */
  readonly kg: number;
  /** How far a coil's turns lie from those of its partner, as a share; 0 where that is wanted or there is none. */
  readonly unlike: number;
}

export interface Found {
  readonly candidate: Candidate;
  /** Of each open coil. */
  readonly turns: readonly number[];
  /** From the targets, in tolerances; see `distanceOf`. */
  readonly distance: number;
  /** Every target within its tolerance by the best estimate. */
  readonly reaches: boolean;
  /** The largest of the deviations. */
  readonly worst: number;
  /** What the distance may be less by, where it is by the models at hand. */
  readonly doubt: number;
  readonly cost: Cost;
  /** Of the build analysed as a whole; `undefined`: by the models at hand. */
  readonly judged: readonly JudgedAim[] | undefined;
}

export interface SearchProblem {
  readonly aims: readonly Aim[];
  readonly candidates: readonly Candidate[];
  readonly model: AtHand;
  /** Coils that stay as they are. */
  readonly fixed: WoundCoils;
  /** The build analysed as a whole. */
  analysed(candidate: Candidate, turns: readonly number[]): readonly JudgedAim[];
  /** Whether it can be written and nothing new is wrong with it; asked of what is left standing. */
  holds(found: Found): boolean;
}

const MOST_BUILDS = 5;
/** Builds that are analysed as a whole, at most. */
const MOST_ANALYSED = 24;

export interface Searched {
  /** That no other beats, the nearest first. */
  readonly builds: readonly Found[];
  /** Other candidates, each with its nearest turns, by the models at hand as they have been mended. */
  byModel(candidates: readonly Candidate[]): readonly Found[];
}

/** One candidate, analysed as a whole until its turns stand. */
export function settledAlone(problem: Omit<SearchProblem, 'holds'>, candidate: Candidate): Found | undefined {
  const asked = { ...problem, holds: () => true };
  const found = nearest(asked, candidate, undefined);
  return found && settle(asked, found).found;
}

export function search(problem: SearchProblem): Searched {
  const corrections = new Map<string, Correction>();
  const known = new Map<Candidate, Found | 'does not hold'>();
  let usual: Correction | undefined;
  /** By what was learnt of its own frame, else of the first that was analysed. */
  const fresh = (candidate: Candidate): Found | undefined => {
    const own = corrections.get(candidate.frame);
    const found = nearest(problem, candidate, own ?? usual);
    return found && { ...found, doubt: doubtOf(problem, own ? KNOWN_FRAME : OTHER_FRAME) };
  };
  const renewed = (candidate: Candidate): Found | undefined => {
    const own = known.get(candidate);
    return own === 'does not hold' ? undefined : (own ?? fresh(candidate));
  };
  let all = new Map(problem.candidates.map((each) => [each, fresh(each)] as const));
  for (let analysed = 0; ; ) {
    const standing = unbeaten([...all.values()].flatMap((each) => each ?? []));
    const next = analysed < MOST_ANALYSED ? standing.find(({ judged }) => judged === undefined) : undefined;
    if (next) {
      const settled = settle(problem, next);
      const { frame } = next.candidate;
      analysed += settled.analysed;
      known.set(next.candidate, settled.found);
      corrections.set(frame, settled.correction);
      const isFirst = usual === undefined;
      usual ??= settled.correction;
      all = new Map([...all].map(([each, before]) => [each, isFirst || each.frame === frame ? renewed(each) : before]));
      continue;
    }
    const sure = unbeaten([...all.values()].flatMap((each) => (each?.judged ? each : [])));
    const failing = sure.find((each) => !problem.holds(each));
    if (!failing) return { builds: sure, byModel: (others) => others.flatMap((each) => fresh(each) ?? []) };
    known.set(failing.candidate, 'does not hold');
    all.set(failing.candidate, undefined);
  }
}

/** What the models at hand may be wrong by, relative and in dB: where a build of the same frame was analysed, and where another was. */
const KNOWN_FRAME = { relative: 0.002, db: 0.05 } as const;
const OTHER_FRAME = { relative: 0.008, db: 0.3 } as const;

/** In tolerances: what has not been analysed may be nearer by that. */
const doubtOf = (
  { aims }: SearchProblem,
  { relative, db }: { readonly relative: number; readonly db: number },
): number =>
  Math.max(
    ...aims.map((aim) => {
      if (aim.kind === 'resistance' || aim.kind === 'mismatch') return 0.02;
      const error = isLevel(aim) ? db : relative * Math.abs(aim.wanted);
      return error / (aim.tolerance || 1);
    }),
  );

/** Factors, or differences of levels, between a build as analysed and as the models at hand have it; by target. */
type Correction = readonly number[];

const isLevel = ({ kind }: Aim): boolean => kind === 'peak' || kind === 'output' || kind === 'hum';

function figures({ aims, model }: SearchProblem, coils: WoundCoils, { magnet }: Candidate, by: Correction | undefined) {
  return aims.map((aim, index) => {
    const figure = model.figure(aim, coils, magnet);
    if (figure === undefined || figure === null) return figure;
    const correction = by?.[index];
    if (correction === undefined || aim.kind === 'mismatch') return figure;
    return isLevel(aim) ? figure + correction : figure * correction;
  });
}

/** Turned into what they come to with so many turns of the first coil whose turns are free. */
function coilsWith({ fixed }: SearchProblem, candidate: Candidate, logTurns: number): WoundCoils {
  const coils = new Map(fixed);
  candidate.options.forEach((option, index) => {
    const own = ownLogTurns(option, logTurns + (candidate.logRatios[index] ?? 0));
    coils.set(option.opening.coil.name, { ...option.curve.at(own), turns: Math.exp(own) });
  });
  return coils;
}

const ownLogTurns = ({ opening }: CurvedOption, free: number): number =>
  opening.turns ? free : Math.log(opening.coil.turns?.value.si ?? 1);

const FEWEST_LOG = Math.log(100);
const MOST_LOG = Math.log(60_000);
const COARSE = 8;
const ROUNDS = 8;

/** The most turns that every window and every spool that is chosen holds; `undefined`: not even what is stated. */
function mostLogTurns(candidate: Candidate): number | undefined {
  const { options, logRatios } = candidate;
  let most = MOST_LOG;
  for (const [index, option] of options.entries()) {
    if (option.opening.turns) most = Math.min(most, option.curve.mostLogTurns - (logRatios[index] ?? 0));
    else if (ownLogTurns(option, 0) > option.curve.mostLogTurns) return undefined;
  }
  if (!hasEnoughWire(candidate, most)) {
    if (!hasFreeTurns(candidate)) return undefined;
    let [enough, over] = [FEWEST_LOG, most];
    for (let round = 0; round < 20; round++) {
      const middle = (enough + over) / 2;
      if (hasEnoughWire(candidate, middle)) enough = middle;
      else over = middle;
    }
    most = enough;
  }
  return most > FEWEST_LOG ? most : undefined;
}

const hasFreeTurns = ({ options }: Candidate): boolean => options.some(({ opening }) => opening.turns);

/** On the spools that are chosen; one that is stated is told of where it runs out. */
function hasEnoughWire({ options, logRatios }: Candidate, logTurns: number): boolean {
  if (!options.some(({ opening, spool }) => opening.wire && spool?.left)) return true;
  const needs = new Map<Spool, number>();
  for (const [index, option] of options.entries()) {
    const { spool, curve, opening } = option;
    if (!spool || !opening.wire) continue;
    const { kg } = curve.at(ownLogTurns(option, logTurns + (logRatios[index] ?? 0)));
    needs.set(spool, (needs.get(spool) ?? 0) + kg);
  }
  return [...needs].every(([{ left }, kg]) => left === undefined || kg <= left.value.si);
}

function nearest(problem: SearchProblem, candidate: Candidate, by: Correction | undefined): Found | undefined {
  const most = mostLogTurns(candidate);
  if (most === undefined) return undefined;
  if (hasFreeTurns(candidate))
    return foundNear(problem, candidate, by, nearestLogTurns(problem, candidate, by, most), most);
  return described(problem, candidate, 0, lackingAt(problem, candidate, by, 0));
}

const lackingAt = (
  problem: SearchProblem,
  candidate: Candidate,
  by: Correction | undefined,
  logTurns: number,
): readonly number[] => deviations(problem, figures(problem, coilsWith(problem, candidate, logTurns), candidate, by));

/** Over all turns up to the most: the best of some, and from there by the slope of what it lacks. */
function nearestLogTurns(
  problem: SearchProblem,
  candidate: Candidate,
  by: Correction | undefined,
  most: number,
): number {
  const lacking = (logTurns: number) => lackingAt(problem, candidate, by, logTurns);
  const { aims } = problem;
  const cost = (each: readonly number[]): number => distanceOf(aims, each);
  let best = { logTurns: most, lacks: lacking(most) };
  for (let step = 0; step < COARSE; step++) {
    const logTurns = FEWEST_LOG + ((most - FEWEST_LOG) * step) / COARSE;
    const lacks = lacking(logTurns);
    if (cost(lacks) < cost(best.lacks)) best = { logTurns, lacks };
  }
  let stride = (most - FEWEST_LOG) / COARSE;
  for (let round = 0; round < ROUNDS; round++) {
    const beside = lacking(best.logTurns - SLOPE_STEP);
    const slopes = best.lacks.map((lack, index) => (lack - (beside[index] ?? lack)) / SLOPE_STEP);
    const [along, square] = aims.reduce(
      ([a, b], { weight }, index) => {
        const slope = slopes[index] ?? 0;
        return [a + weight * slope * (best.lacks[index] ?? 0), b + weight * slope ** 2];
      },
      [0, 0],
    );
    const wanted = square > 0 ? -along / square : 0;
    const logTurns = Math.min(most, Math.max(FEWEST_LOG, best.logTurns + Math.max(-stride, Math.min(stride, wanted))));
    if (Math.abs(logTurns - best.logTurns) < NEAR_ENOUGH) break;
    const lacks = lacking(logTurns);
    if (cost(lacks) < cost(best.lacks)) best = { logTurns, lacks };
    else stride /= 4;
  }
  return best.logTurns;
}

const SLOPE_STEP = 1e-3;
const NEAR_ENOUGH = 2e-5;

const deviations = ({ aims }: SearchProblem, reached: readonly (number | null | undefined)[]): readonly number[] =>
  aims.map((aim, index) => deviationOf(aim, reached[index]));

/** With whole turns, in tens where that costs no nearness. */
function foundNear(
  problem: SearchProblem,
  candidate: Candidate,
  by: Correction | undefined,
  logTurns: number,
  most: number,
): Found {
  const turns = Math.exp(logTurns);
  const at = (count: number) => {
    const log = Math.log(count);
    const lacks = lackingAt(problem, candidate, by, log);
    return { log, lacks, distance: distanceOf(problem.aims, lacks) };
  };
  const whole = at(Math.min(Math.round(turns), Math.floor(Math.exp(most) + 1e-6)));
  const inTens = at(Math.min(10 * Math.round(turns / 10), 10 * Math.floor(Math.exp(most) / 10 + 1e-6)) || whole.log);
  const { log, lacks } = inTens.distance < whole.distance + TENS_COST ? inTens : whole;
  return described(problem, candidate, log, lacks);
}

const TENS_COST = 0.03;

function described(problem: SearchProblem, candidate: Candidate, logTurns: number, lacks: readonly number[]): Found {
  const turns = candidate.options.map((option, index) => {
    const own = Math.exp(ownLogTurns(option, logTurns + (candidate.logRatios[index] ?? 0)));
    const count = candidate.logRatios[index] === 0 ? Math.round(own) : 10 * Math.round(own / 10);
    return Math.min(count, Math.floor(Math.exp(option.curve.mostLogTurns) + 1e-6));
  });
  return {
    candidate,
    turns,
    ...nearnessOf(problem, lacks),
    doubt: 0,
    cost: costOf(problem, candidate, turns),
    judged: undefined,
  };
}

function nearnessOf({ aims }: SearchProblem, lacks: readonly number[]): Pick<Found, 'distance' | 'reaches' | 'worst'> {
  const worst = Math.max(0, ...lacks.map(Math.abs));
  return { distance: distanceOf(aims, lacks), reaches: worst <= 1, worst };
}

function costOf({ aims, fixed }: SearchProblem, { options }: Candidate, turns: readonly number[]): Cost {
  const needs = new Map<string, { kg: number; leftKg: number }>();
  options.forEach(({ wire, spool, curve }, index) => {
    const key = `${spool?.name ?? ''} ${wire.name}`;
    const { kg } = curve.at(Math.log(turns[index] ?? 1));
    const leftKg = spool ? (spool.left?.value.si ?? Number.POSITIVE_INFINITY) : 0;
    needs.set(key, { kg: (needs.get(key)?.kg ?? 0) + kg, leftKg });
  });
  const isMeant = aims.some(({ kind }) => kind === 'mismatch');
  const counts = [...turns, ...[...fixed.values()].map((each) => each.turns)];
  const logs = counts.filter((each) => each > 0).map(Math.log);
  return {
    buys: [...needs.values()].filter(({ kg, leftKg }) => kg > leftKg).length + unusual(options),
    kg: [...needs.values()].reduce((sum, { kg }) => sum + kg, 0),
    unlike: isMeant || logs.length < 2 ? 0 : Math.exp(Math.max(...logs) - Math.min(...logs)) - 1,
  };
}

/** Of the gauges by which pickups are wound the most usual. Common practice, no published source. */
const MOST_USUAL_AWG = 42;

/** Wire that nobody has declared counts once more, and again for each gauge that it lies from the most usual. */
const unusual = (options: readonly CurvedOption[]): number =>
  Math.max(
    0,
    ...options.map(({ isUndeclared, wire }) =>
      isUndeclared ? 1 + Math.abs((wire.gaugeAwg?.value ?? MOST_USUAL_AWG) - MOST_USUAL_AWG) : 0,
    ),
  );

/** What is at hand, what is declared and has to be bought, what nobody has declared. */
const tier = ({ candidate, cost }: Found): number =>
  cost.buys === 0 ? 0 : candidate.options.some(({ isUndeclared }) => isUndeclared) ? 2 : 1;

/** Analysed as a whole, its turns corrected by what that shows, and again where they moved. */
function settle(
  problem: SearchProblem,
  found: Found,
): { readonly found: Found; readonly correction: Correction; readonly analysed: number } {
  const { candidate } = found;
  let now = found;
  for (let analysed = 1; ; analysed++) {
    const judged = problem.analysed(candidate, now.turns);
    const plain = figures(problem, coilsAt(problem, candidate, now.turns), candidate, undefined);
    const correction = problem.aims.map((aim, index) => correctionOf(aim, judged[index], plain[index]));
    const lacks = problem.aims.map((aim, index) => deviationOf(aim, reachedValue(judged[index])));
    now = { ...now, ...nearnessOf(problem, lacks), doubt: 0, judged };
    const better = nearest(problem, candidate, correction);
    const moved = Math.max(...now.turns.map((each, index) => Math.abs((better?.turns[index] ?? each) / each - 1)));
    const isSettled = moved < 1e-3 || better === undefined || better.distance > now.distance - 0.02;
    if (isSettled || analysed >= 3) return { found: now, correction, analysed };
    now = better;
  }
}

function coilsAt({ fixed }: SearchProblem, { options }: Candidate, turns: readonly number[]): WoundCoils {
  const coils = new Map(fixed);
  options.forEach(({ opening, curve }, index) => {
    const count = turns[index] ?? 1;
    coils.set(opening.coil.name, { ...curve.at(Math.log(count)), turns: count });
  });
  return coils;
}

const reachedValue = (judged: JudgedAim | undefined): number | null | undefined =>
  judged?.reached === null ? null : judged?.reached?.value;

/** What lies near a null says nothing of another one. */
const LEAST_HUM_DB = -40;

function correctionOf(aim: Aim, judged: JudgedAim | undefined, plain: number | null | undefined): number {
  const value = reachedValue(judged);
  if (value === null || value === undefined || plain === null || plain === undefined) return isLevel(aim) ? 0 : 1;
  if (aim.kind === 'hum' && Math.min(value, plain) < LEAST_HUM_DB) return 0;
  return isLevel(aim) ? value - plain : value / plain;
}

/** Nearer by less than a quarter of a tolerance, or cheaper by less than a fiftieth, is no difference. */
const nearness = ({ distance, doubt }: Found): number => Math.round(Math.max(0, distance - doubt) * 4);
const mass = ({ cost }: Found): number => Math.round(Math.log(cost.kg) * 50);
const unlikeness = ({ cost }: Found): number => Math.round(cost.unlike * 50);

/** At least as good in all, better in one. */
function beats(a: Found, b: Found): boolean {
  const by = [nearness(a) - nearness(b), a.cost.buys - b.cost.buys, mass(a) - mass(b), unlikeness(a) - unlikeness(b)];
  return by.every((each) => each <= 0) && by.some((each) => each < 0);
}

/**
 * At most five that no other beats, the nearest first; where some reach the targets, none that does not, and
 * where one of them is of what is at hand, or at least declared, none that is not.
 */
function unbeaten(all: readonly Found[]): readonly Found[] {
  const inOrder = [...all].sort(
    (a, b) =>
      nearness(a) - nearness(b) ||
      a.cost.buys - b.cost.buys ||
      unlikeness(a) - unlikeness(b) ||
      mass(a) - mass(b) ||
      a.distance - b.distance,
  );
  const nearestOfAll = inOrder[0]?.distance ?? 0;
  const reaching = inOrder.filter(({ reaches }) => reaches);
  const leastTier = Math.min(...reaching.map(tier));
  const isNear = (each: Found): boolean =>
    reaching.length === 0
      ? each.distance - each.doubt <= nearestOfAll * 1.5
      : each.worst - each.doubt <= 1 && tier(each) <= leastTier;
  const standing: Found[] = [];
  for (const each of inOrder) {
    if (standing.length >= MOST_BUILDS) break;
    if (!isNear(each) || standing.some((other) => beats(other, each) || isSame(other, each))) continue;
    standing.push(each);
  }
  return standing;
}

/** As near and as dear: one of them is enough. */
const isSame = (a: Found, b: Found): boolean =>
  nearness(a) === nearness(b) && a.cost.buys === b.cost.buys && mass(a) === mass(b) && unlikeness(a) === unlikeness(b);
