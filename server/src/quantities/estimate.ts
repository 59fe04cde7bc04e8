/**
 * A number with what is known about its error. Everything computed travels as an `Estimate`, so that errors with a common cause
 * (one spool, one meter) cancel or add as they do at the bench. Propagation is to first order, as in the Guide to the Expression
 * of Uncertainty in Measurement (JCGM 100:2008, 5.2): shared causes are carried by name instead of as a covariance matrix.
 */
export type Basis = 'stated' | 'reading' | 'computed' | 'assumed';

export interface Estimate {
  readonly value: number;
  /** One standard deviation, in the unit of `value`. */
  readonly sd: number;
  readonly basis: Basis;
  /** What the number rests on, in words a winder reads, each once. */
  readonly restsOn: readonly string[];
  /**
   * Signed share of each named cause: sensitivity × one standard deviation of the cause. What is left of `sd` beyond the root of
   * the sum of their squares is this number's own error, independent of every other.
   */
  readonly sources?: Readonly<Record<string, number>>;
}

/** An exact number, or one with an error of its own. `source` names the cause where other numbers share it. */
export function estimateOf(
  value: number,
  { sd = 0, basis, restsOn = [], source }: { sd?: number; basis: Basis; restsOn?: readonly string[]; source?: string },
): Estimate {
  return { value, sd, basis, restsOn, ...(source === undefined || sd === 0 ? {} : { sources: { [source]: sd } }) };
}

/** a + b + … */
export function sum(...terms: readonly Estimate[]): Estimate {
  return linear(
    terms,
    terms.map(() => 1),
  );
}

/** a − b; what both share cancels. */
export function difference(a: Estimate, b: Estimate): Estimate {
  return linear([a, b], [1, -1]);
}

/** factor × a. */
export function scale(a: Estimate, factor: number): Estimate {
  return linear([a], [factor]);
}

/** Σ weight · term. */
export function linear(terms: readonly Estimate[], weights: readonly number[]): Estimate {
  const value = terms.reduce((total, term, index) => total + term.value * (weights[index] ?? 0), 0);
  return propagated(value, terms, weights);
}

/** a × b. */
export function product(a: Estimate, b: Estimate): Estimate {
  return propagated(a.value * b.value, [a, b], [b.value, a.value]);
}

/** a / b; not finite where b is 0. */
export function ratio(a: Estimate, b: Estimate): Estimate {
  return propagated(a.value / b.value, [a, b], [1 / b.value, -a.value / b.value ** 2]);
}

/**
 * f(inputs), its sensitivities taken by central differences over a tenth of each input's standard deviation: wide enough for a
 * numerically integrated f, narrow enough to be a slope. Where f is not finite on one side, the other side serves; where on
 * neither, the error is unbounded.
 */
export function functionOf<const T extends readonly Estimate[]>(
  inputs: T,
  f: (values: { readonly [K in keyof T]: number }) => number,
): Estimate {
  const at = (values: readonly number[]) => f(values as { readonly [K in keyof T]: number });
  const values = inputs.map((input) => input.value);
  const value = at(values);
  const slopes = inputs.map((input, index) => (input.sd > 0 ? slopeAt(at, values, index, input.sd / 10, value) : 0));
  return propagated(value, inputs, slopes);
}

/** The part of the error that no named cause explains. */
export function ownDeviation({ sd, sources = {} }: Estimate): number {
  const named = sumOfSquares(Object.values(sources));
  const left = sd ** 2 - named;
  // A difference of nearly equal squares leaves rounding noise, not an error.
  return left > sd ** 2 * 1e-12 ? Math.sqrt(left) : 0;
}

/** Covariance of two estimates, by the causes that both name. */
export const covariance = (a: Estimate, b: Estimate): number =>
  a === b
    ? a.sd ** 2
    : Object.entries(a.sources ?? {}).reduce((sum, [name, share]) => sum + share * (b.sources?.[name] ?? 0), 0);

/** The same number, the error of its own named, so that what is made of it can share it. */
export function named(estimate: Estimate, cause: string): Estimate {
  const own = ownDeviation(estimate);
  return own === 0 ? estimate : { ...estimate, sources: { ...estimate.sources, [cause]: own } };
}

/** A copy that says what else the number rests on. */
export function restingOn(estimate: Estimate, ...reasons: readonly string[]): Estimate {
  return { ...estimate, restsOn: [...new Set([...estimate.restsOn, ...reasons])] };
}

function propagated(value: number, inputs: readonly Estimate[], slopes: readonly number[]): Estimate {
  // One estimate given twice is one error, not two independent ones.
  const slopeOf = new Map<Estimate, number>();
  inputs.forEach((input, index) => {
    slopeOf.set(input, (slopeOf.get(input) ?? 0) + (slopes[index] ?? 0));
  });
  const shares = new Map<string, number>();
  let ownVariance = 0;
  for (const [input, slope] of slopeOf) {
    if (slope === 0) continue;
    for (const [name, share] of Object.entries(input.sources ?? {})) {
      shares.set(name, (shares.get(name) ?? 0) + slope * share);
    }
    ownVariance += (slope * ownDeviation(input)) ** 2;
  }
  const sd = Math.sqrt(ownVariance + sumOfSquares([...shares.values()]));
  const restsOn = [...new Set(inputs.flatMap((input) => input.restsOn))];
  const left = [...shares].filter(([, share]) => share !== 0);
  if (left.length === 0) return { value, sd, basis: 'computed', restsOn };
  return { value, sd, basis: 'computed', restsOn, sources: Object.fromEntries(left) };
}

function slopeAt(
  f: (values: readonly number[]) => number,
  values: readonly number[],
  index: number,
  step: number,
  here: number,
): number {
  const at = (shift: number) => f(values.map((each, place) => (place === index ? each + shift : each)));
  const above = at(step);
  const below = at(-step);
  if (Number.isFinite(above) && Number.isFinite(below)) return (above - below) / (2 * step);
  if (Number.isFinite(above)) return (above - here) / step;
  if (Number.isFinite(below)) return (here - below) / step;
  return Number.POSITIVE_INFINITY;
}

function sumOfSquares(values: readonly number[]): number {
  return values.reduce((total, value) => total + value ** 2, 0);
}
