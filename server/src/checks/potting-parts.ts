import type { Some } from '../../../grammar/values/present.ts';
import { sharesTogether } from '../estimates/potting.ts';
import type { WaxPart } from '../model/potting.ts';
import { list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

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
      what: say`The parts of the mix sum to ${number(percent)} %, not 100 %: ${list(wax.value.map(({ ingredient, share }) => say`${ingredient} ${number(100 * share)} %`))}; what to weigh out stays open.`,
      action: say`Correct the part that is wrong.`,
      place: wax.place,
      remedies: () => remedies(wax.value, percent),
    };
  },
});

/** Parts written with one decimal each, three of them. */
const ROUNDING_PERCENT = 0.2;

const number = (value: number): string => String(Math.round(value * 100) / 100);

/** Each part by itself can make up the sum; the smallest one is changed first. */
function remedies(parts: readonly WaxPart[], percent: number): Some<Remedy> {
  const smallestFirst = [...parts].sort((a, b) => a.share - b.share);
  return smallestFirst.map((part, index) => {
    const filled = 100 * part.share + 100 - percent;
    if (!(filled > 0 && filled <= 100)) return undefined;
    const written = say`${part.ingredient} ${number(filled)} %`;
    return remedy(say`\`${written}\``, replaceAt(part.place, written), index === 0);
  });
}
