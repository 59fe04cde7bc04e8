import type { PhaseVerdict } from '../../estimates/estimates.ts';
import type { Pickup } from '../../model/pickup.ts';

export const titleOf = ({ title, name }: Pickup): string => title ?? name;

/** The line below a card's title. */
export const aboutPickup = ({ serial, position, customer }: Pickup): readonly (string | undefined)[] => [
  serial?.value,
  position && `${position.value} position`,
  customer && `for ${customer.value}`,
];

const PHASES: Readonly<Record<PhaseVerdict, string>> = {
  in: 'in phase',
  out: 'out of phase: thin',
  single: 'one coil',
  unproven: 'unknown: a kick at each coil settles it',
};

export const phaseWords = (phase: PhaseVerdict): string => PHASES[phase];
