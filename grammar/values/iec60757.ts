/** Colours by IEC 60757 ("Code for designation of colours"; table recalled, not copied): two letters a colour, joined for stripes. */

export interface Colour {
  /** `VT`; striped: `RDBU`, base first. */
  readonly code: string;
  /** `['violet']`; striped: `['red', 'blue']`. */
  readonly names: readonly string[];
  readonly base: ColourCode;
  readonly stripe?: ColourCode;
}

/** The standard's fourteen single colours with the names it gives them in English. */
export const COLOURS = {
  BK: 'black',
  BN: 'brown',
  RD: 'red',
  OG: 'orange',
  YE: 'yellow',
  GN: 'green',
  BU: 'blue',
  VT: 'violet',
  GY: 'grey',
  WH: 'white',
  PK: 'pink',
  GD: 'gold',
  TQ: 'turquoise',
  SR: 'silver',
} as const;

export type ColourCode = keyof typeof COLOURS;
export type ColourName = (typeof COLOURS)[ColourCode];

/** The standard's second names (purple, slate) and the other English spelling, each with the name used here. */
const OTHER_NAMES: Readonly<Record<string, ColourName>> = { gray: 'grey', purple: 'violet', slate: 'grey' };

export const COLOUR_CODES: readonly ColourCode[] = Object.keys(COLOURS).filter(isColourCode);

const CODE_OF_NAME: ReadonlyMap<string, ColourCode> = new Map(COLOUR_CODES.map((code) => [COLOURS[code], code]));

export const isColourName = (word: string): boolean => CODE_OF_NAME.has(word);

/**
 * The colour that a word names: `violet`, `VT`, `RDBU`, `green-and-yellow`. Codes are capitals, as the standard writes them;
 * a word that is no colour (`shield-wire`) gives `undefined` and is a plain name. Other spellings: see `usualSpelling`.
 */
export function colourOf(word: string): Colour | undefined {
  const code = CODE_OF_NAME.get(word);
  if (code !== undefined) return single(code);
  if (/^(?:[A-Z]{2}){1,2}$/.test(word))
    return word.length === 2 ? single(word) : striped(word.slice(0, 2), word.slice(2));
  if (!word.includes('-and-')) return undefined;
  const [base, stripe, ...rest] = word.split('-and-').map((name) => CODE_OF_NAME.get(name));
  return base === undefined || stripe === undefined || rest.length > 0 ? undefined : striped(base, stripe);
}

/** The name used here for a colour written another way: `gray` is `grey`, `purple` is `violet`; `undefined` where nothing is amiss. */
export function usualSpelling(word: string): ColourName | undefined {
  const lower = word.toLowerCase();
  if (Object.hasOwn(OTHER_NAMES, lower)) return OTHER_NAMES[lower];
  const code = CODE_OF_NAME.get(lower);
  return code !== undefined && lower !== word && word.length > 2 ? COLOURS[code] : undefined;
}

/** `violet`; striped: `red and blue`. */
export function colourWords(colour: Colour): string {
  return colour.names.join(' and ');
}

function single(text: string): Colour | undefined {
  return isColourCode(text) ? { code: text, names: [COLOURS[text]], base: text } : undefined;
}

function striped(base: string, stripe: string): Colour | undefined {
  if (!isColourCode(base) || !isColourCode(stripe) || base === stripe) return undefined;
  return { code: base + stripe, names: [COLOURS[base], COLOURS[stripe]], base, stripe };
}

function isColourCode(text: string): text is ColourCode {
  return Object.hasOwn(COLOURS, text);
}
