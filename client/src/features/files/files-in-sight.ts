import { type Disposable, window } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import {
  IN_SIGHT_NOTIFICATION,
  type InSightParams,
  LANGUAGE_ID,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';

/** Tells the server which specs stand in an editor that is shown. */
export function activateFilesInSight(client: BaseLanguageClient): Disposable {
  const tell = (): void => {
    if (client.state !== State.Running) return;
    const shown = window.visibleTextEditors.filter(({ document }) => document.languageId === LANGUAGE_ID);
    const params: InSightParams = {
      protocol: PROTOCOL_VERSION,
      uris: shown.map(({ document }) => document.uri.toString()),
    };
    client.sendNotification(IN_SIGHT_NOTIFICATION, params).catch(() => undefined);
  };
  const listening = [window.onDidChangeVisibleTextEditors(tell), client.onDidChangeState(tell)];
  return {
    dispose: () => {
      for (const each of listening) each.dispose();
    },
  };
}
