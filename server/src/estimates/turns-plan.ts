/**
 * Turns with what is known of them: for a resistance, a target or a match, left after a break, gone with peeled wire; and the wire
 * that they take.
 */
import { type Bench, benchRoomC } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Spool } from '../model/wire.ts';
import { turnsOfResistance, turnsOfWireLength, windCoil } from '../physics/coil-geometry.ts';
import { solveIncreasing } from '../physics/solve-increasing.ts';
import { copperTemperatureFactor, wireMass } from '../physics/wire.ts';
import { difference, type Estimate, estimateOf, functionOf, scale } from '../quantities/estimate.ts';
import type { Three, WindingEstimates, WindingSpace } from './coil-winding.ts';
import { USUAL_TURNS, WIRE_ALLOWANCE } from './common-practice.ts';
import { DEFAULT_LOAD, NO_LOAD, pickupEstimates } from './pickup-estimates.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';

/** Turns of one coil, whether they fit its window, and what they take of its spool. */
export interface TurnsProposal {
  readonly coil: Coil;
  readonly turns: Estimate;
  /** Build over the window's depth. */
  readonly windowFilled: number | undefined;
  readonly fits: boolean;
  readonly wire: WireNeed;
  /** From the turns that the coil has to these: above zero to take off, below to wind on. Only where it has turns. */
  readonly off: WoundLength | undefined;
}

export interface WoundLength {
  readonly turns: Estimate;
  readonly lengthM: Estimate;
}

/** Wire with what is lost at both ends and in breaks. */
export interface WireNeed {
  readonly lengthM: Estimate;
  /** Enamel included. */
  readonly massKg: Estimate | undefined;
  readonly spool: Spool | undefined;
  /** Whether the spool holds it; `undefined` where nobody weighed the spool. */
  readonly enough: boolean | undefined;
}

/**
 * Turns of a coil whose wire reads this at 20 degC. Where the coil was read with its turns known, that reading tells what its wire
 * really has: then only the shape of the winding, by which inner turns are shorter, is computed.
 */
export function turnsForResistance(quick: QuickEstimates, coil: Coil, at20COhm: Estimate): TurnsProposal | undefined {
  const winding = quick.windings.get(coil);
  const turns =
    at20COhm.value > 0 ? winding && turnsReading(winding, quick.readings.get(coil)?.at20COhm, at20COhm) : undefined;
  return turns && proposal(quick, coil, turns);
}

function turnsReading(
  { space, turns, turnsFromReading, ohmPerM20C }: WindingEstimates,
  whole: Estimate | undefined,
  part: Estimate,
): Estimate | undefined {
  if (space && whole && turns && !turnsFromReading)
    return functionOf([...space.inputs, turns, whole, part], ([d, p, s, count, wholeOhm, partOhm]) => {
      const lengthM = space.wound([d, p, s], count).wireLengthM * (partOhm / wholeOhm);
      return turnsOfWireLength(space.winding([d, p, s]), lengthM).turns;
    });
  return (
    space &&
    ohmPerM20C &&
    functionOf([...space.inputs, ohmPerM20C, part], ([d, p, s, ohmPerM, resistanceAt20COhm]) => {
      return turnsOfResistance(space.winding([d, p, s]), { resistanceAt20COhm, ohmPerM }).turns;
    })
  );
}

/** Turns of a coil that cancel as much hum as another makes: equal turn-area, which is equal turns only where the bobbins are alike. */
export function turnsThatMatch(quick: QuickEstimates, coil: Coil, other: Coil): TurnsProposal | undefined {
  const space = quick.windings.get(coil)?.space;
  const wanted = quick.windings.get(other)?.turnAreaM2;
  const turns =
    space &&
    wanted &&
    functionOf([...space.inputs, wanted], ([d, p, s, area]) => {
      const of = (count: number) => windCoil(space.winding([d, p, s]), count).turnAreaM2;
      return solveIncreasing(of, { target: area, low: 0, high: MOST_TURNS, tolerance: 1e-12 }) ?? Number.NaN;
    });
  return turns && Number.isFinite(turns.value) ? proposal(quick, coil, turns) : undefined;
}

/** No coil of a pickup has so many. */
const MOST_TURNS = 1e6;

/** Turns still on the coil after a break, from what the rest reads at 20 degC; how many came off, and the wire to wind them anew. */
export function turnsAfterBreak(
  quick: QuickEstimates,
  coil: Coil,
  rest20COhm: Estimate,
):
  | { readonly left: Estimate; readonly gone: WoundLength | undefined; readonly wire: WireNeed | undefined }
  | undefined {
  const left = turnsForResistance(quick, coil, rest20COhm);
  const gone = left?.off;
  return left && { left: left.turns, gone, wire: gone && wireNeed(quick, coil, gone.lengthM) };
}

/** Turns that a length of wire peeled from the outside took with it, and the wire to wind them anew. */
export function turnsPeeled(
  quick: QuickEstimates,
  coil: Coil,
  lengthM: Estimate,
): { readonly gone: Estimate; readonly wire: WireNeed } | undefined {
  const { space, turns } = quick.windings.get(coil) ?? {};
  if (!space || !turns) return undefined;
  const gone = functionOf([...space.inputs, turns, lengthM], ([d, p, s, count, length]) => {
    const whole = space.wound([d, p, s], count).wireLengthM;
    return count - turnsOfWireLength(space.winding([d, p, s]), Math.max(0, whole - length)).turns;
  });
  return { gone, wire: wireNeed(quick, coil, lengthM) };
}

export type Target =
  /** Between hot and ground, at the bench's room temperature. */
  | { readonly resistanceOhm: number }
  | { readonly inductanceH: number }
  | { readonly resonanceHz: number; readonly loaded: boolean };

/**
 * Turns of each coil that is still to be planned, or else of each that was wound here (those with stated turns), all scaled alike,
 * that bring the pickup to its target; a salvaged coil keeps its turns. Readings correct what is computed in proportion.
 */
export function turnsForTarget(
  quick: QuickEstimates,
  bench: Bench | undefined,
  target: Target,
): readonly TurnsProposal[] | undefined {
  const { pickup } = quick.netlist;
  const blank = pickup.coils.filter((coil) => isBlank(quick, coil));
  const wound = blank.length > 0 ? blank : pickup.coils.filter((coil) => coil.turns ?? coil.counted);
  if (wound.length === 0) return undefined;
  const load = 'loaded' in target && !target.loaded ? NO_LOAD : DEFAULT_LOAD;
  const figure = (state: QuickEstimates): Estimate | undefined => {
    if ('resistanceOhm' in target)
      return state.resistance20COhm
        ? scale(state.resistance20COhm, copperTemperatureFactor(benchRoomC(bench)))
        : undefined;
    const { inductanceH, resonanceHz } = pickupEstimates(state, bench, load);
    return 'inductanceH' in target ? inductanceH : (resonanceHz ?? undefined);
  };
  const changed = (factor: number) => quickEstimates(pickupNetlist(withTurns(pickup, wound, factor, quick)), bench);
  const reached = (factor: number): number | undefined => figure(changed(factor))?.value;
  // What was read of this pickup tells how far such coils lie from what is computed, whatever their turns.
  const [asBuilt, asComputed] = [blank.length > 0 ? undefined : figure(quick), reached(1)];
  const correction = asBuilt && asComputed ? asBuilt.value / asComputed : 1;
  const wanted =
    'resistanceOhm' in target
      ? target.resistanceOhm
      : 'inductanceH' in target
        ? target.inductanceH
        : target.resonanceHz;
  const factor = solveFactor(reached, wanted / correction);
  const here = factor === undefined ? undefined : changed(factor);
  const figured = asBuilt ?? (here && figure(here));
  const beside = factor === undefined ? undefined : reached(factor * (1 + SLOPE_STEP));
  if (!here || factor === undefined || !figured || !beside) return undefined;
  const slope = Math.log((beside * correction) / wanted) / Math.log(1 + SLOPE_STEP);
  return wound.flatMap((coil) => {
    const value = turnsNow(quick, coil) * factor;
    const sd = Math.abs((value * figured.sd) / (figured.value * slope));
    const each = proposal(quick, coil, estimateOf(value, { sd, basis: 'computed' }));
    return each ? [each] : [];
  });
}

const SLOPE_STEP = 0.02;

/** For each target that the spec states, in its words, the turns that reach it. */
export function targetProposals(
  quick: QuickEstimates,
  bench: Bench | undefined,
): readonly { readonly words: string; readonly proposals: readonly TurnsProposal[] }[] {
  const { resistance, inductance, resonance } = quick.netlist.pickup.target ?? {};
  const reached = (words: string, target: Target) => {
    const proposals = turnsForTarget(quick, bench, target) ?? [];
    return proposals.length > 0 ? [{ words, proposals }] : [];
  };
  return [
    ...(resistance ? reached(`resistance of ${resistance.value.written}`, { resistanceOhm: resistance.value.si }) : []),
    ...(inductance ? reached(`inductance of ${inductance.value.written}`, { inductanceH: inductance.value.si }) : []),
    ...(resonance
      ? reached(`resonance of ${resonance.value.frequency.written} ${resonance.value.load}`, {
          resonanceHz: resonance.value.frequency.si,
          loaded: resonance.value.load === 'loaded',
        })
      : []),
  ];
}

/** Neither turns nor a reading: its turns are still to be planned. */
const isBlank = (quick: QuickEstimates, coil: Coil): boolean =>
  !coil.turns && !coil.counted && !quick.readings.has(coil) && quick.windings.get(coil)?.space !== undefined;

const turnsNow = (quick: QuickEstimates, coil: Coil): number => quick.windings.get(coil)?.turns?.value ?? USUAL_TURNS;

/** A pickup as it would be with other turns: its readings were taken of this one, so they go. */
function withTurns(pickup: Pickup, coils: readonly Coil[], factor: number, quick: QuickEstimates): Pickup {
  return {
    ...pickup,
    readings: pickup.readings.map((block) => ({
      ...block,
      lines: block.lines.filter(({ kind }) => kind === 'kick' || kind === 'compass'),
    })),
    coils: pickup.coils.map((coil) => {
      const changes = coils.includes(coil);
      if (!changes && !quick.windings.get(coil)?.turns) return coil;
      const count = turnsNow(quick, coil) * (changes ? factor : 1);
      return {
        ...coil,
        counted: undefined,
        turns: {
          value: { dimension: 'turns' as const, si: count, written: `${Math.round(count)}` },
          place: (coil.counted ?? coil.turns)?.place ?? coil.place,
        },
      };
    }),
  };
}

/** Less than a turn in ten thousand. */
const CLOSE_ENOUGH = 5e-5;

/** By secants in the logarithms, where each of the targets is nearly a power of the turns. */
function solveFactor(reached: (factor: number) => number | undefined, wanted: number): number | undefined {
  if (!(wanted > 0)) return undefined;
  let previous = { factor: 1, value: reached(1) };
  let current = { factor: 1.05, value: reached(1.05) };
  for (let round = 0; round < 12; round++) {
    if (!previous.value || !current.value || !(previous.value > 0) || !(current.value > 0)) return undefined;
    const slope = Math.log(current.value / previous.value) / Math.log(current.factor / previous.factor);
    if (!Number.isFinite(slope) || slope === 0) return undefined;
    const factor = Math.min(5, Math.max(0.1, current.factor * (wanted / current.value) ** (1 / slope)));
    if (Math.abs(factor / current.factor - 1) < CLOSE_ENOUGH) return factor;
    previous = current;
    current = { factor, value: reached(factor) };
  }
  return current.value && Math.abs(current.value / wanted - 1) < 1e-3 ? current.factor : undefined;
}

function proposal(quick: QuickEstimates, coil: Coil, turns: Estimate): TurnsProposal | undefined {
  const { space, turns: now } = quick.windings.get(coil) ?? {};
  if (!space) return undefined;
  const windowFilled = space.wound(best(space), turns.value).buildM / space.depthM;
  return {
    coil,
    turns,
    windowFilled,
    fits: windowFilled <= 1 + 1e-9,
    wire: wireNeed(quick, coil, lengthOf(space, turns)),
    off: now && {
      turns: difference(now, turns),
      lengthM: functionOf([...space.inputs, now, turns], ([d, p, s, a, b]) => {
        return space.wound([d, p, s], a).wireLengthM - space.wound([d, p, s], b).wireLengthM;
      }),
    },
  };
}

const best = ({ inputs: [a, b, c] }: WindingSpace): Three<number> => [a.value, b.value, c.value];

const lengthOf = (space: WindingSpace, turns: Estimate): Estimate =>
  functionOf([...space.inputs, turns], ([d, p, s, count]) => space.wound([d, p, s], count).wireLengthM);

function wireNeed(quick: QuickEstimates, coil: Coil, woundM: Estimate): WireNeed {
  const { bareDiameterM: bare, overallDiameterM: overall } = quick.windings.get(coil) ?? {};
  const lengthM = scale(woundM, WIRE_ALLOWANCE);
  const massKg =
    bare &&
    overall &&
    functionOf([lengthM, bare, overall], ([length, bareM, overallM]) => length * wireMass(bareM, overallM).totalKgPerM);
  const left = coil.spool?.left?.value.si;
  return {
    lengthM,
    massKg,
    spool: coil.spool,
    enough: massKg === undefined || left === undefined ? undefined : massKg.value <= left,
  };
}
