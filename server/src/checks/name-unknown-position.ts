import { nearest } from '../../../grammar/src/nearest.ts';
import { replaceAt } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

/** A reading of a position that the selector does not have, or a control that is connected in one. */
export const nameUnknownPosition = defineInstrumentCheck({
  code: 'name/unknown',
  severity: 'error',
  yieldsTo: [],
  run: ({ instrument: { readings, controls, positions, positionsUnread, selectorPlace } }) => {
    const numbers = positions.map(({ key }) => key.value);
    if (numbers.length === 0 || positionsUnread) return [];
    const read = readings.flatMap(({ lines }) => lines.flatMap((line) => (line.kind === 'position' ? [line.key] : [])));
    const named = [...read, ...controls.flatMap(({ inPositions }) => inPositions ?? [])];
    return named
      .filter(({ value }) => !numbers.includes(value))
      .map(({ value, place }) => {
        const right = nearest(value, numbers);
        return {
          what: say`The selector has no position ${value}.`,
          action: say`Correct the number, or add the position to the selector.`,
          place,
          related: selectorPlace && { message: say`the positions`, place: selectorPlace },
          remedies: () =>
            right === undefined ? undefined : remedy(say`Change to \`${right}\``, replaceAt(place, right)),
        };
      });
  },
});
