import { defineInstrumentCheck } from './instrument-check.ts';

export const fitStrings = defineInstrumentCheck({
  code: 'fit/strings',
  severity: 'information',
  yieldsTo: [],
  run: ({ instrument: { slots, strings } }) =>
    slots.flatMap((slot) => {
      const own = slot.pickup?.strings;
      if (!own || !strings || own.value === strings.value.count) return [];
      return [
        {
          message: `${slot.name} is a pickup for ${own.value} strings, the instrument has ${strings.value.count}: some strings find no pole, or some poles no string.`,
          place: slot.place,
          related: [
            { message: 'strings of the pickup', place: own.place },
            { message: 'strings of the instrument', place: strings.place },
          ],
        },
      ];
    }),
});
