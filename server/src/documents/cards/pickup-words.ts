import type { Instrument } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';

/** The line below a card's title. */
export const aboutPickup = (pickup: Pickup): readonly (string | undefined)[] => {
  const [serial, customer] = aboutInstrument(pickup);
  return [serial, pickup.position && `${pickup.position.value} position`, customer];
};

export const aboutInstrument = ({ serial, customer }: Instrument | Pickup) => [
  serial?.value,
  customer && `for ${customer.value}`,
];
