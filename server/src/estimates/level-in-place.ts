/** What several sources give together against the strongest of them alone, the circuit unchanged. */
import { cancelledDb } from '../physics/circuit/combined-level.ts';
import type { Complex } from '../physics/complex.ts';
import { add, magnitude, scale as scaled, zero } from '../physics/complex.ts';
import { type Estimate, functionOf, linear } from '../quantities/estimate.ts';

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
export const levelInPlace = (contributions: readonly Contribution[]): Estimate =>
  levelAgainst(contributions, strongestInPlace(contributions));

/** The same against the largest coil by itself, taken out and nothing connected to it: its whole term. */
export const levelOnItsOwn = (contributions: readonly Contribution[]): Estimate =>
  levelAgainst(contributions, largestOnItsOwn(contributions));

/** What a level is told against: the level of one term, in place or on its own; nothing, which is a level of 1. */
export type LevelReference = 'in place' | 'on its own' | 'absolute';

/** 20 log |Σ weight·term| less `zeroDb`, in dB. */
export const levelOfSum = (contributions: readonly Contribution[], zeroDb: number): Estimate =>
  functionOf(
    contributions.map(({ term }) => term),
    (values) => smoothLevelDb(contributions, values, undefined) - zeroDb,
  );

/** Level of one state less that of another in dB; causes of error that both share count with what they change of the difference. */
export function levelDifference(
  one: readonly Contribution[],
  other: readonly Contribution[],
  against: LevelReference,
): Estimate {
  const terms = [...one, ...other].map(({ term }) => term);
  const [first, second] = [referenceOf(one, against), referenceOf(other, against)];
  return functionOf(
    terms,
    (values) =>
      smoothLevelDb(one, values.slice(0, one.length), first) - smoothLevelDb(other, values.slice(one.length), second),
  );
}

/** One term: what a unit of it gives alone, and which it is. */
interface Reference {
  readonly index: number;
  readonly weight: Complex;
}

function strongestInPlace(contributions: readonly Contribution[]): Reference {
  const sizes = contributions.map(({ term, weight }) => magnitude(scaled(weight, term.value)));
  const index = sizes.indexOf(Math.max(0, ...sizes));
  return { index, weight: contributions[index]?.weight ?? zero };
}

function largestOnItsOwn(contributions: readonly Contribution[]): Reference {
  const terms = contributions.map(({ term }) => Math.abs(term.value));
  return { index: terms.indexOf(Math.max(0, ...terms)), weight: { re: 1, im: 0 } };
}

function referenceOf(contributions: readonly Contribution[], against: LevelReference): Reference | undefined {
  if (against === 'absolute') return undefined;
  return against === 'in place' ? strongestInPlace(contributions) : largestOnItsOwn(contributions);
}

function smoothLevelDb(
  contributions: readonly Contribution[],
  terms: readonly number[],
  reference: Reference | undefined,
): number {
  const total = contributions.map(({ weight }, index) => scaled(weight, terms[index] ?? 0)).reduce(add, zero);
  const size = reference === undefined ? 1 : magnitude(scaled(reference.weight, terms[reference.index] ?? 0));
  return 20 * Math.log10(magnitude(total) / size);
}

function levelAgainst(contributions: readonly Contribution[], { index, weight }: Reference): Estimate {
  const reference = magnitude(scaled(weight, contributions[index]?.term.value ?? 0));
  const total = magnitude(contributions.map((each) => scaled(each.weight, each.term.value)).reduce(add, zero));
  const db = (size: number) =>
    reference > 0 && size > 0 ? Math.max(cancelledDb, 20 * Math.log10(size / reference)) : cancelledDb;
  const value = db(total);
  const spread = spreadOf(contributions, index);
  const restsOn = [...new Set(contributions.flatMap(({ term }) => term.restsOn))];
  return { value, sd: db(total + spread.sd) - value, basis: 'computed', restsOn };
}

/** Error of the sum, less what a change of the reference's term alone does to the reference. */
function spreadOf(contributions: readonly Contribution[], reference: number): Estimate {
  const sum = contributions.map(({ term, weight }) => scaled(weight, term.value)).reduce(add, zero);
  const terms = contributions.map(({ term }) => term);
  const slopes = contributions.map(({ weight, term }, index) =>
    index === reference && term.value !== 0 ? add(weight, scaled(sum, -1 / term.value)) : weight,
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
