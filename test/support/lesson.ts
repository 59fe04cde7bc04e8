/** What is done to the lesson's spec in the course of the lesson. */

/** The leads of the slug coil change places: each line as it was and as it is. */
export const MENDED: readonly (readonly [string, string])[] = [
  ['hot violet', 'hot turquoise'],
  ['link turquoise grey', 'link violet grey'],
];
