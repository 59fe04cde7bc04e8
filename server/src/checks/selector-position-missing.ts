import { list } from '../words/text.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';

export const selectorPositionMissing = defineInstrumentCheck({
  code: 'selector/position-missing',
  severity: 'warning',
  yieldsTo: [],
  run: ({ instrument: { positions, positionsUnread, selectorPlace, place } }) => {
    const numbers = [...new Set(positions.map(({ key }) => Number(key.value)))].sort((a, b) => a - b);
    // A number given twice where another is left out is one slip, and it is told at the doubled one.
    if (numbers.length < positions.length || positionsUnread) return undefined;
    const missing = gaps(numbers);
    const last = numbers.at(-1);
    if (missing.length === 0 || last === undefined) return undefined;
    const several = missing.length > 1 || missing.some((words) => words.includes(' '));
    return {
      what: say`${several ? 'Positions' : 'Position'} ${list(missing)} ${several ? 'are' : 'is'} missing: positions are numbered from 1 without a gap, and the last one is ${last}.`,
      action: say`Add what is missing, or number the others anew.`,
      place: selectorPlace ?? place,
      related: positions
        .filter(({ key }) => missing.length > 0 && !numbers.includes(Number(key.value) - 1) && key.value !== '1')
        .map((position) => ({ message: say`the numbers go on here`, place: position.place })),
    };
  },
});

/** What lies between 1 and the last number: `3`, `5 to 9`. */
function gaps(numbers: readonly number[]): readonly string[] {
  return numbers.flatMap((number, index): readonly string[] => {
    const before = numbers[index - 1] ?? 0;
    const [from, to] = [before + 1, number - 1];
    if (from > to) return [];
    return [from === to ? say`${from}` : say`${from} to ${to}`];
  });
}
