/** Texts that can only be made of texts and numbers: none of them can print what is missing. */

declare const made: unique symbol;

export type Said = string & { readonly [made]: true };

/** A text with what is said of in between: say`${name} is joined to nothing`. */
export const say = (words: TemplateStringsArray, ...between: readonly (string | number)[]): Said =>
  String.raw({ raw: words }, ...between) as Said;
