import { POLE_OFF_AT_MOST_M } from '../estimates/common-practice.ts';
import { type Bobbin, isBlade } from '../model/bobbin.ts';
import type { Instrument, Slot } from '../model/instrument.ts';
import type { Place } from '../model/place.ts';
import { printNumber } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { defineInstrumentCheck } from './instrument-check.ts';

export const fitPoleSpread = defineInstrumentCheck({
  code: 'fit/pole-spread',
  severity: 'warning',
  yieldsTo: [],
  run: ({ instrument }) =>
    instrument.slots.map((slot) => {
      const strings = stringSpreadM(instrument, slot);
      const poles = strings === undefined ? undefined : worstPoles(instrument, slot, strings);
      if (strings === undefined || !poles) return undefined;
      const off = (poles.spreadM - strings) / 2;
      if (Math.abs(off) <= POLE_OFF_AT_MOST_M) return undefined;
      return {
        what: (t: Language) =>
          t(
            off > 0
              ? 'The outer poles of {0} lie {1} mm outside the outer strings: {2} mm from first to last pole, where the strings are {3} mm apart.'
              : 'The outer poles of {0} lie {1} mm inside the outer strings: {2} mm from first to last pole, where the strings are {3} mm apart.',
            slot.name,
            mm(Math.abs(off), t),
            mm(poles.spreadM, t),
            mm(strings, t),
          ),
        hint: (t: Language) => t('More than {0} mm leaves those strings weak.', mm(POLE_OFF_AT_MOST_M, t)),
        action: (t: Language) => t('Take bobbins with the spread of the strings at this place.'),
        place: slot.place,
        related: [
          { message: (t: Language) => t('the spread of the poles'), place: poles.place },
          instrument.strings && {
            message: (t: Language) => t('the spread of the strings'),
            place: instrument.strings.place,
          },
        ],
      };
    }),
});

const mm = (metre: number, t: Language): string =>
  printNumber(metre * 1e3, 1, t.numbers === 'typographic' ? 'plain' : t.numbers);

/** First to last string at the pickup's place, between bridge and nut in proportion to the distance from the saddle. */
function stringSpreadM({ strings, scale }: Instrument, { distance }: Slot): number | undefined {
  const { atBridge, atNut } = strings?.value ?? {};
  if (!atBridge || !atNut || !scale || !distance) return undefined;
  return atBridge.si + (atNut.si - atBridge.si) * (distance.si / scale.value.si);
}

/** The coil whose poles lie farthest off, of those with one pole to a string. */
function worstPoles(
  { strings }: Instrument,
  { pickup }: Slot,
  stringsM: number,
): { readonly spreadM: number; readonly place: Place } | undefined {
  const rows = (pickup?.coils ?? []).flatMap(({ bobbin, serves }) =>
    serves === undefined && bobbin?.poles && onePoleToAString(bobbin, strings?.value.count)
      ? [{ spreadM: bobbin.poles.value.spread?.si, place: bobbin.poles.place }]
      : [],
  );
  const known = rows.flatMap(({ spreadM, place }) => (spreadM === undefined ? [] : [{ spreadM, place }]));
  const off = ({ spreadM }: { readonly spreadM: number }) => Math.abs(spreadM - stringsM);
  return known.sort((a, b) => off(b) - off(a))[0];
}

const onePoleToAString = (bobbin: Bobbin, strings: number | undefined): boolean =>
  strings !== undefined && strings > 1 && bobbin.poles?.value.count === strings && !isBlade(bobbin);
