/**
 * Names of the causes of error that several numbers share, in words a winder reads, and the one measurement that settles each.
 * Numbers with a cause of the same name are correlated through it.
 */

import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { type Estimate, ownDeviation } from '../quantities/estimate.ts';
import type { Reason } from './reasons.ts';

/** What a cause calls a pickup: its first state, since what is uncertain of a piece is the same in all its states. */
export const pieceName = ({ name, reworks }: Pickup): string => (reworks ? pieceName(reworks) : name);

/** What a cause calls a coil: `pickup.coil`, since two pickups may call theirs alike; the pickup is the state that it was wound in. */
export const coilPath = ({ name, reworks }: Pickup, coil: Pick<Coil, 'name' | 'work'>): string => {
  const former = coil.work?.value === 'kept' && reworks?.coils.find((each) => each.name === coil.name);
  return reworks && former ? coilPath(reworks, former) : `${name}.${coil.name}`;
};

/** `path` is a `coilPath`, `pickup` a `pieceName`. */
export const causes = {
  spool: (name: string) => `spool ${name}`,
  wire: (name: string) => `wire ${name}`,
  overallDiameter: (wire: string) => `overall diameter of ${wire}`,
  packing: (path: string) => `packing of ${path}`,
  bobbin: (path: string) => `bobbin of ${path}`,
  turns: (path: string) => `turns of ${path}`,
  meter: 'the meter',
  roomTemperature: 'temperature of the room',
  partOf: (path: string) => `part of ${path} in what was read through several coils`,
  unknown: 'what nobody knows of the coils',
  readTogether: (between: string, pickup: string) => `reading ${between} of ${pickup}`,
  poles: (pickup: string) => `poles of ${pickup}`,
  metalwork: (pickup: string) => `losses in the metalwork of ${pickup}`,
  poleLosses: (pickup: string) => `losses in the poles of ${pickup}`,
  screening: (pickup: string) => `screening of the strings by the metal of ${pickup}`,
  beneath: (pickup: string) => `magnet and steel beneath ${pickup}`,
  unlikeCoils: (pickup: string) => `what the coils of ${pickup} differ in`,
  coilsApart: (pickup: string) => `distance of the coils of ${pickup}`,
  windingCapacitance: 'capacitance of windings, by the clearance of their turns',
  surroundings: (pickup: string) => `capacitance to what stands about the coils of ${pickup}`,
  pots: 'tracks of the pots',
  capacitors: 'capacitors of the controls',
  cable: 'the cable',
  sweepResistor: (ohms: string) => `the resistor ${ohms} of a sweep`,
  inputResistance: 'input resistance of the recorder',
  inputCapacitance: 'input capacitance of the recorder',
  impedanceMeter: 'the impedance meter',
  addedCapacitor: (farads: string) => `the capacitor ${farads} of a sweep`,
  loudness: 'how loud coils of unknown turns are',
  leadCapacitance: (pickup: string) => `capacitance of the cable of ${pickup}`,
} as const;

/** The cause that makes most of an estimate's variance, its share of it (0 to 1), and what would settle it. */
export interface LargestCause {
  readonly cause: string;
  readonly share: number;
  readonly measurement: Reason;
}

/**
 * `undefined` where the number is exact, or where its own error, which no measurement of something else narrows, is the largest
 * part.
 */
export function largestCause(estimate: Estimate): LargestCause | undefined {
  const variance = estimate.sd ** 2;
  if (!(variance > 0) || !Number.isFinite(variance)) return undefined;
  const own = ownDeviation(estimate) ** 2;
  const [first] = Object.entries(estimate.sources ?? {}).sort(([, a], [, b]) => Math.abs(b) - Math.abs(a));
  if (!first || first[1] ** 2 < own) return undefined;
  const measurement = MEASUREMENTS.find(([start]) => first[0].startsWith(start))?.[1];
  return measurement === undefined
    ? undefined
    : { cause: first[0], share: Math.min(1, first[1] ** 2 / variance), measurement };
}

/** By how a cause's name begins. */
const MEASUREMENTS: readonly (readonly [string, Reason])[] = [
  ['spool ', 'measure some metres of the spool: measures … ohm/m at … degC'],
  ['wire ', 'measure some metres of this wire, or its bare diameter; or read the coil itself'],
  ['overall diameter of ', 'measure the wire over its enamel: overall … mm'],
  ['packing of ', 'measure how deep the winding is, which gives its packing: packing …'],
  ['bobbin of ', 'measure the core and the winding space of the bobbin'],
  ['turns of ', 'count the turns: counted …'],
  ['the resistor ', 'measure the resistor by itself, and state what it read: over 9.98 kohm ± 0.1 %'],
  ['input resistance of the recorder', 'sweep the recorder by itself: recorder alone … through …'],
  ['input capacitance of the recorder', 'sweep the recorder by itself, or the pickup over 10 kohm'],
  ['the impedance meter', 'measure with a more accurate meter'],
  ['the capacitor ', 'measure the capacitor by itself, and state it: with … pF ± … %'],
  ['the meter', 'read it with a more accurate meter'],
  ['temperature of the room', 'state the temperature of the reading: at … degC'],
  ['losses in ', 'drive the pickup with a coil over its poles and read how high its peak is'],
  ['screening of ', 'drive the pickup with a coil over its poles and read how high its peak is'],
  ['poles of ', 'measure the inductance: inductance hot to ground … H at 1 kHz'],
  ['magnet and steel beneath ', 'measure the inductance: inductance hot to ground … H at 1 kHz'],
  ['distance of the coils of ', 'measure the distance of the coils: coils … mm apart'],
  ['tracks of the pots', 'read the tracks of the pots by themselves, and state what they read'],
  ['capacitors of the controls', 'read the capacitors by themselves, and state what they read'],
  ['the cable', 'state the cable: cable 4.5 m of 110 pF/m'],
  ['capacitance of ', 'measure the capacitance: capacitance … pF'],
];
