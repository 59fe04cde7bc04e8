/** What a winder asks at the machine: what the meter shows on the way, how it must turn, how long it takes, and how much wire. */
import { type Bench, benchRoomC } from '../model/bench.ts';
import { type Coil, opposite, type Rotation } from '../model/coil.ts';
import { windCoil } from '../physics/coil-geometry.ts';
import { traverse, windingTimeS } from '../physics/winding-machine.ts';
import { copperTemperatureFactor, wireMass } from '../physics/wire.ts';
import { type Estimate, functionOf, scale } from '../quantities/estimate.ts';
import { WINDING_SPEED_RPM, WIRE_ALLOWANCE } from './common-practice.ts';
import type { QuickEstimates } from './quick.ts';

/** One line of what the meter shows on the way. */
export interface ProgressRow {
  readonly turns: number;
  readonly resistanceOhm: Estimate;
  readonly buildM: number;
}

const EVERY_TURNS = 1000;

/** Resistance after every thousand turns at the temperature of the room, and at the last turn. */
export function windingProgressRows(
  quick: QuickEstimates,
  coil: Coil,
  bench: Bench | undefined,
  { temperatureC = benchRoomC(bench) }: { temperatureC?: number } = {},
): readonly ProgressRow[] {
  const winding = quick.windings.get(coil);
  const all = winding?.turns?.value;
  if (!winding?.geometry || !winding.ohmPerM20C || all === undefined) return [];
  const { geometry } = winding;
  const factor = copperTemperatureFactor(temperatureC);
  const marks: number[] = [];
  for (let mark = EVERY_TURNS; mark < all; mark += EVERY_TURNS) marks.push(mark);
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
