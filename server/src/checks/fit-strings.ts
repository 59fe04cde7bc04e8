import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';

export const fitStrings = defineInstrumentCheck({
  code: 'fit/strings',
  severity: 'information',
  yieldsTo: [],
  run: ({ instrument: { slots, strings } }) =>
    slots.map((slot) => {
      const own = slot.pickup?.strings;
      if (!own || !strings || own.value === strings.value.count) return undefined;
      return {
        what: say`${slot.name} is a pickup for ${own.value} strings, the instrument has ${strings.value.count}: some strings find no pole, or some poles no string.`,
        action: say`Take a pickup for ${strings.value.count} strings, or correct the number that is stated wrongly.`,
        place: slot.place,
        related: [
          { message: say`strings of the pickup`, place: own.place },
          { message: say`strings of the instrument`, place: strings.place },
        ],
      };
    }),
});
