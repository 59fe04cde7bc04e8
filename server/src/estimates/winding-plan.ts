/**
 * What a winder asks before and during winding: turns for a target, turns that match another coil, what the meter shows on the
 * way, how the machine must turn, how long it takes, and whether the spool holds enough.
 */
import { type Bench, benchRoomC } from '../model/bench.ts';
import { type Coil, opposite, type Rotation } from '../model/coil.ts';
import { pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { turnsOfResistance, turnsOfWireLength, windCoil, windingFit } from '../physics/coil-geometry.ts';
import { traverse, windingTimeS } from '../physics/winding-machine.ts';
import { copperTemperatureFactor, wireMass } from '../physics/wire.ts';
import { type Estimate, functionOf, scale } from '../quantities/estimate.ts';
import { WINDING_SPEED_RPM, WIRE_ALLOWANCE } from './common-practice.ts';
import { DEFAULT_LOAD, NO_LOAD, pickupEstimates } from './pickup-estimates.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';

/** Turns of one coil that reach a target, and whether they fit its window. */
export interface TurnsProposal {
  readonly coil: Coil;
  readonly turns: number;
  /** Build over the window's depth. */
  readonly windowFilled: number | undefined;
  readonly fits: boolean;
}

/** Turns of a coil whose wire reads `resistance20COhm` at 20 degC. */
export function turnsForResistance(
  quick: QuickEstimates,
  coil: Coil,
  resistance20COhm: number,
): TurnsProposal | undefined {
  const winding = quick.windings.get(coil);
  const ohmPerM = winding?.ohmPerM20C?.value;
  if (!winding?.geometry || ohmPerM === undefined || !(resistance20COhm > 0)) return undefined;
  return proposal(
    quick,
    coil,
    turnsOfResistance(winding.geometry, { resistanceAt20COhm: resistance20COhm, ohmPerM }).turns,
  );
}

/** Turns of a coil that cancel as much hum as another makes: equal turn-area, which is equal turns only where the bobbins are alike. */
export function turnsThatMatch(quick: QuickEstimates, coil: Coil, other: Coil): TurnsProposal | undefined {
  const winding = quick.windings.get(coil);
  const wanted = quick.windings.get(other)?.turnAreaM2?.value;
  const { geometry } = winding ?? {};
  if (!geometry || wanted === undefined) return undefined;
  const turns = solveTurns(
    (count) => windCoil(geometry, count).turnAreaM2,
    wanted,
    quick.windings.get(other)?.turns?.value ?? 5000,
  );
  return turns === undefined ? undefined : proposal(quick, coil, turns);
}

/**
 * Turns of each coil that was wound here (those with stated turns), all scaled alike, that bring the pickup to its target; a
 * salvaged coil keeps its turns. Readings correct what is computed in proportion.
 */
export function turnsForTarget(
  quick: QuickEstimates,
  bench: Bench | undefined,
  target:
    | { readonly resistance20COhm: number }
    | { readonly inductanceH: number }
    | { readonly resonanceHz: number; readonly loaded: boolean },
): readonly TurnsProposal[] | undefined {
  const { pickup } = quick.netlist;
  const wound = pickup.coils.filter((coil) => coil.turns ?? coil.counted);
  if (wound.length === 0) return undefined;
  const load = 'loaded' in target && !target.loaded ? NO_LOAD : DEFAULT_LOAD;
  const figure = (state: QuickEstimates): number | undefined => {
    if ('resistance20COhm' in target) return state.resistance20COhm?.value;
    const { inductanceH, resonanceHz } = pickupEstimates(state, bench, load);
    return 'inductanceH' in target ? inductanceH?.value : resonanceHz?.value;
  };
  const reached = (factor: number): number | undefined =>
    figure(quickEstimates(pickupNetlist(withTurns(pickup, wound, factor, quick)), bench));
  // What was read of this pickup tells how far such coils lie from what is computed, whatever their turns.
  const [asBuilt, asComputed] = [figure(quick), reached(1)];
  const correction = asBuilt && asComputed ? asBuilt / asComputed : 1;
  const wanted =
    'resistance20COhm' in target
      ? target.resistance20COhm
      : 'inductanceH' in target
        ? target.inductanceH
        : target.resonanceHz;
  const factor = solveFactor(reached, wanted / correction);
  if (factor === undefined) return undefined;
  return wound.flatMap((coil) => {
    const turns = quick.windings.get(coil)?.turns?.value;
    const each = turns === undefined ? undefined : proposal(quick, coil, turns * factor);
    return each ? [each] : [];
  });
}

/** A pickup as it would be with other turns: its readings were taken of this one, so they go. */
function withTurns(pickup: Pickup, coils: readonly Coil[], factor: number, quick: QuickEstimates): Pickup {
  return {
    ...pickup,
    readings: pickup.readings.map((block) => ({
      ...block,
      lines: block.lines.filter(({ kind }) => kind === 'kick' || kind === 'compass'),
    })),
    coils: pickup.coils.map((coil) => {
      const turns = quick.windings.get(coil)?.turns;
      const stated = coil.counted ?? coil.turns;
      const place = stated?.place ?? coil.place;
      if (!turns) return coil;
      const count = turns.value * (coils.includes(coil) ? factor : 1);
      return {
        ...coil,
        counted: undefined,
        turns: { value: { dimension: 'turns' as const, si: count, written: `${Math.round(count)}` }, place },
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

function solveTurns(f: (turns: number) => number, wanted: number, guess: number): number | undefined {
  const factor = solveFactor((each) => f(guess * each), wanted);
  return factor === undefined ? undefined : factor * guess;
}

function proposal(quick: QuickEstimates, coil: Coil, turns: number): TurnsProposal {
  const geometry = quick.windings.get(coil)?.geometry;
  const depth = coil.bobbin?.window?.value.depth.si;
  const fit = geometry && depth ? windingFit(geometry, turns, depth) : undefined;
  return { coil, turns: Math.round(turns), windowFilled: fit?.filled, fits: fit?.fits ?? true };
}

/** One line of what the meter shows on the way. */
export interface ProgressRow {
  readonly turns: number;
  readonly resistanceOhm: Estimate;
  readonly buildM: number;
}

/** Resistance after every so many turns at the temperature of the room, and at the last turn. */
export function windingProgressRows(
  quick: QuickEstimates,
  coil: Coil,
  bench: Bench | undefined,
  { everyTurns = 1000, temperatureC = benchRoomC(bench) }: { everyTurns?: number; temperatureC?: number } = {},
): readonly ProgressRow[] {
  const winding = quick.windings.get(coil);
  const all = winding?.turns?.value;
  if (!winding?.geometry || !winding.ohmPerM20C || all === undefined) return [];
  const { geometry } = winding;
  const factor = copperTemperatureFactor(temperatureC);
  const marks: number[] = [];
  for (let mark = everyTurns; mark < all; mark += everyTurns) marks.push(mark);
  return [...marks, all].map((turns) => {
    const part = windCoil(geometry, turns);
    const share = winding.computed20COhm && all > 0 ? winding.computed20COhm.sd / winding.computed20COhm.value : 0;
    const ohm = scale(
      functionOf([winding.ohmPerM20C as Estimate], ([perM]) => perM * part.wireLengthM),
      factor,
    );
    return { turns, resistanceOhm: { ...ohm, sd: Math.max(ohm.sd, share * ohm.value) }, buildM: part.buildM };
  });
}

/** What to set on the winder. */
export interface MachineSettings {
  readonly pitchM: number;
  readonly turnsPerLayer: number;
  readonly minutes: number;
  readonly speedRpm: number;
  /** How the spindle must turn, seen facing it, for each face of the bobbin toward it. */
  readonly spindle: { readonly topTowardIt: Rotation; readonly bottomTowardIt: Rotation } | undefined;
}

export function machineSettings(quick: QuickEstimates, coil: Coil): MachineSettings | undefined {
  const winding = quick.windings.get(coil);
  const heightM = coil.bobbin?.window?.value.height.si;
  const overall = winding?.overallDiameterM?.value;
  const turns = winding?.turns?.value;
  if (heightM === undefined || overall === undefined || turns === undefined) return undefined;
  const stated = coil.traverse?.value.si;
  const { pitchM, turnsPerLayer } = traverse({
    heightM,
    overallDiameterM: overall,
    ...(stated ? { pitchM: stated } : {}),
  });
  const speedRpm = coil.speed ? coil.speed.value.si * 60 : WINDING_SPEED_RPM;
  const rotation = coil.wound?.value;
  // Facing the spindle one sees the face that is away from it; what turns clockwise is laid counterclockwise.
  return {
    pitchM,
    turnsPerLayer,
    minutes: windingTimeS(turns, speedRpm) / 60,
    speedRpm,
    spindle: rotation && { topTowardIt: rotation, bottomTowardIt: opposite(rotation) },
  };
}

/** Turns still on the coil after a break, from what the rest reads at 20 degC, and how many came off. */
export function turnsAfterBreak(
  quick: QuickEstimates,
  coil: Coil,
  rest20COhm: number,
): { readonly left: number; readonly peeled: number } | undefined {
  const left = turnsForResistance(quick, coil, rest20COhm)?.turns;
  const before = quick.windings.get(coil)?.turns?.value;
  return left === undefined || before === undefined
    ? undefined
    : { left, peeled: Math.max(0, Math.round(before - left)) };
}

/** Turns that a length of wire peeled from the outside took with it. */
export function turnsPeeled(quick: QuickEstimates, coil: Coil, lengthM: number): number | undefined {
  const winding = quick.windings.get(coil);
  const all = winding?.turns?.value;
  if (!winding?.geometry || all === undefined) return undefined;
  const whole = windCoil(winding.geometry, all).wireLengthM;
  return Math.round(all - turnsOfWireLength(winding.geometry, Math.max(0, whole - lengthM)).turns);
}

export function wireNeededKg(quick: QuickEstimates, coil: Coil): number | undefined {
  const winding = quick.windings.get(coil);
  const [length, bare, overall] = [
    winding?.wireLengthM?.value,
    winding?.bareDiameterM?.value,
    winding?.overallDiameterM?.value,
  ];
  if (length === undefined || bare === undefined || overall === undefined) return undefined;
  return WIRE_ALLOWANCE * length * wireMass(bare, overall).totalKgPerM;
}
