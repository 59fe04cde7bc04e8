/** Computed numbers as text: the one way in which hover, report, cards, bench view and comparison print them. */

import { isSilence } from '../estimates/level-in-place.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { joinUnit, onlyBoundedAbove, printNumber, printParts } from '../quantities/print.ts';
import { ENGLISH, type Language, type PlainText } from './languages/language.ts';
import { type NumberName, SILENT } from './numbers.ts';
import { reasonWords } from './reason-words.ts';

type Value = Pick<Estimate, 'value' | 'sd'>;
type Printed = Pick<NumberName, 'dimension' | 'decimals'>;

export interface NumberParts {
  /** `4.06 ± 0.03`, `−27 or lower`, `unknown`. */
  readonly number: string;
  readonly unit: string;
}

/** A number and its unit apart, for columns whose head holds the unit; in the usual unit of its size unless one is given. */
export function numberParts(value: Value, name: Printed, unit?: string, t = ENGLISH): NumberParts {
  if (isSilent(value, name)) return { number: t(SILENT), unit: '' };
  const bound = upperBound(value, name);
  if (bound !== undefined) return { number: t('{0} or lower', bound), unit: 'dB' };
  return partsOf(value, name, { unit, signed: name.dimension === 'level', t });
}

/** `4.06 ± 0.03 kΩ`, `−27 dB or lower`; `null`: there is none, and the name says how that is called. */
export function numberText(value: Value | null, name: Printed & Pick<NumberName, 'none'>, t = ENGLISH): string {
  if (value === null) return t(name.none ?? 'none');
  if (isSilent(value, name)) return t(SILENT);
  const bound = upperBound(value, name);
  return bound === undefined
    ? joined(numberParts(value, name, undefined, t), t)
    : t('{0} or lower', joinUnit(bound, 'dB'));
}

const isSilent = (value: Value, { dimension }: Printed): boolean => dimension === 'level' && isSilence(value);

/** A level as a bar shows it beside its words: the value, or its upper bound. */
export function shownLevel(value: Value): { readonly db: number; readonly orLower: boolean } {
  const bounded = onlyBoundedAbove(value);
  return { db: bounded ? Math.ceil(value.value + value.sd - 1e-9) : value.value, orLower: bounded };
}

/** One number less another, with its sign. */
export const differenceText = (value: Value, name: Printed, t = ENGLISH): string =>
  joined(differenceParts(value, name, undefined, t), t);

/** The same for a column whose head holds the unit; a difference that its own ± may hide is said to be one. */
export function differenceCell(value: Value, name: Printed, unit: string, t = ENGLISH): string {
  const { number } = differenceParts(value, name, unit, t);
  return isToldApart(value) ? number : `${number}, ${t(TOO_SMALL)}`;
}

export const TOO_SMALL: PlainText = 'too small to tell';

/** True where chance alone seldom gives as much: beyond two standard deviations (JCGM 100:2008, 6.2.2 and 6.3.3). */
export const isToldApart = ({ value, sd }: Value): boolean => Math.abs(value) > 2 * sd;

export const differenceParts = (value: Value, name: Printed, unit?: string, t = ENGLISH): NumberParts =>
  partsOf(value, name, { unit, signed: true, t });

/** What was measured is told from what is computed, in words: `2.526 ± 0.009 H, measured`. */
export const marked = (text: string, of: Pick<Estimate, 'basis'> | null | undefined, t = ENGLISH): string =>
  of?.basis === 'reading' ? t('{0}, measured', text) : text;

/** `computed: turns as counted; wire by its spool`. */
export const basisWords = ({ basis, restsOn }: Pick<Estimate, 'basis' | 'restsOn'>, t = ENGLISH): string =>
  restsOn.length === 0 ? t(basis) : `${t(basis)}: ${restsOn.map((each) => reasonWords(each, t)).join('; ')}`;

const joined = ({ number, unit }: NumberParts, t: Language): string =>
  number === t('unknown') ? number : joinUnit(number, unit);

/** Of a level that is only known to lie below something; rounded up, so that the sentence stays true. */
function upperBound(value: Value, { dimension }: Printed): string | undefined {
  const bound = value.value + value.sd;
  if (dimension !== 'level' || !Number.isFinite(bound) || !onlyBoundedAbove(value)) return undefined;
  return printNumber(Math.ceil(bound - 1e-9), 0);
}

function partsOf(
  { value, sd }: Value,
  { dimension, decimals }: Printed,
  { unit, signed, t }: { readonly unit: string | undefined; readonly signed: boolean; readonly t: Language },
): NumberParts {
  // A single coil against itself is 0 by definition, whatever its turns are known to.
  if (decimals === 0 && Math.abs(value) < SAME_LEVEL_DB) return { number: '0', unit: 'dB' };
  const parts = printParts({
    value,
    sd,
    dimension,
    style: t.numbers,
    ...(decimals === undefined ? {} : { decimals }),
    ...(unit === undefined ? {} : { unit }),
  });
  if (parts.value === 'unknown') return { number: t('unknown'), unit: parts.unit };
  const plus = signed && value > 0 && /[1-9]/.test(parts.value) ? '+' : '';
  const behind = parts.uncertainty === undefined ? '' : ` ± ${parts.uncertainty}`;
  return { number: `${plus}${parts.value}${behind}`, unit: parts.unit };
}

const SAME_LEVEL_DB = 0.05;
