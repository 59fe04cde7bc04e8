/** What a number rests on, in the language of whoever reads it. */
import { type Reason, reasonIn } from '../estimates/reasons.ts';
import type { Language } from './languages/language.ts';

/** Whatever the spec says in between stays as it is written there; values of ours have the signs of the language. */
export function reasonWords(text: string, t: Language): string {
  const found = t.code === 'en' ? undefined : reasonIn(text);
  if (!found) return text;
  const { reason, between } = found;
  const own = reason.endsWith(', assumed') || OF_OURS.has(reason);
  return between
    .map((each) => reasonWords(own ? inSigns(each, t) : each, t))
    .map((each) => (OF_METAL.test(reason) ? t.word(each) : each))
    .reduce((told, each, index) => told.replaceAll(`{${index}}`, () => each), t.pattern(reason));
}

const OF_OURS: ReadonlySet<Reason> = new Set<Reason>([
  'at {0}',
  '{0} over the pole tops',
  'a poor joint that adds {0}: enamel under the solder, or a dry joint',
  'a slip of the decimal point or the unit: {0} was meant',
  'a path of {0} beside it: hands on the probes, or the pickup read in circuit',
  'a path of {0} beside it: a hand on the plug, an amplifier plugged in, or a smaller pot than stated',
]);

/** A part and what it is made of; other reasons have names in between, which stay as they are. */
const OF_METAL = /^(?:\{0\} of \{1\}, |poles of )/;

const inSigns = (text: string, { numbers }: Language): string =>
  typeof numbers === 'object' ? text.replace(/(\d)\.(\d)/g, `$1${numbers.decimalSign}$2`) : text;
