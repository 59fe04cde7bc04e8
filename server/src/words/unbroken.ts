/**
 * The same text with no-break spaces inside whatever is one quantity: `4.03 kohm`, `8 200 ± 20`, `63.0 x 5.6 mm`. A line then ends
 * before or behind it, never between a number and its unit.
 */
export const unbroken = (text: string): string => text.replace(INSIDE, '\u00A0');

const INSIDE = /(?<=\d) (?=[±×%°Ωµ]|x \d|\p{L}+)|(?<=[±×]|\d[ \u00A0]x) (?=\d)/gu;
