/** How a control is wired where it is not wired as usual, in the words of the language. */
import type { Control } from '../model/instrument.ts';

export function wiringWords(control: Control): readonly string[] {
  switch (control.kind) {
    case 'volume':
      return control.wiperToPickup ? ['wiper to pickup'] : [];
    case 'tone':
      return [...(control.noLoad ? ['no-load'] : []), ...(control.atWiper ? ['at the wiper'] : [])];
    case 'blend':
      return control.twoGang ? ['two-gang'] : [];
    case 'bleed':
      return [];
  }
}
