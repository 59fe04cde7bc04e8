/** One independent cause of uncertainty: a quantity with its best value and standard deviation. */
export interface UncertainSource<Name extends string = string> {
  name: Name;
  value: number;
  sd: number;
}

/** A computed value with what its uncertainty is made of. */
export interface UncertainValue {
  value: number;
  sd: number;
  /** By cause, signed: how far one standard deviation of the cause moves the value. Values that share a cause are correlated. */
  contributions: Readonly<Record<string, number>>;
  /** Share of each cause in the variance, largest first; they sum to 1. */
  shares: readonly { name: string; share: number }[];
}

/**
 * Law of propagation of uncertainty (JCGM 100:2008, 5.1.2), sensitivities from central differences over ± half a standard
 * deviation (Kragten's way). Sources are independent; what two quantities owe to one cause (one spool, one meter) must be one source.
 * Exact for a function linear in its sources, and good to a few per cent of the sd where the function bends little over ± 1 sd;
 * otherwise use {@link monteCarlo}. Sources with sd 0 are constants.
 */
export function propagate<Name extends string>(
  f: (values: Record<Name, number>) => number,
  sources: readonly UncertainSource<Name>[],
): UncertainValue {
  const centre = valuesOf(sources);
  const contributions: Record<string, number> = {};
  for (const { name, value, sd } of sources) {
    if (!(sd > 0)) continue;
    contributions[name] = f({ ...centre, [name]: value + sd / 2 }) - f({ ...centre, [name]: value - sd / 2 });
  }
  return withContributions(f(centre), contributions);
}

/** Covariance of two values through the causes they share. */
export function covariance(a: UncertainValue, b: UncertainValue): number {
  return Object.entries(a.contributions).reduce((sum, [name, moves]) => sum + moves * (b.contributions[name] ?? 0), 0);
}

/** The difference a − b with its own uncertainty: common causes cancel as far as they move both alike. */
export function difference(a: UncertainValue, b: UncertainValue): UncertainValue {
  const names = new Set([...Object.keys(a.contributions), ...Object.keys(b.contributions)]);
  const contributions = Object.fromEntries(
    [...names].map((name) => [name, (a.contributions[name] ?? 0) - (b.contributions[name] ?? 0)]),
  );
  return withContributions(a.value - b.value, contributions);
}

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

function withContributions(value: number, contributions: Record<string, number>): UncertainValue {
  const variance = Object.values(contributions).reduce((sum, moves) => sum + moves * moves, 0);
  const shares = Object.entries(contributions)
    .map(([name, moves]) => ({ name, share: variance > 0 ? (moves * moves) / variance : 0 }))
    .sort((a, b) => b.share - a.share);
  return { value, sd: Math.sqrt(variance), contributions, shares };
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
