/**
 * How poles come to lie the other way up. A bar slides out from under its coils; rods hold the winding that lies on them, and whoever
 * presses them out tears it: they are magnetised the other way where they are. Common practice, no published source.
 */
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { ENGLISH, type Language } from './languages/language.ts';
import { coilWords } from './parts.ts';
import { list } from './text.ts';

/** Of the whole pickup, called `name`: an order without its capital. */
export const polesTurned = (pickup: Pickup, name: string, t = ENGLISH): string =>
  pickup.barMagnet
    ? t('turn the magnet of {0} over', name)
    : hasUnseenPoles(pickup) && pickup.coils.every(({ bobbin }) => !bobbin?.pole)
      ? t('turn the magnet of {0} over, or magnetise its rods the other way', name)
      : remagnetised(pickup.coils, name, t);

/** No line says how the poles lie, as of a closed pickup; a compass held over them may. */
export const hasUnseenPoles = ({ barMagnet, coils }: Pickup): boolean =>
  !barMagnet && coils.every(({ polarity }) => !polarity);

/** Rods that are magnets themselves. */
export const hasMagnetRods = ({ coils }: Pickup): boolean =>
  coils.some(({ bobbin }) => bobbin?.pole) && !isOnSteel(coils);

/** Of some coils of a pickup without a bar; `of` its name, where that must be said. */
export function coilPolesTurned(
  pickup: Pickup,
  coils: readonly Coil[],
  { of, t = ENGLISH }: { readonly of?: string; readonly t?: Language } = {},
): string {
  const sharing = pickup.coils.filter(
    (each) => coils.includes(each) || coils.some(({ name }) => each.below?.value === name),
  );
  const what = list(
    sharing.map((each) => coilWords(each, t)),
    t('and'),
  );
  return remagnetised(coils, of === undefined ? what : t('{0} of {1}', what, of), t);
}

const remagnetised = (coils: readonly Coil[], of: string, t: Language): string =>
  t(isOnSteel(coils) ? 'turn the magnets under {0} over' : 'magnetise the rods of {0} the other way', of);

/** Poles of steel have their magnets beneath them; nothing is wound on those. */
const isOnSteel = (coils: readonly Coil[]): boolean =>
  coils.every(({ bobbin }) => {
    const pole = bobbin?.pole?.value;
    return pole !== undefined && pole !== 'none' && pole.material === 'steel';
  });
