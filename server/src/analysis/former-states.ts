/** An instrument that fits a pickup's former state: what lies in the drawer of records is played. */
import { replaceAt } from '../checks/edits.ts';
import type { Finding } from '../checks/finding.ts';
import { say } from '../checks/say.ts';
import { told } from '../checks/telling.ts';
import type { Instrument, Slot } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';

/** `pickups`: all that the file may name. */
export function fittedFormers(instruments: readonly Instrument[], pickups: readonly Pickup[]): readonly Finding[] {
  const later = new Map<Pickup, readonly Pickup[]>();
  for (const pickup of pickups)
    if (pickup.reworks) later.set(pickup.reworks, [...(later.get(pickup.reworks) ?? []), pickup]);
  return instruments.flatMap(({ name, slots }) =>
    slots.flatMap((slot) => {
      const newest = slot.pickup && newestOf(slot.pickup, later);
      return newest === undefined || newest === slot.pickup ? [] : [findingOf(slot, newest, name)];
    }),
  );
}

/** A former state of which two different ones were made has no newest: the first is named. */
function newestOf(pickup: Pickup, later: ReadonlyMap<Pickup, readonly Pickup[]>): Pickup {
  const next = later.get(pickup)?.[0];
  return next ? newestOf(next, later) : pickup;
}

const findingOf = (slot: Slot, newest: Pickup, instrument: string): Finding => ({
  ...told({
    what: say`${slot.pickupName.value}, fitted as ${slot.name}, is a former state: the pickup is ${newest.name} now, and this instrument is judged by what is no more.`,
    action: say`Fit ${newest.name}.`,
  }),
  code: 'fit/former-state',
  severity: 'warning',
  place: slot.pickupName.place,
  related: [],
  remedies: () => [
    {
      title: say`Fit ${newest.name}, the newest state`,
      edits: [replaceAt(slot.pickupName.place, newest.name)],
      kind: 'build',
      preferred: true,
    },
  ],
  subject: { instrument },
});
