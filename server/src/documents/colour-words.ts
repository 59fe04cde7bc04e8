import type { Colour } from '../../../grammar/values/iec60757.ts';
import type { Language } from '../words/languages/language.ts';

/** `violet`; striped: `red and blue`. */
export const colourWords = ({ names }: Colour, t: Language): string =>
  names.map((name) => t.word(name)).join(` ${t('and')} `);
