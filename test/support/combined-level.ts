import type { Network } from '../../server/src/physics/circuit/network.ts';
import { cancelledDb } from '../../server/src/physics/circuit/silence.ts';
import { type SourceValues, sourceValue, transfers, type Unsolved } from '../../server/src/physics/circuit/solve.ts';
import { magnitude, scale } from '../../server/src/physics/complex.ts';

/**
 * Level of all sources together against one of them alone, in dB, in the same network at one frequency (its other
 * coils stay in place and load it): the strongest contribution, or the named source. Two equal sources that add give +6.0, one source 0.
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
  const sum = contributions.reduce((total, { re, im }) => ({ re: total.re + re, im: total.im + im }), { re: 0, im: 0 });
  const amplitude = magnitude(sum);
  return amplitude === 0 || single === 0 ? cancelledDb : Math.max(cancelledDb, 20 * Math.log10(amplitude / single));
}
