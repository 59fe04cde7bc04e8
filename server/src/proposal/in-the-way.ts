/** Where nothing at hand reaches the target: what is in the way, and what would not be held by it. */
import type { JudgedAim } from '../estimates/aims.ts';
import { wireSize } from '../estimates/coil-winding.ts';
import type { Wire } from '../model/wire.ts';
import { wireDiameters } from '../physics/wire.ts';
import { type Build, buildOf } from './build.ts';
import type { Candidate, CurvedOption } from './candidates.ts';
import type { Openings } from './openings.ts';
import { type Cost, type Found, type Searched, type SearchProblem, settledAlone } from './search.ts';

export interface InTheWay extends Held {
  /** Reaches it with another part than is stated. */
  readonly otherwise: Otherwise | undefined;
}

export interface Held {
  /** `shelf`: nothing at hand brings it, though what could be bought does; `targets`: nothing does, several being wanted at once. */
  readonly holds: 'window' | 'spool' | 'targets' | 'shelf';
  /** What is held: it reaches the target where windows are as deep, or spools as full, as one likes. */
  readonly held: Build | undefined;
  /** Of the fullest window, its build over its depth. */
  readonly filled: number;
}

export interface Otherwise {
  readonly change: 'wire' | 'bobbin';
  readonly build: Build;
  readonly judged: readonly JudgedAim[];
  readonly cost: Cost;
}

type Asked = Omit<SearchProblem, 'holds'>;

/** Taken away one by one, what lets the target be reached with what is at hand is what holds it. */
export function heldBy({ aims, candidates }: Asked, { byModel, builds }: Searched): Held {
  const atHand = candidates.filter(({ options }) => options.every(({ isUndeclared }) => !isUndeclared));
  const isBought = builds.some(({ reaches }) => reaches);
  const reaching = (freed: readonly Candidate[], mostBuys: number) =>
    byModel(freed)
      .filter(({ reaches, cost }) => reaches && cost.buys <= mostBuys)
      .map((found) => ({ found, filled: filledBy(found) }))
      .sort((a, b) => a.filled - b.filled)[0];
  const freed = [
    ['spool', atHand.map(withoutSpoolLimit), 0],
    // Where something reaches it once it is bought, no window holds it.
    ['window', isBought ? [] : atHand.map(withoutWindow), Number.POSITIVE_INFINITY],
    ['window', isBought ? [] : candidates.map(withoutWindow), Number.POSITIVE_INFINITY],
  ] as const;
  for (const [holds, others, mostBuys] of freed) {
    const first = reaching(others, mostBuys);
    if (first) {
      const { candidate, turns } = first.found;
      return { holds, held: buildOf(candidate, turns, undefined), filled: first.filled };
    }
  }
  return { holds: aims.length > 1 && !isBought ? 'targets' : 'shelf', held: undefined, filled: 0 };
}

/** Of windows that are held to be as deep as one likes, the real ones. */
const filledBy = ({ candidate: { options }, turns }: Found): number =>
  Math.max(...options.map(({ curve }, index) => (turns[index] ?? 0) / Math.exp(curve.windowLogTurns)));

const withOptions = (candidate: Candidate, change: (option: CurvedOption) => CurvedOption): Candidate => ({
  ...candidate,
  options: candidate.options.map(change),
});

const withoutWindow = (candidate: Candidate): Candidate =>
  withOptions(candidate, (option) => ({
    ...option,
    curve: { ...option.curve, mostLogTurns: Number.POSITIVE_INFINITY },
  }));

const withoutSpoolLimit = (candidate: Candidate): Candidate =>
  withOptions(candidate, (option) => ({ ...option, spool: option.spool && { ...option.spool, left: undefined } }));

/** With another wire than is stated, the nearest to it, else on another bobbin; what is at hand first. */
export function otherwise(
  { coils, magnet }: Openings,
  askFor: (openings: Openings) => Asked | undefined,
): Otherwise | undefined {
  for (const change of ['wire', 'bobbin'] as const) {
    if (coils.every((each) => each[change])) continue;
    const asked = askFor({ coils: coils.map((each) => ({ ...each, [change]: true })), magnet });
    const found = asked && nearestToStated(asked);
    if (found?.judged)
      return {
        change,
        build: buildOf(found.candidate, found.turns, undefined),
        judged: found.judged,
        cost: found.cost,
      };
  }
  return undefined;
}

const MOST_TRIED = 6;

function nearestToStated(asked: Asked): Found | undefined {
  const inOrder = asked.candidates
    .map((candidate) => ({ candidate, apart: apartFromStated(candidate) }))
    .sort((a, b) => a.apart - b.apart);
  let bought: Found | undefined;
  let tried = 0;
  for (const { candidate } of inOrder) {
    if (tried >= MOST_TRIED) break;
    const found = settledAlone(asked, candidate);
    if (!found) continue;
    tried++;
    if (found.reaches && found.cost.buys === 0) return found;
    if (found.reaches) bought ??= found;
  }
  return bought;
}

/** How unlike its wires are to those that are stated; what nobody has declared comes last. */
const apartFromStated = ({ options }: Candidate): number =>
  options.reduce((sum, { wire, opening, isUndeclared }) => {
    const [now, then] = [diameterOf(wire), diameterOf(opening.coil.wire)];
    return sum + (now && then ? Math.abs(Math.log(now / then)) : 0) + (isUndeclared ? 1 : 0);
  }, 0);

function diameterOf(wire: Wire | undefined): number | undefined {
  const size = wireSize(wire);
  return size && wireDiameters(size, 'single').bareM;
}
