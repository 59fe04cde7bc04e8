import type { Control, Slot } from '../model/instrument.ts';
import { printValue } from '../quantities/print.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';

export const controlsPotTooSmall = defineInstrumentCheck({
  code: 'controls/pot-too-small',
  severity: 'information',
  yieldsTo: [],
  run: (context) =>
    context.instrument.controls.flatMap((control) => {
      if (control.kind === 'bleed') return [];
      const largest = served(control, context).reduce<Served | undefined>(
        (most, each) => (most && most.ohm >= each.ohm ? most : each),
        undefined,
      );
      if (!largest || control.track.si >= LEAST_TIMES * largest.ohm) return [];
      const times = Math.round(control.track.si / largest.ohm);
      const ohms = printValue({ value: largest.ohm, dimension: 'resistance', unit: 'kohm' });
      return [
        {
          message:
            `The ${control.kind} control of ${control.track.written} is only ${times} times the ${ohms} of ${largest.slot.name}: ` +
            `less than about ${LEAST_TIMES} times loads the pickup, the peak flattens and the treble falls.`,
          place: control.place,
          related: [{ message: `${largest.slot.name} is fitted here`, place: largest.slot.place }],
        },
      ];
    }),
});

/** Common practice, no published source: 250 k behind 6 to 8 kΩ and 500 k behind 8 to 17 kΩ are usual, so a factor of 30 to 60. */
const LEAST_TIMES = 20;

interface Served {
  readonly slot: Slot;
  readonly ohm: number;
}

function served({ forSlot }: Control, { instrument, quickOf }: InstrumentContext): readonly Served[] {
  return instrument.slots.flatMap((slot): readonly Served[] => {
    if (!slot.pickup || (forSlot && forSlot.value !== slot.name)) return [];
    const ohm = quickOf(slot.pickup).resistance20COhm;
    return ohm && Number.isFinite(ohm.value) && ohm.value > 0 ? [{ slot, ohm: ohm.value }] : [];
  });
}
