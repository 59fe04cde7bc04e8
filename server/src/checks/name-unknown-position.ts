import { nearest } from '../../../grammar/src/nearest.ts';
import { replaceAt } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';

/** A reading of a position that the selector does not have. */
export const nameUnknownPosition = defineInstrumentCheck({
  code: 'name/unknown',
  severity: 'error',
  yieldsTo: [],
  run: ({ instrument: { readings, positions, positionsUnread, selectorPlace } }) => {
    const numbers = positions.map(({ key }) => key.value);
    if (numbers.length === 0 || positionsUnread) return [];
    return readings.flatMap(({ lines }) =>
      lines.flatMap((line) => {
        if (line.kind !== 'position' || numbers.includes(line.key.value)) return [];
        const right = nearest(line.key.value, numbers);
        return [
          {
            what: say`The selector has no position ${line.key.value}.`,
            action: say`Correct the number, or add the position to the selector.`,
            place: line.key.place,
            related: selectorPlace ? [{ message: say`the positions`, place: selectorPlace }] : [],
            remedies: () =>
              right
                ? [
                    {
                      title: say`Change to \`${right}\``,
                      edits: [replaceAt(line.key.place, right)],
                      kind: 'build' as const,
                    },
                  ]
                : [],
          },
        ];
      }),
    );
  },
});
