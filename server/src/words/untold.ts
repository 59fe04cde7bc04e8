/** What a sweep leaves open, and the measurement that would tell it. */
import type { UntoldPosition } from '../estimates/estimates.ts';
import { ENGLISH, type Language, type PlainText } from './languages/language.ts';

/** Of a coil in a pickup of which nothing is known but a sweep of all of it. */
export const COIL_UNTOLD: PlainText = 'not told by a sweep of the whole';

/** The same where there is room for few words: `Not told yet: sweep lower.start to lower.finish.` */
export function untoldShortly(untold: UntoldPosition, t: Language = ENGLISH): string {
  const [first, ...others] = untold.sweep;
  return first && others.length === 0
    ? t('Not told yet: sweep {0}.', first.join(' to '))
    : t('Not told yet: sweep each coil by itself.');
}

/** `The sweep of all of bridge does not tell this: sweep lower.start to lower.finish.` */
export function untoldWords(untold: UntoldPosition, t: Language = ENGLISH): string {
  const ends = untold.sweep.map((each) => each.join(' to ')).join(', ');
  return t('The sweep of all of {0} does not tell this: sweep {1}.', untold.pickup, ends);
}
