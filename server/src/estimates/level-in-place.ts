/** What several sources give together against the strongest of them alone, the circuit unchanged. */
import { cancelledDb, isSilentDb } from '../physics/circuit/silence.ts';
import type { Complex } from '../physics/complex.ts';
import { add, magnitude, scale as scaled, zero } from '../physics/complex.ts';
import { alikeAt } from '../physics/string-places.ts';
import { type Estimate, functionOf, linear } from '../quantities/estimate.ts';

/** A coil's turns or turn-area, and what one unit of it gives to the output, its sign included. */
export interface Contribution {
  readonly term: Estimate;
  readonly weight: Complex;
  /** The strings that excite it, of how many; a field excites all alike. */
  readonly strings?: StringRange;
  /** Where the string runs over it, as an angle (see physics/string-places.ts); a field is alike everywhere. */
  readonly place?: number;
}

export interface StringRange {
  readonly from: number;
  readonly to: number;
  readonly of: number;
}

/**
 * 20 log |Σ weight·term| / max |weight·term| in dB, not below −120; where strings hear different coils, the root of the mean square of
 * the sums over the strings that hear any. Near a null the level is no smooth function of its inputs: the
 * deviation says up to which level one standard deviation more of the sum would bring it, and what the string sounds unlike at the
 * places of two pickups, which cannot cancel. What all terms share (one spool, one
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

/** What one string hears, or several alike. */
interface HeardSum {
  readonly indices: readonly number[];
  readonly strings: number;
}

function sumsOf(contributions: readonly Contribution[]): readonly HeardSum[] {
  const live = [...contributions.keys()];
  const count = Math.max(0, ...contributions.map(({ strings }) => strings?.of ?? 0));
  if (count === 0) return [{ indices: live, strings: 1 }];
  const sums = new Map<string, HeardSum>();
  for (let string = 1; string <= count; string++) {
    const indices = live.filter((index) => {
      const own = contributions[index]?.strings;
      return own === undefined || (own.from <= string && string <= own.to);
    });
    if (indices.length > 0) {
      const key = indices.join();
      sums.set(key, { indices, strings: (sums.get(key)?.strings ?? 0) + 1 });
    }
  }
  return [...sums.values()];
}

/** Root of the mean square over the strings. */
function overStrings(sums: readonly HeardSum[], sizeOf: (sum: HeardSum) => number): number {
  const all = sums.reduce((total, { strings }) => total + strings, 0);
  if (all === 0) return 0;
  return Math.sqrt(sums.reduce((total, each) => total + each.strings * sizeOf(each) ** 2, 0) / all);
}

const sumAt = (contributions: readonly Contribution[], terms: readonly number[], { indices }: HeardSum): Complex =>
  indices.map((index) => scaled(contributions[index]?.weight ?? zero, terms[index] ?? 0)).reduce(add, zero);

function smoothLevelDb(
  contributions: readonly Contribution[],
  terms: readonly number[],
  reference: Reference | undefined,
): number {
  const total = overStrings(sumsOf(contributions), (sum) => magnitude(sumAt(contributions, terms, sum)));
  const size = reference === undefined ? 1 : magnitude(scaled(reference.weight, terms[reference.index] ?? 0));
  return 20 * Math.log10(total / size);
}

function levelAgainst(contributions: readonly Contribution[], { index, weight }: Reference): Estimate {
  const terms = contributions.map(({ term }) => term.value);
  const reference = magnitude(scaled(weight, terms[index] ?? 0));
  const sums = sumsOf(contributions);
  const total = overStrings(sums, (sum) => magnitude(sumAt(contributions, terms, sum)));
  const sd = overStrings(sums, (sum) => spreadOf(contributions, sum, index));
  const left = overStrings(sums, (sum) => leftByPlaces(contributions, terms, sum));
  const db = (size: number) =>
    reference > 0 && size > 0 ? Math.max(cancelledDb, 20 * Math.log10(size / reference)) : cancelledDb;
  const value = db(total);
  const restsOn = [...new Set(contributions.flatMap(({ term }) => term.restsOn))];
  return { value, sd: db(Math.hypot(total + sd, left)) - value, basis: 'computed', restsOn };
}

/** Error of a sum, less what a change of the reference's term alone does to the reference. */
function spreadOf(contributions: readonly Contribution[], sum: HeardSum, reference: number | undefined): number {
  const terms = contributions.map(({ term }) => term);
  const total = sumAt(
    contributions,
    terms.map(({ value }) => value),
    sum,
  );
  const slopes = contributions.map(({ weight, term }, index) => {
    const own = sum.indices.includes(index) ? weight : zero;
    return index === reference && term.value !== 0 ? add(own, scaled(total, -1 / term.value)) : own;
  });
  const part = (of: (slope: Complex) => number) => linear(terms, slopes.map(of)).sd;
  return Math.hypot(
    part(({ re }) => re),
    part(({ im }) => im),
  );
}

/** Level of the sum itself, in dB, and up to where it may lie: one standard deviation more, and what two places of a string leave. */
export function levelWithBound(contributions: readonly Contribution[]): {
  readonly db: number;
  readonly boundDb: number;
} {
  const terms = contributions.map(({ term }) => term.value);
  const sums = sumsOf(contributions);
  const total = overStrings(sums, (sum) => magnitude(sumAt(contributions, terms, sum)));
  const sd = overStrings(sums, (sum) => spreadOf(contributions, sum, undefined));
  const left = overStrings(sums, (sum) => leftByPlaces(contributions, terms, sum));
  return { db: 20 * Math.log10(total), boundDb: 20 * Math.log10(Math.hypot(total + sd, left)) };
}

/** True where two places of a string leave something of what would cancel at one. */
export const leavesByPlaces = (contributions: readonly Contribution[]): boolean => {
  const terms = contributions.map(({ term }) => term.value);
  return sumsOf(contributions).some((sum) => leftByPlaces(contributions, terms, sum) > 0);
};

/** Of terms that take from each other at different places: only what the string has in common there is taken. */
function leftByPlaces(contributions: readonly Contribution[], terms: readonly number[], { indices }: HeardSum): number {
  const heard = indices.flatMap((index) => {
    const { weight = zero, place } = contributions[index] ?? {};
    return place === undefined ? [] : [{ given: scaled(weight, terms[index] ?? 0), place }];
  });
  const square = heard.reduce(
    (sum, one, index) =>
      heard
        .slice(index + 1)
        .reduce(
          (all, other) =>
            all -
            2 * (1 - alikeAt(one.place, other.place)) * (one.given.re * other.given.re + one.given.im * other.given.im),
          sum,
        ),
    0,
  );
  return Math.sqrt(Math.max(0, square));
}

/** With its ±: coils that would cancel wholly, if nobody erred, are not known to be silent. */
export const isSilence = ({ value, sd }: Pick<Estimate, 'value' | 'sd'>): boolean => isSilentDb(value + sd);
