import type { PlainText } from './languages/language.ts';

/** What a listener has to know that these sounds are not. */
export const LEFT_OUT: readonly PlainText[] = [
  'The string is synthesised: one ideal pluck, no fingers, no body, no fret noise.',
  'Left out: where the pickup sits along the string and how wide it looks, the pull and strength of the magnet on the string, the amplifier and the loudspeaker.',
  'The filter has the levels of the response and the least phase that goes with them; loudness is matched, so output is not compared.',
];
