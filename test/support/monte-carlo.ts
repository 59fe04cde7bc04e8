import type { UncertainSource } from '../../server/src/physics/uncertainty.ts';

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
export function monteCarlo<Name extends string>(
  f: (values: Record<Name, number>) => number,
  sources: readonly UncertainSource<Name>[],
  { samples, seed }: { samples: number; seed: number },
): MonteCarloResult {
  const normal = normalGenerator(seed);
  const results: number[] = [];
  for (let sample = 0; sample < samples; sample++) {
    const result = f(valuesOf(sources.map((source) => ({ ...source, value: source.value + source.sd * normal() }))));
    if (Number.isFinite(result)) results.push(result);
  }
  results.sort((a, b) => a - b);
  const mean = results.reduce((sum, value) => sum + value, 0) / results.length;
  const variance = results.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (results.length - 1);
  const quantile = (share: number) =>
    results[Math.min(results.length - 1, Math.floor(share * results.length))] ?? Number.NaN;
  return { mean, sd: Math.sqrt(variance), interval95: [quantile(0.025), quantile(0.975)] };
}

function valuesOf<Name extends string>(sources: readonly UncertainSource<Name>[]): Record<Name, number> {
  return Object.fromEntries(sources.map(({ name, value }) => [name, value])) as Record<Name, number>;
}

/** Standard normal numbers by Box-Muller from a 32-bit Weyl sequence hashed by multiplication and shifts (the splitmix construction). */
function normalGenerator(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = () => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return (((z ^ (z >>> 16)) >>> 0) + 0.5) / 2 ** 32;
  };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}
