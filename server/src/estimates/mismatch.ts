/** What two coils of unequal turn-area cost in hum, and what they do to resonance and level, beside the same pickup with matched coils. */
import { type Bench, benchMainsHz } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { looseNetlist, pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { type Estimate, functionOf, linear, restingOn } from '../quantities/estimate.ts';
import { onlyBoundedAbove } from '../quantities/print.ts';
import { coilOfReading } from './coil-reading.ts';
import { EQUAL_AREAS_WITHIN } from './common-practice.ts';
import {
  type Contribution,
  type LevelReference,
  levelDifference,
  levelInPlace,
  levelOfSum,
  levelOnItsOwn,
} from './level-in-place.ts';
import { type Load, loadOf, NO_LOAD, pickupContributions, pickupEstimates, UNIFORM_FIELD } from './pickup-estimates.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';
import { sounds } from './signs.ts';
import { REFERENCE_LEVEL_DB } from './sources.ts';
import { turnsThatMatch } from './turns-plan.ts';

/** A number as the pickup is built, as it would be with matched coils, and the first less the second. */
export interface MismatchFigure {
  readonly built: Estimate;
  readonly matched: Estimate;
  /** Left out where either is known only to lie below a bound. */
  readonly difference: Estimate | undefined;
}

export const MISMATCH_KEYS = ['humDb', 'humOnItsOwnDb', 'resonanceHz', 'peakDb', 'levelDb'] as const;
export type MismatchKey = (typeof MISMATCH_KEYS)[number];

export interface Mismatch {
  /** The coil that is brought to the other's turn-area. */
  readonly coil: Coil;
  readonly other: Coil;
  readonly turns: number;
  readonly matchedTurns: number;
  /** Whether the window holds them. */
  readonly fits: boolean;
  /** Hum against the strongest coil in place and against the larger coil on its own; level at 100 Hz, 0 dB one coil of 5,000 turns. */
  readonly figures: { readonly [key in MismatchKey]?: MismatchFigure };
}

/**
 * A pickup of two sounding coils whose turn-areas differ by more than one per cent of the larger. `undefined` for any other, where the
 * hum of the two adds, which no match cures, where neither hum nor response is known, and where nobody knows the turns of either coil.
 * Readings of the coil that changes and of the whole pickup do not hold of the matched one: its numbers are those as built, changed by
 * what the computed ones change.
 */
export function mismatch(
  quick: QuickEstimates,
  bench: Bench | undefined,
  load: Load = loadOf(quick.netlist.pickup),
): Mismatch | undefined {
  const pair = unequalPair(quick);
  const proposal = pair && turnsThatMatch(quick, pair.coil, pair.other);
  const turns = pair && quick.windings.get(pair.coil)?.turns?.value;
  if (!pair || !proposal || turns === undefined) return undefined;
  const { coil, other } = pair;
  const stateWith = (count: number) => quickEstimates(pickupNetlist(withTurnsOf(quick, coil, count)), bench);
  const matchedTurns = Math.round(proposal.turns.value);
  const states = { built: quick, computed: stateWith(turns), matched: stateWith(matchedTurns) };
  const figures = {
    ...humFigures(states, benchMainsHz(bench)),
    // Where nobody knows whether the coils add, nobody knows what the response of either state is.
    ...(quick.phase === 'unproven' ? {} : responseFigures(states, bench, load)),
  };
  if (Object.keys(figures).length === 0) return undefined;
  return { coil, other, turns, matchedTurns, fits: proposal.fits, figures };
}

function unequalPair(quick: QuickEstimates): { readonly coil: Coil; readonly other: Coil } | undefined {
  const [a, b, ...more] = quick.signs.filter(sounds);
  if (!a || !b || more.length > 0) return undefined;
  if (a.hum !== undefined && a.hum === b.hum) return undefined;
  const areaOf = ({ coil }: typeof a) => quick.windings.get(coil)?.turnAreaM2?.value ?? Number.NaN;
  const [larger, smaller] = areaOf(a) > areaOf(b) ? [a, b] : [b, a];
  if (!(areaOf(larger) - areaOf(smaller) > (EQUAL_AREAS_WITHIN + ROUNDING) * areaOf(larger))) return undefined;
  // What was wound here can be wound again; of two such coils the larger, which loses turns and so surely fits.
  const isStated = ({ coil }: typeof a) => coil.counted !== undefined || coil.turns !== undefined;
  if (isStated(larger)) return { coil: larger.coil, other: smaller.coil };
  return isStated(smaller) ? { coil: smaller.coil, other: larger.coil } : undefined;
}

const ROUNDING = 1e-9;

/** The pickup with other turns on one coil, without the readings that this would change. */
function withTurnsOf({ netlist }: QuickEstimates, changed: Coil, count: number): Pickup {
  const { pickup } = netlist;
  const loose = looseNetlist(pickup);
  const turns = { dimension: 'turns' as const, si: count, written: `${count}` };
  const stated = changed.counted ?? changed.turns;
  const sd = stated?.value.sd;
  return {
    ...pickup,
    readings: pickup.readings.map((block) => ({
      ...block,
      lines: block.lines.filter((line) => {
        const read = coilOfReading(line, block, netlist, loose);
        return line.kind === 'kick' || line.kind === 'compass' || (read !== undefined && read !== changed);
      }),
    })),
    coils: pickup.coils.map((coil) =>
      coil === changed
        ? {
            ...coil,
            counted: undefined,
            turns: { value: sd === undefined ? turns : { ...turns, sd }, place: stated?.place ?? coil.place },
          }
        : coil,
    ),
  };
}

interface States {
  /** With all its readings. */
  readonly built: QuickEstimates;
  /** Without those that do not hold of the matched pickup. */
  readonly computed: QuickEstimates;
  readonly matched: QuickEstimates;
}

function humFigures({ built, matched }: States, mainsHz: number): Mismatch['figures'] {
  const [now, then] = [built, matched].map((state) => pickupContributions(state, NO_LOAD, 'hum', mainsHz));
  if (!now || !then) return {};
  const figure = (levelOf: (contributions: readonly Contribution[]) => Estimate, against: LevelReference) => {
    const [one, other] = [levelOf(now), levelOf(then)].map((level) => restingOn(level, UNIFORM_FIELD));
    if (!one || !other) return undefined;
    const bounded = onlyBoundedAbove(one) || onlyBoundedAbove(other);
    return { built: one, matched: other, difference: bounded ? undefined : levelDifference(now, then, against) };
  };
  return withoutUnknown({
    humDb: figure(levelInPlace, 'in place'),
    humOnItsOwnDb: figure(levelOnItsOwn, 'on its own'),
  });
}

function responseFigures(states: States, bench: Bench | undefined, load: Load): Mismatch['figures'] {
  const [built, computed, matched] = [states.built, states.computed, states.matched].map((state) => {
    const { resonanceHz, peakDb } = pickupEstimates(state, bench, load);
    return { resonanceHz: resonanceHz ?? undefined, peakDb };
  });
  if (!built || !computed || !matched) return {};
  return withoutUnknown({
    resonanceHz: inProportion(built.resonanceHz, computed.resonanceHz, matched.resonanceHz),
    peakDb: byDifference(built.peakDb, computed.peakDb, matched.peakDb),
    levelDb: levelFigure(states, load),
  });
}

function levelFigure({ built, matched }: States, load: Load): MismatchFigure | undefined {
  const [now, then] = [built, matched].map((state) => pickupContributions(state, load, 'string', 100));
  if (!now || !then) return undefined;
  const level = (contributions: readonly Contribution[]) =>
    restingOn(levelOfSum(contributions, REFERENCE_LEVEL_DB), load.words);
  return { built: level(now), matched: level(then), difference: levelDifference(now, then, 'absolute') };
}

/** matched = built · (matched as computed / built as computed) */
function inProportion(
  built: Estimate | undefined,
  computed: Estimate | undefined,
  matched: Estimate | undefined,
): MismatchFigure | undefined {
  if (!built || !computed || !matched) return undefined;
  const all = [built, computed, matched] as const;
  return {
    built,
    matched: functionOf(all, ([b, c, m]) => (b * m) / c),
    difference: functionOf(all, ([b, c, m]) => b - (b * m) / c),
  };
}

/** matched = built + (matched as computed − built as computed) */
function byDifference(
  built: Estimate | undefined,
  computed: Estimate | undefined,
  matched: Estimate | undefined,
): MismatchFigure | undefined {
  if (!built || !computed || !matched) return undefined;
  return {
    built,
    matched: linear([built, computed, matched], [1, -1, 1]),
    difference: linear([computed, matched], [1, -1]),
  };
}

function withoutUnknown(figures: { readonly [key in MismatchKey]?: MismatchFigure | undefined }): Mismatch['figures'] {
  return Object.fromEntries(Object.entries(figures).filter(([, figure]) => figure !== undefined));
}
