import { POLE_OFF_AT_MOST_M } from '../estimates/common-practice.ts';
import { type Bobbin, isBlade } from '../model/bobbin.ts';
import type { Instrument, Slot } from '../model/instrument.ts';
import type { Place } from '../model/place.ts';
import { printNumber } from '../quantities/print.ts';
import { defineInstrumentCheck } from './instrument-check.ts';
import { say } from './say.ts';

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
        what: say`The outer poles of ${slot.name} lie ${mm(Math.abs(off))} mm ${off > 0 ? 'outside' : 'inside'} the outer strings: ${mm(poles.spreadM)} mm from first to last pole, where the strings are ${mm(strings)} mm apart.`,
        hint: say`More than ${mm(POLE_OFF_AT_MOST_M)} mm leaves those strings weak.`,
        action: say`Take bobbins with the spread of the strings at this place.`,
        place: slot.place,
        related: [
          { message: say`the spread of the poles`, place: poles.place },
          instrument.strings && { message: say`the spread of the strings`, place: instrument.strings.place },
        ],
      };
    }),
});

const mm = (metre: number): string => printNumber(metre * 1e3, 1, 'plain');

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
