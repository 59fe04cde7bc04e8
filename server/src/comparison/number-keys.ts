/** Which computed values are told of a pickup, a coil and a position, in the order in which people read them. */
import type { CoilEstimates, PickupEstimates, PositionEstimates } from '../estimates/estimates.ts';

export const PICKUP_KEYS = [
  'resistance20COhm',
  'inductanceH',
  'capacitanceF',
  'resonanceHz',
  'peakDb',
  'signalDb',
  'humDb',
] as const satisfies readonly (keyof PickupEstimates)[];

export const COIL_KEYS = [
  'turns',
  'resistance20COhm',
  'ohmPerM20C',
  'wireLengthM',
  'wireMassKg',
  'meanTurnM',
  'turnAreaM2',
  'layers',
  'buildM',
  'windowFilled',
  'packing',
  'inductanceAirH',
  'inductanceH',
  'capacitanceF',
] as const satisfies readonly (keyof CoilEstimates)[];

export const POSITION_KEYS = [
  'resistanceOhm',
  'resonanceHz',
  'peakDb',
  'minus3DbHz',
  'levelDb',
  'signalDb',
  'humDb',
] as const satisfies readonly (keyof PositionEstimates)[];

export type PickupKey = (typeof PICKUP_KEYS)[number];
export type CoilKey = (typeof COIL_KEYS)[number];
export type PositionKey = (typeof POSITION_KEYS)[number];
export type NumberKey = PickupKey | CoilKey | PositionKey;
