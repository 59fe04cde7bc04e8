import type { LanguageClientOptions } from 'vscode-languageclient';
import { type ClientOptions, LANGUAGE_ID, PROTOCOL_VERSION } from '../../server/src/lsp/protocol.ts';

/** Of any scheme: local files, virtual file systems, drafts that have no file yet. */
export const documentSelector = [{ language: LANGUAGE_ID }];

export const CLIENT_ID = 'pickup';
export const CLIENT_NAME = 'Pickup Spec';

export function clientOptions(): LanguageClientOptions {
  const ours: ClientOptions = { protocol: PROTOCOL_VERSION, readsFiles: true, showsExplanations: true };
  return {
    documentSelector,
    initializationOptions: ours,
    // Whatever a spec says is text: no command links, no HTML.
    markdown: { isTrusted: false, supportHtml: false },
  };
}
