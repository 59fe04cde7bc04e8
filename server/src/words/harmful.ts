/**
 * Characters of a spec that are never shown as they are: controls, format characters (marks that turn the writing direction, soft
 * hyphens, invisible spaces, tags), halves of surrogate pairs, the two separators that break lines, and non-characters. Zero-width
 * joiners stay: they hold emoji and some scripts together and cannot reorder anything. As the source of an expression with `u`.
 */
export const HARMFUL =
  '(?!\\u200C|\\u200D)[\\p{Cc}\\p{Cf}\\p{Cs}\\u2028\\u2029\\u2065\\uFFFE\\uFFFF\\u{E0000}-\\u{E007F}]';
