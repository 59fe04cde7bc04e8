import type { Pickup } from '../../model/pickup.ts';

export const titleOf = ({ title, name }: Pickup): string => title ?? name;

/** The line below a card's title. */
export const aboutPickup = ({ serial, position, customer }: Pickup): readonly (string | undefined)[] => [
  serial?.value,
  position && `${position.value} position`,
  customer && `for ${customer.value}`,
];
