/** The client's words in the language of the editor: English is the key, and the bundle below `client/l10n` holds the rest. */
import { env, l10n } from 'vscode';
import type german from '../../l10n/bundle.l10n.de.json';

export type Text = keyof typeof german;

export const t = (text: Text, ...between: readonly (string | number)[]): string => l10n.t(text, ...between);

/** The language that pages of ours are in, after BCP 47: the editor's where there is a bundle for it. */
export const pageLanguage = (): string => (l10n.bundle === undefined ? 'en' : (env.language.split('-')[0] ?? 'en'));

/** The bundle as the value of an attribute; empty in English. */
export const bundleAttribute = (): string =>
  JSON.stringify(l10n.bundle ?? {})
    .replaceAll('&', '&amp;')
    .replaceAll('"', '&quot;')
    .replaceAll('<', '&lt;');
