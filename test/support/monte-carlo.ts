import type { UncertainSource } from '../../server/src/physics/uncertainty.ts';
import { uniform } from './chance.ts';

/** What a Monte Carlo run found. */
export interface MonteCarloResult {
  mean: number;
  sd: number;
  /** 2.5 and 97.5 % quantiles. */
  interval95: readonly [number, number];
}

/**
 * Propagation of distributions (JCGM 101:2008): every source normal, `samples` draws from a generator started at `seed`, so that
 * the same call always gives the same result. For functions that bend, such as those with a maximum inside the spread. Draws for
 * which `f` is not finite are left out.
 */
export const monteCarlo = <Name extends string>(
  f: (values: Record<Name, number>) => number,
  sources: readonly UncertainSource<Name>[],
  settings: Settings,
): MonteCarloResult => monteCarloOfAll((values) => ({ f: f(values) }), sources, settings).f;

interface Settings {
  readonly samples: number;
  readonly seed: number;
}

/** The same of several numbers that are worked out together. */
export function monteCarloOfAll<Name extends string, Of extends string>(
  f: (values: Record<Name, number>) => Readonly<Record<Of, number>>,
  sources: readonly UncertainSource<Name>[],
  { samples, seed }: Settings,
): Readonly<Record<Of, MonteCarloResult>> {
  const normal = normalGenerator(seed);
  const drawn = Array.from({ length: samples }, () =>
    f(valuesOf(sources.map((source) => ({ ...source, value: source.value + source.sd * normal() })))),
  );
  const keys = Object.keys(drawn[0] ?? {}) as Of[];
  return Object.fromEntries(keys.map((key) => [key, resultOf(drawn.map((each) => each[key]))])) as Record<
    Of,
    MonteCarloResult
  >;
}

function resultOf(drawn: readonly number[]): MonteCarloResult {
  const results = drawn.filter(Number.isFinite).sort((a, b) => a - b);
  const mean = results.reduce((sum, value) => sum + value, 0) / results.length;
  const variance = results.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (results.length - 1);
  const quantile = (share: number) =>
    results[Math.min(results.length - 1, Math.floor(share * results.length))] ?? Number.NaN;
  return { mean, sd: Math.sqrt(variance), interval95: [quantile(0.025), quantile(0.975)] };
}

function valuesOf<Name extends string>(sources: readonly UncertainSource<Name>[]): Record<Name, number> {
  return Object.fromEntries(sources.map(({ name, value }) => [name, value])) as Record<Name, number>;
}

/** Standard normal numbers by Box-Muller. */
function normalGenerator(seed: number): () => number {
  const next = uniform(seed);
  return () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}
