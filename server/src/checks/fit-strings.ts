import type { Language } from '../words/languages/language.ts';
import { defineInstrumentCheck } from './instrument-check.ts';

export const fitStrings = defineInstrumentCheck({
  code: 'fit/strings',
  severity: 'information',
  yieldsTo: [],
  run: ({ instrument: { slots, strings } }) =>
    slots.map((slot) => {
      const own = slot.pickup?.strings;
      if (!own || !strings || own.value === strings.value.count) return undefined;
      return {
        what: (t: Language) =>
          t(
            '{0} is a pickup for {1} strings, the instrument has {2}: some strings find no pole, or some poles no string.',
            slot.name,
            String(own.value),
            String(strings.value.count),
          ),
        action: (t: Language) =>
          t(
            'Take a pickup for {0} strings, or correct the number that is stated wrongly.',
            String(strings.value.count),
          ),
        place: slot.place,
        related: [
          { message: (t: Language) => t('strings of the pickup'), place: own.place },
          { message: (t: Language) => t('strings of the instrument'), place: strings.place },
        ],
      };
    }),
});
