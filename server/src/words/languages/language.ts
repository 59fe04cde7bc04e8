/**
 * The language that a card or the bench view speaks. A text is known by its English; a text without its German does not compile.
 * What a spec says, what a report or JSON says, and what is written into a text is never told in another language.
 */
import type { Style } from '../../quantities/print.ts';
import { SPEC_WORDS } from './german/spec-words.ts';
import { GERMAN_NUMBERS, german } from './german.ts';

/** A text of the tool, by its English: `Winding: {0} coil`. */
export type Text = keyof ReturnType<typeof german>;

/** One that holds nothing in between. */
export type PlainText = Exclude<Text, `${string}{0}${string}`>;

type Between<T extends Text> = T extends `${string}{4}${string}`
  ? readonly [string, string, string, string, string]
  : T extends `${string}{3}${string}`
    ? readonly [string, string, string, string]
    : T extends `${string}{2}${string}`
      ? readonly [string, string, string]
      : T extends `${string}{1}${string}`
        ? readonly [string, string]
        : T extends `${string}{0}${string}`
          ? readonly [string]
          : readonly [];

export interface Language {
  /** The text, with what is said of in between: names, and numbers in the signs of the same language. */
  <T extends Text>(text: T, ...between: Between<T>): string;
  /** A word of the language of specs, as far as this language has it: `clockwise`, `start`, `violet`. */
  word(word: string): string;
  /** As it stands in this language, `{0}` where something comes in between. */
  pattern(text: Text): string;
  /** After BCP 47. */
  readonly code: LanguageCode;
  readonly numbers: Style;
}

/** A text that is told once it is known to whom. */
export type Wording = (t: Language) => string;

export const LANGUAGES = ['en', 'de'] as const;
export type LanguageCode = (typeof LANGUAGES)[number];

function speaking(code: LanguageCode, numbers: Style, wordsOf: (text: Text) => string): Language {
  const tell = (text: Text, ...between: readonly string[]): string =>
    wordsOf(text).replace(/\{(\d)\}/g, (_, index: string) => between[Number(index)] ?? '');
  return Object.assign(tell, {
    code,
    numbers,
    pattern: wordsOf,
    word: (word: string) => (isSpecWord(word) ? wordsOf(word) : word),
  });
}

const isSpecWord = (word: string): word is keyof typeof SPEC_WORDS => Object.hasOwn(SPEC_WORDS, word);

export const ENGLISH = speaking('en', 'typographic', (text) => text);

const BY_CODE: Readonly<Record<LanguageCode, Language>> = {
  en: ENGLISH,
  de: speaking('de', GERMAN_NUMBERS, (text) => german()[text]),
};

/** Of a locale as an editor or a person names it: `de`, `de-AT`, `en_GB.UTF-8`. English where there is none, or none that is known. */
export function languageOf(locale: string | undefined): Language {
  const wanted = locale?.split(/[-_.]/)[0]?.toLowerCase();
  const code = LANGUAGES.find((each) => each === wanted);
  return code === undefined ? ENGLISH : BY_CODE[code];
}
