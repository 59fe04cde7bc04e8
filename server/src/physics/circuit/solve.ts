import type { Complex } from '../complex.ts';
import { type Network, netOf, regimeAt } from './network.ts';

/**
 * What a node of a network is at a frequency: `floating` where no current can reach ground from it, so that its
 * voltage against ground has no value; `undetermined` where the equations have no unique solution, as with two
 * ideal voltage sources side by side.
 */
export type Unsolved = 'floating' | 'undetermined';

/** Values of sources by name: V for coils and voltage sources, A for current sources. A source left out is 0. */
export type SourceValues = Readonly<Record<string, number>>;

/** The value of a network's source, by its index. A source may be called as what every object has, `constructor`. */
export function sourceValue({ sources }: Network, source: number, values: SourceValues): number {
  const name = sources[source] ?? '';
  return Object.hasOwn(values, name) ? (values[name] ?? 0) : 0;
}

export interface Solution {
  /** Voltage of a node against ground, in V. */
  voltageAt(node: string): Complex | 'floating';
}

/** Every voltage of the network at one frequency, in Hz; 0 Hz is the meter's world, where capacitors are open. */
export function solve(network: Network, frequencyHz: number, values: SourceValues): Solution | 'undetermined' {
  const { solver, islands } = regimeAt(network, frequencyHz);
  const re = new Float64Array(solver.size);
  const im = new Float64Array(solver.size);
  if (!solver.solve(2 * Math.PI * frequencyHz, rightSide(network, values), re, im)) return 'undetermined';
  return {
    voltageAt: (node) => {
      const net = netOf(network, node);
      if (net === undefined || islands[net] !== 0) return 'floating';
      return net === 0 ? { re: 0, im: 0 } : { re: re[net - 1] ?? 0, im: im[net - 1] ?? 0 };
    },
  };
}

/** What the sources put on the right-hand side of the equations. */
export function rightSide(network: Network, values: SourceValues): Float64Array {
  const right = new Float64Array(network.size);
  for (const { source, row, coefficient } of network.sourceTerms)
    right[row] = (right[row] ?? 0) + coefficient * sourceValue(network, source, values);
  return right;
}

/** What one unit of each source contributes to an output, over frequency: source after source in one array. */
export interface TransferTable {
  readonly frequencyHz: Float64Array;
  /** Names of the sources, in the order of the rows below. */
  readonly sources: readonly string[];
  /** Real and imaginary parts: source s at frequency f stands at s · frequencies + f. */
  readonly re: Float64Array;
  readonly im: Float64Array;
}

/**
 * What each source contributes to the voltage between an output and ground, per unit of the source, in the order of
 * `network.sources`. One factorisation serves all of them: the transposed equations are solved for the output.
 */
export function transfers(network: Network, output: string, frequencyHz: number): readonly Complex[] | Unsolved {
  const table = transferTable(network, output, Float64Array.of(frequencyHz));
  if (typeof table === 'string') return table;
  return table.sources.map((_, source) => ({ re: table.re[source] ?? 0, im: table.im[source] ?? 0 }));
}

/** The same at many frequencies. Frequencies must be above 0 or all 0. */
export function transferTable(network: Network, output: string, frequencyHz: Float64Array): TransferTable | Unsolved {
  const { solver, islands } = regimeAt(network, frequencyHz[0] ?? 0);
  const { sources, sourceTerms } = network;
  const count = frequencyHz.length;
  const re = new Float64Array(sources.length * count);
  const im = new Float64Array(sources.length * count);
  const net = netOf(network, output);
  if (net === undefined || islands[net] !== 0) return 'floating';
  if (net === 0) return { frequencyHz, sources, re, im };
  const atOutput = new Float64Array(solver.size);
  atOutput[net - 1] = 1;
  const adjointRe = new Float64Array(solver.size);
  const adjointIm = new Float64Array(solver.size);
  for (let f = 0; f < count; f++) {
    const omega = 2 * Math.PI * (frequencyHz[f] ?? 0);
    if (!solver.solveTransposed(omega, atOutput, adjointRe, adjointIm)) return 'undetermined';
    for (const { source, row, coefficient } of sourceTerms) {
      const at = source * count + f;
      re[at] = (re[at] ?? 0) + coefficient * (adjointRe[row] ?? 0);
      im[at] = (im[at] ?? 0) + coefficient * (adjointIm[row] ?? 0);
    }
  }
  return { frequencyHz, sources, re, im };
}
