import { replaceAt } from './edits.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

export const nameDuplicatePosition = defineInstrumentCheck({
  code: 'name/duplicate',
  severity: 'error',
  yieldsTo: [],
  run: ({ instrument: { positions } }) =>
    positions.map((position, index) => {
      const number = position.key.value;
      const first = positions.slice(0, index).find(({ key }) => key.value === number);
      if (!first) return undefined;
      const free = firstFree(positions.map(({ key }) => key.value));
      return {
        what: say`Two positions are numbered ${number}; a number belongs to one of them.`,
        action: say`Number one of them ${free}.`,
        place: position.key.place,
        related: [{ message: say`the first position ${number}`, place: first.place }],
        remedies: () => remedy(say`Number it ${free}`, replaceAt(position.key.place, free), true),
        subject: { position: number },
      };
    }),
});

function firstFree(taken: readonly string[]): string {
  for (let number = 1; ; number++) if (!taken.includes(String(number))) return String(number);
}
