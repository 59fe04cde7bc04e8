import type { Instrument } from '../../model/instrument.ts';
import type { Pickup } from '../../model/pickup.ts';
import type { Language } from '../../words/languages/language.ts';

/** The line below a card's title. */
export const aboutPickup = (pickup: Pickup, t: Language): readonly (string | undefined)[] => {
  const [serial, customer] = aboutInstrument(pickup, t);
  return [serial, positionText(pickup, t), customer];
};

/** Where it sits. */
export const positionText = ({ position }: Pickup, t: Language): string | undefined =>
  position && t('{0} position', t.word(position.value));

export const aboutInstrument = ({ serial, customer }: Instrument | Pickup, t: Language) => [
  serial?.value,
  customer && t('for {0}', customer.value),
];
