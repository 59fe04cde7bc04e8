/** Levels in whole decibels, as drawings and tables print them. */

import type { Estimate } from '../quantities/estimate.ts';
import { onlyBoundedAbove, printDb, printDbOrLower, printNumber } from '../quantities/print.ts';

/** A level below this is a null, not a number. */
export const HUM_FLOOR_DB = -40;

export interface LevelWords {
  /** `−18 ± 2`, `−27 or lower`, `0`. */
  readonly number: string;
  /** What a bar shows: the value, or its upper bound. */
  readonly shownDb: number;
  readonly orLower: boolean;
}

/** A level against the strongest coil; without its unit. */
export function levelWords({ value, sd }: Estimate): LevelWords {
  const bound = Math.ceil(value + sd - 1e-9);
  if (onlyBoundedAbove({ value, sd })) {
    return { number: withoutUnit(printDbOrLower(bound)), shownDb: bound, orLower: true };
  }
  // A single coil against itself is 0 by definition, whatever the turns are known to.
  if (Math.abs(value) < 0.05) return { number: '0', shownDb: 0, orLower: false };
  return {
    number: `${withoutUnit(printDb(value, { signed: true }))} ± ${wholeDb(sd)}`,
    shownDb: value,
    orLower: false,
  };
}

const wholeDb = (sd: number): string => printNumber(Math.max(1, Math.round(sd)), 0);

const withoutUnit = (text: string): string => text.replace('\u202FdB', '');
