/**
 * Codes for resistance and capacitance by IEC 60062 ("Marking codes for resistors and capacitors"; tables recalled, not copied):
 * the multiplier letter stands where the decimal point would, `4K7`, `R33`, `2n2`, and a tolerance letter may follow, `4K7J`.
 */
import { codeMultiplier } from './unit-table.ts';

export type CodedDimension = 'resistance' | 'capacitance';

/** A tolerance in percent of the value, or in farad for capacitors below 10 pF. */
export interface Tolerance {
  readonly letter: string;
  readonly minus: number;
  readonly plus: number;
  readonly in: 'percent' | 'farad';
}

export interface CodedValue {
  readonly dimension: CodedDimension;
  /** Ohm or farad. */
  readonly si: number;
  readonly tolerance?: Tolerance;
}

/** What is wrong with a code, and where in it. */
export interface CodeProblem {
  readonly problem: 'empty' | 'no-multiplier' | 'two-multipliers' | 'no-digits' | 'unexpected';
  readonly at: number;
}

/** Symmetrical tolerances, percent. */
const SYMMETRICAL: Readonly<Record<string, number>> = {
  E: 0.005,
  L: 0.01,
  P: 0.02,
  W: 0.05,
  B: 0.1,
  C: 0.25,
  D: 0.5,
  F: 1,
  G: 2,
  H: 3,
  J: 5,
  K: 10,
  M: 20,
  N: 30,
};

/** Asymmetrical tolerances of capacitors, percent below and above. */
const ASYMMETRICAL: Readonly<Record<string, readonly [number, number]>> = {
  Q: [10, 30],
  T: [10, 50],
  S: [20, 50],
  Z: [20, 80],
};

/** Tolerances of capacitors below 10 pF, in picofarad. */
const BELOW_TEN_PICOFARAD: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2 };

/** Reads a code such as `4K7`, `R33`, `100R`, `2n2`, `3p3C`. The tolerance letter is optional. */
export function parseCode(text: string, dimension: CodedDimension): CodedValue | CodeProblem {
  if (text === '') return { problem: 'empty', at: 0 };
  const parts = /^(\d*)(\D)?(\d*)(\D)?/u.exec(text);
  const [whole = '', before = '', letter = '', after = '', last = ''] = parts ?? [];
  if (letter === '') return { problem: 'no-multiplier', at: before.length };
  const factor = codeMultiplier(letter, dimension);
  if (factor === undefined) return { problem: 'no-multiplier', at: before.length };
  if (before === '' && after === '') return { problem: 'no-digits', at: 0 };
  if (whole.length < text.length) return { problem: 'unexpected', at: whole.length };
  const si = Number(`${before || '0'}.${after || '0'}`) * factor;
  if (last === '') return { dimension, si };
  const tolerance = toleranceOf(last, dimension, si);
  if (tolerance !== undefined) return { dimension, si, tolerance };
  const second = codeMultiplier(last, dimension) !== undefined;
  return { problem: second ? 'two-multipliers' : 'unexpected', at: before.length + letter.length + after.length };
}

/**
 * The tolerance that a letter stands for. Below 10 pF the letters B C D F G are picofarads, above that percents.
 */
export function toleranceOf(letter: string, dimension: CodedDimension, si: number): Tolerance | undefined {
  if (dimension === 'capacitance') {
    const picofarad = si < 10e-12 ? BELOW_TEN_PICOFARAD[letter] : undefined;
    if (picofarad !== undefined) return { letter, minus: picofarad * 1e-12, plus: picofarad * 1e-12, in: 'farad' };
    const pair = ASYMMETRICAL[letter];
    if (pair !== undefined) return { letter, minus: pair[0], plus: pair[1], in: 'percent' };
  }
  const percent = SYMMETRICAL[letter];
  return percent === undefined ? undefined : { letter, minus: percent, plus: percent, in: 'percent' };
}
