import type { LanguageClientOptions, Middleware } from 'vscode-languageclient';
import { type ClientOptions, LANGUAGE_ID, PROTOCOL_VERSION } from '../../server/src/lsp/protocol.ts';

/** Of any scheme: local files, virtual file systems, drafts that have no file yet. */
export const documentSelector = [{ language: LANGUAGE_ID }];

/** Texts that are only looked at beside others: a plan before it is written, and what git holds. */
export const PLAN_SCHEME = 'pickup-plan';
const LOOKED_AT: ReadonlySet<string> = new Set([PLAN_SCHEME, 'git', 'vscode-local-history']);

/** What is only looked at has no files beside it to use, and its findings would be of another day. */
const skipLookedAt: Middleware = {
  didOpen: (document, next) => (LOOKED_AT.has(document.uri.scheme) ? Promise.resolve() : next(document)),
  didChange: (event, next) => (LOOKED_AT.has(event.document.uri.scheme) ? Promise.resolve() : next(event)),
  didClose: (document, next) => (LOOKED_AT.has(document.uri.scheme) ? Promise.resolve() : next(document)),
};

export const CLIENT_ID = 'pickup';
export const CLIENT_NAME = 'Pickup Spec';

export function clientOptions(): LanguageClientOptions {
  const ours: ClientOptions = { protocol: PROTOCOL_VERSION, readsFiles: true, showsExplanations: true };
  return {
    documentSelector,
    initializationOptions: ours,
    middleware: skipLookedAt,
    // Whatever a spec says is text: no command links, no HTML.
    markdown: { isTrusted: false, supportHtml: false },
  };
}
