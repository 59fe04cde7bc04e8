/** An instrument that fits a pickup's former state: what lies in the drawer of records is played. */
import { replaceAt } from '../checks/edits.ts';
import type { Finding } from '../checks/finding.ts';
import { say } from '../checks/say.ts';
import { told } from '../checks/telling.ts';
import type { Instrument, Slot } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import { list } from '../words/text.ts';

/** `pickups`: all that the file may name. */
export function fittedFormers(instruments: readonly Instrument[], pickups: readonly Pickup[]): readonly Finding[] {
  const later = new Map<Pickup, readonly Pickup[]>();
  for (const pickup of pickups)
    if (pickup.reworks) later.set(pickup.reworks, [...(later.get(pickup.reworks) ?? []), pickup]);
  if (later.size === 0) return [];
  return instruments.flatMap(({ name, slots }) =>
    slots.flatMap((slot) => {
      const newest = slot.pickup ? newestOf(slot.pickup, later) : [];
      return newest.length === 0 || newest.some((each) => each === slot.pickup) ? [] : [findingOf(slot, newest, name)];
    }),
  );
}

/** One former state may have become two pickups, as when its coils were parted. */
function newestOf(pickup: Pickup, later: ReadonlyMap<Pickup, readonly Pickup[]>): readonly Pickup[] {
  const next = later.get(pickup) ?? [];
  return next.length > 0 ? next.flatMap((each) => newestOf(each, later)) : [pickup];
}

function findingOf(slot: Slot, newest: readonly Pickup[], instrument: string): Finding {
  const names = newest.map(({ name }) => name);
  const become = names.length === 1 ? say`the pickup is ${list(names)} now` : say`it has become ${list(names)}`;
  return {
    ...told({
      what: say`${slot.pickupName.value}, fitted as ${slot.name}, is a former state: ${become}, and this instrument is judged by what is no more.`,
      action: names.length === 1 ? say`Fit ${list(names)}.` : say`Fit the one that lies in it.`,
    }),
    code: 'fit/former-state',
    severity: 'warning',
    place: slot.pickupName.place,
    related:
      newest.length === 1 ? [] : newest.map(({ name, place }) => ({ message: say`${name} is made of it`, place })),
    remedies: () =>
      names.map((name) => ({
        title: names.length === 1 ? say`Fit ${name}, the newest state` : say`Fit ${name}`,
        edits: [replaceAt(slot.pickupName.place, name)],
        kind: 'build',
        preferred: names.length === 1,
      })),
    subject: { instrument },
  };
}
