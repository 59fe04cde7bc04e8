/** What the work did to a pickup: what it left, what it put in, and what came out. */
import type { Coil, MagnetWork } from './coil.ts';
import { formerState } from './former-state.ts';
import type { Magnet } from './magnet.ts';
import type { Pickup } from './pickup.ts';

export interface WorkDone {
  readonly kept: readonly Coil[];
  readonly wound: readonly Coil[];
  /** Coils that came out, each with the pickup that it was read in; those of which nobody says more than that have no more than a name. */
  readonly returned: readonly { readonly coil: Coil; readonly of: Pickup }[];
  readonly bar: MagnetWork | undefined;
  /** The bar that came out; `undefined` where none did, or where nothing is said of it. */
  readonly returnedBar: Magnet | undefined;
  /** Coils whose rods were turned or exchanged. */
  readonly rods: readonly Coil[];
}

/** True of a coil that this work wound: it says so, or nothing is said and its turns are planned or were counted. */
export const isWoundHere = ({ work, turns, counted }: Coil): boolean =>
  work ? work.value === 'new' : turns !== undefined || counted !== undefined;

export function workDone(pickup: Pickup): WorkDone {
  const former = formerState(pickup);
  const wound = pickup.coils.filter(isWoundHere);
  const stays = (name: string) => pickup.coils.some((coil) => coil.name === name && !wound.includes(coil));
  const bar = barWork(pickup);
  return {
    kept: pickup.coils.filter((coil) => !wound.includes(coil)),
    wound,
    returned: (former?.coils ?? []).flatMap((coil) => (former && !stays(coil.name) ? [{ coil, of: former }] : [])),
    bar,
    returnedBar: bar === 'new' ? former?.barMagnet?.value.magnet : undefined,
    rods: pickup.coils.filter((coil) => !wound.includes(coil) && (coil.rods === 'turned' || coil.rods === 'new')),
  };
}

/** As its line says; where it says nothing, another magnet than in the state before is a new one, and the other pole up the same turned. */
function barWork({ barMagnet, reworks }: Pickup): MagnetWork | undefined {
  const [now, before] = [barMagnet?.value, reworks?.barMagnet?.value];
  if (now?.work || !now || !before?.magnet || !now.magnet) return now?.work;
  if (now.magnet.name !== before.magnet.name) return 'new';
  const sameWay = (now.pole === before.pole) === (now.towardCoil.value === before.towardCoil.value);
  return sameWay ? 'kept' : 'turned';
}
