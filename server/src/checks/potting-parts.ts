import type { Some } from '../../../grammar/values/present.ts';
import { sharesTogether } from '../estimates/potting.ts';
import type { WaxPart } from '../model/potting.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { listIn } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

export const pottingParts = definePickupCheck({
  code: 'potting/parts',
  severity: 'error',
  yieldsTo: [],
  run: ({ pickup }) => {
    const { potting } = pickup;
    const wax = potting?.wax;
    if (!potting || !wax || wax.value.length === 0) return undefined;
    const percent = 100 * sharesTogether(potting);
    if (Math.abs(percent - 100) <= ROUNDING_PERCENT) return undefined;
    return {
      what: (t) =>
        t(
          'The parts of the mix sum to {0}, not 100 %: {1}; what to weigh out stays open.',
          `${number(percent, t)}\u202F%`,
          listIn(
            t,
            wax.value.map(({ ingredient, share }) => `${t.word(ingredient)} ${number(100 * share, t)}\u202F%`),
          ),
        ),
      action: (t) => t('Correct the part that is wrong.'),
      place: wax.place,
      remedies: () => remedies(wax.value, percent),
    };
  },
});

/** Parts written with one decimal each, three of them. */
const ROUNDING_PERCENT = 0.2;

const number = (value: number, { numbers }: Language = ENGLISH): string => {
  const text = String(Math.round(value * 100) / 100);
  return typeof numbers === 'object' ? text.replace('.', numbers.decimalSign) : text;
};

/** Each part by itself can make up the sum; the smallest one is changed first. */
function remedies(parts: readonly WaxPart[], percent: number): Some<Remedy> {
  const smallestFirst = [...parts].sort((a, b) => a.share - b.share);
  return smallestFirst.map((part, index) => {
    const filled = 100 * part.share + 100 - percent;
    if (!(filled > 0 && filled <= 100)) return undefined;
    const written = `${part.ingredient} ${number(filled)} %`;
    return remedy(() => `\`${written}\``, replaceAt(part.place, written), index === 0);
  });
}
