import { cancelledDb } from './combined-level.ts';

/**
 * E.m.f. that a uniform field along the axis of a coil induces, in V, RMS where the flux density is:
 * 2π·f·B·ΣA (Faraday's law of induction). The turn-area ΣA is the sum over the turns, in m².
 */
export function uniformFieldEmfV(turnAreaM2: number, fluxDensityT: number, frequencyHz: number): number {
  return 2 * Math.PI * frequencyHz * fluxDensityT * turnAreaM2;
}

/**
 * What is left of the hum of an unloaded series path, in dB against its largest coil: the sum of signed
 * turn-areas (m²). Resistance and inductance play no part, since no current flows.
 */
export function seriesHumDb(signedTurnAreasM2: readonly number[]): number {
  const sum = Math.abs(signedTurnAreasM2.reduce((total, area) => total + area, 0));
  const largest = Math.max(0, ...signedTurnAreasM2.map(Math.abs));
  if (sum === 0 || largest === 0) return cancelledDb;
  return Math.max(cancelledDb, 20 * Math.log10(sum / largest));
}
