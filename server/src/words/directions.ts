/** What winding directions and poles are called. Both are told as seen from the strings. */
import { type PoleUp, type Rotation, rotationOf, type Sign } from '../model/coil.ts';
import { ENGLISH, type PlainText } from './languages/language.ts';

export const rotationWords = (sign: Sign | undefined, t = ENGLISH): string =>
  t(sign === undefined ? 'unknown' : rotationOf(sign));

export const woundWords = (wound: Rotation | undefined, t = ENGLISH): string =>
  wound === undefined ? t('winding direction unknown') : t('wound {0}', t(wound));

const LETTERS = { 'north-up': 'N', 'south-up': 'S' } as const;

export const poleLetter = (pole: PoleUp): 'N' | 'S' => LETTERS[pole];

/** `N up`, behind a coil's name. */
export const upWords = (pole: PoleUp | undefined, t = ENGLISH): string =>
  pole === undefined ? t('poles unknown') : t('{0} up', poleLetter(pole));

/** `poles N up`, where there is little room. */
export const polesShort = (pole: PoleUp | undefined, t = ENGLISH): string =>
  pole === undefined ? t('poles unknown') : t('poles {0} up', poleLetter(pole));

/** `poles north up`. */
export const polesWords = (pole: PoleUp | undefined, t = ENGLISH): string =>
  t(pole === undefined ? 'poles unknown' : POLES_UP[pole]);

const POLES_UP = { 'north-up': 'poles north up', 'south-up': 'poles south up' } as const;

/** The tip of a compass needle that such a pole draws: unlike poles attract. */
export const seekingTip = (pole: PoleUp): PlainText =>
  pole === 'north-up' ? 'the south-seeking tip' : 'the north-seeking tip';

/** What is still open of a coil: `the winding direction`, `the polarity`. */
export function missingSigns(
  { wind, pole }: { readonly wind?: unknown; readonly pole?: unknown },
  t = ENGLISH,
): string {
  if (!wind && !pole) return t('winding direction and polarity');
  return t(wind ? 'the polarity' : 'the winding direction');
}
