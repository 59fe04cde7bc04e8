import { type Disposable, type Event, EventEmitter } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { ANALYSED_NOTIFICATION, type AnalysedParams } from '../../../server/src/lsp/protocol.ts';

export type OnDidAnalyse = Event<AnalysedParams>;

/** What the server has analysed, for everybody who wants to know: a client hands each kind of message to its last listener only. */
export function listenToAnalyses(client: BaseLanguageClient): Disposable & { readonly onDidAnalyse: OnDidAnalyse } {
  const analysed = new EventEmitter<AnalysedParams>();
  const listening = client.onNotification(ANALYSED_NOTIFICATION, (params: AnalysedParams) => analysed.fire(params));
  return {
    onDidAnalyse: analysed.event,
    dispose: () => {
      listening.dispose();
      analysed.dispose();
    },
  };
}
