/** What several sources give together against the strongest of them alone, the circuit unchanged. */
import { cancelledDb } from '../physics/circuit/combined-level.ts';
import type { Complex } from '../physics/complex.ts';
import { add, magnitude, scale as scaled, zero } from '../physics/complex.ts';
import { type Estimate, linear } from '../quantities/estimate.ts';

/** A coil's turns or turn-area, and what one unit of it gives to the output, its sign included. */
export interface Contribution {
  readonly term: Estimate;
  readonly weight: Complex;
}

/**
 * 20 log |Σ weight·term| / max |weight·term| in dB, not below −120. Near a null the level is no smooth function of its inputs: the
 * deviation says up to which level one standard deviation more of the sum would bring it. What all terms share (one spool, one
 * meter) drops out of the ratio; weights are taken as exact.
 */
export function levelInPlace(contributions: readonly Contribution[]): Estimate {
  const parts = contributions.map(({ term, weight }) => scaled(weight, term.value));
  const sizes = parts.map(magnitude);
  const strongest = Math.max(0, ...sizes);
  const total = magnitude(parts.reduce(add, zero));
  const db = (size: number) =>
    strongest > 0 && size > 0 ? Math.max(cancelledDb, 20 * Math.log10(size / strongest)) : cancelledDb;
  const value = db(total);
  const spread = spreadOf(contributions, parts, sizes.indexOf(strongest));
  const restsOn = [...new Set(contributions.flatMap(({ term }) => term.restsOn))];
  return { value, sd: db(total + spread.sd) - value, basis: 'computed', restsOn };
}

/** Error of the sum, less what a change of the strongest term alone does to the reference. */
function spreadOf(contributions: readonly Contribution[], parts: readonly Complex[], strongest: number): Estimate {
  const sum = parts.reduce(add, zero);
  const terms = contributions.map(({ term }) => term);
  const slopes = contributions.map(({ weight, term }, index) =>
    index === strongest && term.value !== 0 ? add(weight, scaled(sum, -1 / term.value)) : weight,
  );
  const re = linear(
    terms,
    slopes.map((slope) => slope.re),
  );
  const im = linear(
    terms,
    slopes.map((slope) => slope.im),
  );
  return { ...re, sd: Math.hypot(re.sd, im.sd) };
}

/** One standard deviation of the level of the sum itself, in dB. */
export function levelSdDb(contributions: readonly Contribution[]): number {
  const total = magnitude(contributions.map(({ term, weight }) => scaled(weight, term.value)).reduce(add, zero));
  const terms = contributions.map(({ term }) => term);
  const re = linear(
    terms,
    contributions.map(({ weight }) => weight.re),
  );
  const im = linear(
    terms,
    contributions.map(({ weight }) => weight.im),
  );
  return total > 0 ? 20 * Math.log10(1 + Math.hypot(re.sd, im.sd) / total) : 0;
}
