/** Texts that can only be made of texts and numbers: none of them can print what is missing. */
import { ENGLISH, type Wording } from '../words/languages/language.ts';

declare const made: unique symbol;

export type Said = string & { readonly [made]: true };

/** Told in English only, or in every language. */
export type Worded = Said | Wording;

/** A text with what is said of in between: say`${name} is joined to nothing`. */
export const say = (words: TemplateStringsArray, ...between: readonly (string | number)[]): Said =>
  String.raw({ raw: words }, ...between) as Said;

export const inEnglish = (text: Worded): Said => (typeof text === 'function' ? (text(ENGLISH) as Said) : text);

export const inWords = (text: Worded): { readonly words?: Wording } =>
  typeof text === 'function' ? { words: text } : {};
