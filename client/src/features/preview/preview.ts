import { commands, Disposable, type ExtensionContext, ViewColumn, type WebviewPanel, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { ANALYSED_NOTIFICATION, type AnalysedParams, LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';
import type { FromView, ToView, ViewState } from './messages.ts';
import { createPreviewPanel, type PreviewPanel, VIEW_TYPE, viewOptions } from './preview-panel.ts';

/** For tests: what the preview shows, and what a click in it does. */
export interface PreviewInterface {
  /** The last thing that was sent to the open preview. */
  shown(): Extract<ToView, { type: 'drawing' }> | undefined;
  /** As if the view had sent it. */
  receive(message: FromView): Promise<void>;
}

/** The bench beside the editor: one panel that follows the pickup one works on. */
export function activatePreview(context: ExtensionContext, client: BaseLanguageClient): PreviewInterface {
  let panel: PreviewPanel | undefined;
  const adopt = (webview: WebviewPanel, state: ViewState): PreviewPanel => {
    const adopted = createPreviewPanel(webview, { client, extensionUri: context.extensionUri, state });
    panel = adopted;
    webview.onDidDispose(() => {
      if (panel === adopted) panel = undefined;
    });
    return adopted;
  };
  const open = async (column: ViewColumn): Promise<void> => {
    const document = window.activeTextEditor?.document;
    if (document?.languageId !== LANGUAGE_ID) return;
    const state = { uri: document.uri.toString() };
    if (panel) {
      panel.reveal(column);
      return panel.follow(window.activeTextEditor);
    }
    const webview = window.createWebviewPanel(
      VIEW_TYPE,
      'Wiring',
      { viewColumn: column, preserveFocus: true },
      viewOptions(context.extensionUri),
    );
    await adopt(webview, state).follow(window.activeTextEditor);
  };
  context.subscriptions.push(
    commands.registerCommand('pickup.openPreview', () => open(ViewColumn.Active)),
    commands.registerCommand('pickup.openPreviewToSide', () => open(ViewColumn.Beside)),
    commands.registerCommand('pickup.refreshPreview', () => panel?.refresh()),
    window.registerWebviewPanelSerializer(VIEW_TYPE, {
      deserializeWebviewPanel: async (webview, state: unknown) => {
        webview.webview.options = viewOptions(context.extensionUri);
        await adopt(webview, stateFrom(state)).refresh();
      },
    }),
    window.onDidChangeActiveTextEditor((editor) => {
      if (followsEditor()) void panel?.follow(editor);
    }),
    window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (followsEditor()) panel?.cursorMoved(textEditor);
    }),
    workspace.onDidCloseTextDocument((document) => panel?.closed(document.uri)),
    client.onNotification(ANALYSED_NOTIFICATION, ({ uri }: AnalysedParams) => panel?.analysed(uri)),
    Disposable.from({ dispose: () => panel?.dispose() }),
  );
  return {
    shown: () => panel?.shown(),
    receive: async (message) => panel?.receive(message),
  };
}

const followsEditor = (): boolean =>
  workspace.getConfiguration('pickup').get<unknown>('preview.followEditor') !== false;

/** A view of an older version of this extension may have remembered anything. */
function stateFrom(state: unknown): ViewState {
  const { uri, name }: { uri?: unknown; name?: unknown } = Object(state ?? {});
  return { uri: typeof uri === 'string' ? uri : '', ...(typeof name === 'string' ? { name } : {}) };
}
