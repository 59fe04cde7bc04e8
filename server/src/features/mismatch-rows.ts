/** What coils of unequal turn-area cost, in words: each number as built, as it would be with matched coils, and what lies between. */
import { MISMATCH_KEYS, type Mismatch, type MismatchKey } from '../estimates/mismatch.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { onlyBoundedAbove, printDbOrLower, printNumber, printQuantity } from '../quantities/print.ts';
import type { EstimateRow } from './estimate-rows.ts';

/** One number in three printed states. */
export interface MismatchWords {
  readonly name: string;
  readonly built: string;
  readonly matched: string;
  /** As built less matched; empty where one of the two is only known to lie below a bound. */
  readonly difference: string;
}

const NAMES: Readonly<Record<MismatchKey, { readonly what: string; readonly dimension: 'frequency' | 'level' }>> = {
  humDb: { what: 'hum against one coil in place', dimension: 'level' },
  humOnItsOwnDb: { what: 'hum against one coil on its own', dimension: 'level' },
  resonanceHz: { what: 'resonance', dimension: 'frequency' },
  peakDb: { what: 'peak', dimension: 'level' },
  levelDb: { what: 'level at 100 Hz', dimension: 'level' },
};

/** `Matched beside it: slug with 5 081 turns instead of 8 200` */
export function mismatchHeading({ coil, turns, matchedTurns, fits }: Mismatch): string {
  const full = fits ? '' : ', more than its window holds';
  return `Matched beside it: ${coil.name} with ${printNumber(matchedTurns, 0)} turns instead of ${printNumber(turns, 0)}${full}`;
}

export function mismatchWords({ figures }: Pick<Mismatch, 'figures'>): readonly MismatchWords[] {
  return MISMATCH_KEYS.flatMap((key) => {
    const figure = figures[key];
    if (!figure) return [];
    const { what, dimension } = NAMES[key];
    const printed = (estimate: Estimate) =>
      dimension === 'level' && onlyBoundedAbove(estimate)
        ? printDbOrLower(estimate.value + estimate.sd)
        : printQuantity({ value: estimate.value, sd: estimate.sd, dimension });
    const { built, matched, difference } = figure;
    return [
      {
        name: what,
        built: printed(built),
        matched: printed(matched),
        difference: difference
          ? `${difference.value > 0 ? '+' : ''}${printQuantity({ value: difference.value, sd: difference.sd, dimension })}`
          : '',
      },
    ];
  });
}

/** The matched number in front, since the rows above hold the one as built; what the mismatch makes of it behind. */
export const mismatchRows = (unequal: Mismatch): readonly EstimateRow[] =>
  mismatchWords(unequal).map(({ name, built, matched, difference }) => ({
    name,
    value: matched,
    restsOn: `as built ${built}${difference === '' ? '' : `, a difference of ${difference}`}`,
  }));
