/** A pickup as it was before the work: the one that it reworks, or what its readings as found tell of it. */
import { onceFor } from '../../../grammar/values/remember.ts';
import { type Coil, opposite } from './coil.ts';
import type { Pickup } from './pickup.ts';

/**
 * The state before this one; the same object each time. Where one block tells both, the former pickup had the same leads and joints,
 * the coils that were kept as they are, and in place of each new one a coil of which only the name, its leads and its readings are
 * known. `undefined` where nothing tells of a former state.
 */
export const formerState = (pickup: Pickup): Pickup | undefined => pickup.reworks ?? asFound(pickup);

const asFound = onceFor((pickup: Pickup): Pickup | undefined => {
  const readings = pickup.readings.filter(({ found }) => found);
  if (readings.length === 0 || !pickup.coils.some(({ work }) => work?.value === 'new')) return undefined;
  const { barMagnet } = pickup;
  return {
    ...pickup,
    made: undefined,
    coils: pickup.coils.map((coil) => (coil.work?.value === 'new' ? coilThatCameOut(coil) : coilAsFound(coil))),
    barMagnet: barMagnet && turnedBack(barMagnet),
    readings: readings.map((block) => ({ ...block, found: false })),
    potting: undefined,
    target: undefined,
    accepted: [],
  };
});

/** The bar as it lay before: its line says what became of it, and nothing of one that was exchanged. */
function turnedBack({ value, place }: NonNullable<Pickup['barMagnet']>): Pickup['barMagnet'] {
  if (value.work === 'kept') return { value, place };
  return value.work === 'turned' ? { value: { ...value, pole: opposite(value.pole) }, place } : undefined;
}

function coilAsFound(coil: Coil): Coil {
  const { polarity, rods } = coil;
  if (!polarity || rods === 'kept') return coil;
  return {
    ...coil,
    polarity: rods === 'turned' ? { ...polarity, value: opposite(polarity.value) } : undefined,
  };
}

/** Of the coil that lay in this place nothing is known but where its ends went. */
const coilThatCameOut = (coil: Coil): Coil => ({
  ...coilAsFound(coil),
  work: undefined,
  bobbin: undefined,
  bobbinPlace: undefined,
  wire: undefined,
  wirePlace: undefined,
  spool: undefined,
  turns: undefined,
  counted: undefined,
  wound: undefined,
  spindle: undefined,
  packing: undefined,
  tension: undefined,
  traverse: undefined,
  speed: undefined,
  taps: [],
  notes: [],
});
