/** How a control is wired where it is not wired as usual, in the words of the language. */
import type { Control } from '../model/instrument.ts';
import type { PlainText } from './languages/language.ts';

export function wiringWords(control: Control): readonly PlainText[] {
  switch (control.kind) {
    case 'volume':
      return control.wiperToPickup ? ['wiper to pickup'] : [];
    case 'tone':
      return [...(control.noLoad ? NO_LOAD : []), ...(control.atWiper ? AT_WIPER : [])];
    case 'blend':
      return control.twoGang ? ['two-gang'] : [];
    case 'bleed':
      return [];
  }
}

const NO_LOAD: readonly PlainText[] = ['no-load'];
const AT_WIPER: readonly PlainText[] = ['at the wiper'];
