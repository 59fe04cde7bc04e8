/** What a sweep leaves open, and the measurement that would tell it. */
import type { UntoldPosition } from '../estimates/estimates.ts';
import { ENGLISH, type Language, type PlainText } from './languages/language.ts';

/** Of a coil in a pickup of which nothing is known but a sweep of all of it. */
export const COIL_UNTOLD: PlainText = 'not told by a sweep of the whole';

/** `The sweep of bridge as a whole does not tell this: sweep lower.start to lower.finish.` */
export function untoldWords(untold: UntoldPosition, t: Language = ENGLISH): string {
  if (untold.because === 'loudness')
    return t('How loud {0} is beside the others no sweep tells: its turns would.', untold.pickup);
  const ends = untold.sweep.map((each) => each.join(' to ')).join(', ');
  return t('The sweep of all of {0} does not tell this: sweep {1}.', untold.pickup, ends);
}
