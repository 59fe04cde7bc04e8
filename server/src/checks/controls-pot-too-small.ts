import { POT_LEAST_TIMES } from '../estimates/common-practice.ts';
import type { Control, Slot } from '../model/instrument.ts';
import { printValue } from '../quantities/print.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';
import { say } from './say.ts';

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
      const kohms = (value: number) => printValue({ value, dimension: 'resistance', unit: 'kohm' });
      const least = Math.ceil((POT_LEAST_TIMES * largest.ohm) / POTS_APART_OHM) * POTS_APART_OHM;
      return {
        what: say`The ${control.kind} control of ${control.track.written} is only ${times} times the ${kohms(largest.ohm)} of ${largest.slot.name}.`,
        hint:
          control.kind === 'blend' && !control.twoGang
            ? say`With less than about ${POT_LEAST_TIMES} times, the other pickup stays heard at the end of the travel.`
            : say`Less than about ${POT_LEAST_TIMES} times loads the pickup: the peak flattens and the treble falls.`,
        action: say`Take a pot of ${kohms(least)} or more.`,
        place: control.place,
        related: [{ message: say`${largest.slot.name} is fitted here`, place: largest.slot.place }],
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
