import type { Pickup } from '../../model/pickup.ts';

/** The line below a card's title. */
export const aboutPickup = ({ serial, position, customer }: Pickup): readonly (string | undefined)[] => [
  serial?.value,
  position && `${position.value} position`,
  customer && `for ${customer.value}`,
];
