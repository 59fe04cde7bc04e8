/**
 * What a string or a field hears of several coils together, and whether they then add or cancel: one rule for a pickup, a selector
 * position and a plan of repairs.
 */
import { type Coil, type Sign, servesDifferentStrings } from '../model/coil.ts';
import type { Slot } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import { cancelledDb } from '../physics/circuit/silence.ts';
import {
  ALIKE_RELATIVE,
  HARDLY_LESS_DB,
  HUMS_ABOVE_DB,
  LOWER_COIL_STRING_SHARE,
  STEEL_RESIDUE_DB,
  WORTH_CHANGING_DB,
} from './common-practice.ts';
import type { PhaseVerdict } from './estimates.ts';
import type { StringRange } from './level-in-place.ts';

/** A coil that drives an output, and the signs of what it gives there. */
export interface Heard {
  readonly coil: Coil;
  /** Where it is fitted; none where a pickup is looked at by itself. */
  readonly slot?: Slot;
  readonly string: Sign | undefined;
  readonly hum: Sign | undefined;
}

/** The same with how much it gives. */
export interface Sounding extends Heard {
  /** Real part of the share of its e.m.f. that reaches the output: of a string's, and of hum's. */
  readonly transfer: number;
  readonly humTransfer: number;
  /** Of the whole coil: turns as a string excites them, see `stringShare`, and the area of all turns. */
  readonly stringTurns: number | undefined;
  readonly turnAreaM2: number | undefined;
}

export type Pair<T> = readonly [T, T];

/** A string excites it: no dummy, and not the lower coil of a stack, which is there for its hum and hears little of the string. */
export const hearsStrings = (coil: Coil): boolean => coil.serves?.value !== 'none' && coil.below === undefined;

/** How strongly a string excites a coil, against one right under it: nothing for a dummy, little for the lower coil of a stack. */
export const stringShare = ({ serves, below }: Coil): number =>
  serves?.value === 'none' ? 0 : below ? LOWER_COIL_STRING_SHARE : 1;

/** The strings that a coil serves, of how many its pickup has; `undefined`: all. */
export function stringsUnder({ serves }: Coil, { coils, strings }: Pickup): StringRange | undefined {
  if (serves === undefined || serves.value === 'none') return undefined;
  const last = coils.flatMap((coil) => (coil.serves && coil.serves.value !== 'none' ? [coil.serves.value.to] : []));
  return { ...serves.value, of: Math.max(strings?.value ?? 0, ...last) };
}

/** True where the coil lies under that string; none named: where it lies under any. */
export function hearsString({ serves }: Coil, string: number | undefined): boolean {
  if (serves === undefined || string === undefined) return true;
  return serves.value !== 'none' && serves.value.from <= string && string <= serves.value.to;
}

/** Different coils that one string runs over. Two slots may hold pickups of one spec: their coils are two. */
export const heardTogether = (a: Heard, b: Heard): boolean =>
  !(a.coil === b.coil && a.slot === b.slot) &&
  hearsStrings(a.coil) &&
  hearsStrings(b.coil) &&
  !servesDifferentStrings(a.coil, b.coil);

/** Every pair of coils that a string hears together. */
export const pairsHeard = <T extends Heard>(coils: readonly T[]): readonly Pair<T>[] =>
  coils.flatMap((a, index) => coils.slice(index + 1).flatMap((b) => (heardTogether(a, b) ? [[a, b] as const] : [])));

/** Known to be against each other. */
export const clashes = ([a, b]: Pair<Pick<Heard, 'string'>>): boolean =>
  a.string !== undefined && b.string !== undefined && a.string !== b.string;

/** Of the coils that drive an output; `unproven` too where none does. */
export function phaseOf(coils: readonly Heard[]): PhaseVerdict {
  const [first] = coils;
  if (first === undefined) return 'unproven';
  const pairs = pairsHeard(coils);
  if (pairs.some(clashes)) return 'out';
  if (pairs.some(([a, b]) => a.string === undefined || b.string === undefined)) return 'unproven';
  return coils.some(({ coil, slot }) => coil !== first.coil || slot !== first.slot) ? 'in' : 'single';
}

/** Coils whose missing sign leaves phase open, or hum. */
export const openSigns = <T extends Heard>(
  coils: readonly T[],
): { readonly phase: readonly T[]; readonly hum: readonly T[] } => ({
  phase: coils.filter((a) => a.string === undefined && coils.some((b) => heardTogether(a, b))),
  hum: coils.length > 1 ? coils.filter(({ hum }) => hum === undefined) : [],
});

/**
 * The coils that stand against the larger part of what they are heard with, and those that they stand against; empty where none
 * does. Nothing in the circuit says which of two sides alike is wrong: `ofAlike` says whose coil is named then.
 */
export function opposed<T extends Sounding>(
  coils: readonly T[],
  pairs: readonly Pair<T>[],
  ofAlike: 'first' | 'last',
): { readonly against: readonly T[]; readonly others: readonly T[] } {
  const clashing = pairs.filter(clashes);
  const inClash = coils.filter((coil) => clashing.some((pair) => pair.includes(coil)));
  const known = coils.filter(({ string }) => string !== undefined);
  const weights = weighed(known, ({ transfer, stringTurns }) => [transfer, stringTurns]);
  const weight = (sign: Sign) => sum(weights.filter((_, index) => known[index]?.string === sign));
  const [plus, minus] = [weight(1), weight(-1)];
  const alike = Math.abs(plus - minus) < ALIKE_RELATIVE * Math.max(plus, minus);
  const lesser = alike ? inClash.at(ofAlike === 'first' ? 0 : -1)?.string : plus < minus ? 1 : -1;
  return {
    against: inClash.filter(({ string }) => string === lesser),
    others: inClash.filter(({ string }) => string !== lesser),
  };
}

/** What each coil gives to the output's hum in a uniform field, without its sign. */
export const humWeights = (coils: readonly Sounding[]): readonly number[] =>
  weighed(coils, ({ humTransfer, turnAreaM2 }) => [humTransfer, turnAreaM2]);

/** |transfer| · size; the sizes alike where not all are known. */
function weighed(
  coils: readonly Sounding[],
  of: (coil: Sounding) => readonly [transfer: number, size: number | undefined],
): readonly number[] {
  const sizes = knownOrAlike(
    coils.map((coil) => of(coil)[1]),
    1,
  );
  return coils.map((coil, index) => Math.abs(of(coil)[0]) * (sizes[index] ?? 1));
}

/** Sizes where all are known, else one for all: a guess at one coil must not be weighed against what is known of another. */
export const knownOrAlike = (sizes: readonly (number | undefined)[], alike: number): readonly number[] =>
  sizes.every((size) => size !== undefined) ? sizes : sizes.map(() => alike);

/** Else the coils count alike, which tells whether their hum cancels, and not how many dB are left. */
export const isHumMeasurable = (coils: readonly Sounding[]): boolean =>
  coils.every(({ turnAreaM2 }) => turnAreaM2 !== undefined);

/** Hum of several coils against the strongest of them, in dB; `undefined` where a sign is open or there is one coil only. */
export function humDb(coils: readonly Sounding[]): number | undefined {
  const signs = coils.flatMap(({ hum }) => hum ?? []);
  if (coils.length < 2 || signs.length < coils.length) return undefined;
  return combinedDb(humWeights(coils).map((weight, index) => weight * (signs[index] ?? 1)));
}

/** The way that the larger part of the hum goes. */
export function strongestHum(coils: readonly Sounding[]): 1 | -1 {
  const weights = humWeights(coils);
  return coils.reduce((total, { hum = 1 }, index) => total + hum * (weights[index] ?? 0), 0) >= 0 ? 1 : -1;
}

/** A position that hums, where another choice of the same parts hums less by what is worth the change. */
export const humsNeedlessly = (db: number, left: number): boolean =>
  db >= HUMS_ABOVE_DB && left <= db - WORTH_CHANGING_DB;

export type HumVerdict = 'adds' | 'hums' | 'in part' | 'gone';

/** What is told of a level of hum, everywhere: by its best estimate, beside which its ± stands. */
export function humVerdict(db: number): HumVerdict {
  if (db > HARDLY_LESS_DB) return 'adds';
  if (db >= -HARDLY_LESS_DB) return 'hums';
  return db > STEEL_RESIDUE_DB ? 'in part' : 'gone';
}

/** dB of |Σ weights| against the strongest, never below −120; no number where all are 0. */
export function combinedDb(weights: readonly number[]): number {
  const strongest = Math.max(...weights.map(Math.abs));
  return Math.max(cancelledDb, 20 * Math.log10(Math.abs(sum(weights)) / strongest));
}

const sum = (numbers: readonly number[]): number => numbers.reduce((total, each) => total + each, 0);
