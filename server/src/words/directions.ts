/** What winding directions and poles are called. Both are told as seen from the strings. */
import { type PoleUp, type Rotation, rotationOf, type Sign } from '../model/coil.ts';

export const rotationWords = (sign: Sign | undefined): string => (sign === undefined ? 'unknown' : rotationOf(sign));

export const woundWords = (wound: Rotation | undefined): string =>
  wound === undefined ? 'winding direction unknown' : `wound ${wound}`;

const LETTERS = { 'north-up': 'N', 'south-up': 'S' } as const;

export const poleLetter = (pole: PoleUp): 'N' | 'S' => LETTERS[pole];

/** `N up`, behind a coil's name. */
export const upWords = (pole: PoleUp | undefined): string =>
  pole === undefined ? 'poles unknown' : `${poleLetter(pole)} up`;

/** `poles N up`, where there is little room. */
export const polesShort = (pole: PoleUp | undefined): string =>
  pole === undefined ? 'poles unknown' : `poles ${poleLetter(pole)} up`;

/** `poles north up`. */
export const polesWords = (pole: PoleUp | undefined): string =>
  pole === undefined ? 'poles unknown' : `poles ${pole.replace('-', ' ')}`;

/** The tip of a compass needle that such a pole draws: unlike poles attract. */
export const seekingTip = (pole: PoleUp): string => (pole === 'north-up' ? 'south-seeking tip' : 'north-seeking tip');

/** What is still open of a coil: `the winding direction`, `the polarity`. */
export function missingSigns({ wind, pole }: { readonly wind?: unknown; readonly pole?: unknown }): string {
  if (!wind && !pole) return 'winding direction and polarity';
  return wind ? 'the polarity' : 'the winding direction';
}
