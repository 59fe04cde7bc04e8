import type { Complex } from '../complex.ts';
import { magnitude, scale } from '../complex.ts';
import type { Network } from './network.ts';
import { type SourceValues, sourceValue, transfers, type Unsolved } from './solve.ts';

/** Nothing that cancels is shown lower than this: no coil is wound to a millionth. */
export const cancelledDb = -120;

/** As low a level is silence, not a number: nothing but strays and rounding carries it. */
export const isSilentDb = (db: number): boolean => db <= cancelledDb;

/**
 * Level of all sources together against one of them alone, in dB, in the same network at one frequency (its other
 * coils stay in place and load it). Two equal sources that add give +6.0, one source 0, sources that cancel the floor
 * of -120. The reference is the strongest contribution, or the named source. With source values proportional to signed
 * string excitation this is the signal, with signed turn-area the hum.
 */
export function combinedLevelDb(
  network: Network,
  output: string,
  values: SourceValues,
  frequencyHz: number,
  reference?: string,
): number | Unsolved {
  const perUnit = transfers(network, output, frequencyHz);
  if (typeof perUnit === 'string') return perUnit;
  const contributions = perUnit.map((transfer, source) => scale(transfer, sourceValue(network, source, values)));
  const single =
    reference === undefined
      ? Math.max(0, ...contributions.map(magnitude))
      : magnitude(contributions[network.sources.indexOf(reference)] ?? { re: 0, im: 0 });
  return levelAgainstDb(contributions, single);
}

/** Level of a sum of contributions against a reference amplitude, in dB, not below the floor of -120. */
export function levelAgainstDb(contributions: readonly Complex[], reference: number): number {
  let re = 0;
  let im = 0;
  for (const contribution of contributions) {
    re += contribution.re;
    im += contribution.im;
  }
  const amplitude = Math.hypot(re, im);
  if (amplitude === 0 || reference === 0) return cancelledDb;
  return Math.max(cancelledDb, 20 * Math.log10(amplitude / reference));
}
