import { POT_LEAST_TIMES } from '../estimates/common-practice.ts';
import type { Control, Slot } from '../model/instrument.ts';
import { printValue } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';

export const controlsPotTooSmall = defineInstrumentCheck({
  code: 'controls/pot-too-small',
  severity: 'information',
  yieldsTo: [],
  run: (context) =>
    context.instrument.controls.map((control) => {
      // A no-load control is out of the circuit where it is full up; the halves of a blend are one control.
      if (control.kind === 'bleed' || (control.kind === 'tone' && control.noLoad)) return undefined;
      if (control.kind === 'blend' && control.end === 'second') return undefined;
      const largest = served(control, context).reduce<Served | undefined>(
        (most, each) => (most && most.ohm >= each.ohm ? most : each),
        undefined,
      );
      if (!largest || control.track.si >= POT_LEAST_TIMES * largest.ohm) return undefined;
      const times = Math.round(control.track.si / largest.ohm);
      const kohms = (value: number, t: Language) =>
        printValue({ value, dimension: 'resistance', unit: 'kohm', style: t.numbers });
      const least = Math.ceil((POT_LEAST_TIMES * largest.ohm) / POTS_APART_OHM) * POTS_APART_OHM;
      return {
        what: (t: Language) =>
          t(
            'The {0} control of {1} is only {2} times the {3} of {4}.',
            t(control.kind),
            control.track.written,
            String(times),
            kohms(largest.ohm, t),
            largest.slot.name,
          ),
        hint: (t: Language) =>
          t(
            control.kind === 'blend' && !control.twoGang
              ? 'With less than about {0} times, the other pickup stays heard at the end of the travel.'
              : 'Less than about {0} times loads the pickup: the peak flattens and the treble falls.',
            String(POT_LEAST_TIMES),
          ),
        action: (t: Language) => t('Take a pot of {0} or more.', kohms(least, t)),
        place: control.place,
        related: [{ message: (t: Language) => t('{0} is fitted here', largest.slot.name), place: largest.slot.place }],
      };
    }),
});

/** A finer answer than this helps nobody who chooses a pot. */
const POTS_APART_OHM = 10e3;

interface Served {
  readonly slot: Slot;
  readonly ohm: number;
}

function served(control: Control, { instrument, quickOf }: InstrumentContext): readonly Served[] {
  const { forSlot } = control;
  const names = control.kind === 'blend' ? [control.forSlot.value, control.other.value] : forSlot && [forSlot.value];
  return instrument.slots.flatMap((slot): readonly Served[] => {
    if (!slot.pickup || (names && !names.includes(slot.name))) return [];
    const ohm = quickOf(slot.pickup).resistance20COhm;
    return ohm && Number.isFinite(ohm.value) && ohm.value > 0 ? [{ slot, ohm: ohm.value }] : [];
  });
}
