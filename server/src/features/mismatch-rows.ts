/** What coils of unequal turn-area cost, in words: each number as built, as it would be with matched coils, and what lies between. */
import type { Mismatch } from '../estimates/mismatch.ts';
import { printCount } from '../quantities/print.ts';
import { differenceText, numberText } from '../words/number-text.ts';
import { keysOf, MISMATCH_NUMBERS } from '../words/numbers.ts';
import type { EstimateRow } from './estimate-rows.ts';

/** One number in three printed states. */
export interface MismatchWords {
  readonly name: string;
  readonly built: string;
  readonly matched: string;
  /** As built less matched; empty where one of the two is only known to lie below a bound. */
  readonly difference: string;
}

/** `Matched beside it: slug with 5 081 turns instead of 8 200` */
export function mismatchHeading({ coil, turns, matchedTurns, fits }: Mismatch): string {
  const full = fits ? '' : ', more than its window holds';
  return `Matched beside it: ${coil.name} with ${printCount(matchedTurns)} turns instead of ${printCount(turns)}${full}`;
}

export function mismatchWords({ figures }: Pick<Mismatch, 'figures'>): readonly MismatchWords[] {
  return keysOf(MISMATCH_NUMBERS).flatMap((key) => {
    const figure = figures[key];
    if (!figure) return [];
    const name = MISMATCH_NUMBERS[key];
    const { built, matched, difference } = figure;
    return [
      {
        name: name.what,
        built: numberText(built, name),
        matched: numberText(matched, name),
        difference: difference ? differenceText(difference, name) : '',
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
