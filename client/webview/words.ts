/** The page's words in the language of the editor; the editor hands its bundle over with the page. English is the key. */
import type german from '../l10n/bundle.l10n.de.json';

type Text = keyof typeof german;

export function t(text: Text, ...between: readonly (string | number)[]): string {
  return (words()[text] ?? text).replace(/\{(\d)\}/g, (_, index: string) => String(between[Number(index)] ?? ''));
}

/** A number as a control has it, in the signs of the page's language. */
export const shownNumber = (value: string): string =>
  document.documentElement.lang === 'de' ? value.replace('.', ',') : value;

let known: Readonly<Record<string, string>> | undefined;

function words(): Readonly<Record<string, string>> {
  known ??= JSON.parse(document.body.dataset.words ?? '{}') as Readonly<Record<string, string>>;
  return known;
}
