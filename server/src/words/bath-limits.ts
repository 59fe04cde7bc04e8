/** What limits a wax bath, in words. */
import { SOFTENS_FROM_C } from '../estimates/common-practice.ts';
import type { BathLimit } from '../estimates/potting.ts';
import type { Plastic } from '../model/bobbin.ts';
import { printCelsius } from '../quantities/print.ts';
import { ENGLISH } from './languages/language.ts';

export function bathLimitWords(limit: BathLimit, t = ENGLISH): string {
  const degrees = (celsius: number): string => printCelsius(celsius, t.numbers);
  switch (limit.what) {
    case 'mix':
      return t(
        limit.isUsual ? 'the ceiling for the usual mix is {0}' : 'the ceiling for this mix is {0}',
        degrees(limit.limitC),
      );
    case 'plastic':
      return softeningWords(limit.plastic, t) ?? '';
    case 'enamel':
      return t('{0} enamel is of class {1}', t.word(limit.enamel), String(limit.limitC));
    case 'flash point':
      return t('the vapour of this wax may flash from {0}', degrees(limit.flashC));
  }
}

/** `undefined` of a plastic that stands every wax bath. */
export function softeningWords(plastic: Plastic, t = ENGLISH): string | undefined {
  const from = SOFTENS_FROM_C[plastic];
  return from === undefined || plastic === 'fibre' ? undefined : t(GIVES[plastic], printCelsius(from, t.numbers));
}

const GIVES = {
  abs: 'ABS bobbins deflect from {0} on, by grade',
  butyrate: 'butyrate bobbins soften from {0} on, by plasticiser',
} as const;
