import {
  commands,
  Disposable,
  type ExtensionContext,
  type Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  ANALYSED_NOTIFICATION,
  type AnalysedParams,
  type BenchSection,
  type BenchSectionName,
  LANGUAGE_ID,
} from '../../../../server/src/lsp/protocol.ts';
import { activateExport, savePicture } from './export.ts';
import type { BaseChoice, FromView, ToView, ViewState } from './messages.ts';
import { createPreviewPanel, type PreviewPanel, type ShownSubject, VIEW_TYPE, viewOptions } from './preview-panel.ts';

/** For tests: what the preview shows, and what a click in it does. */
export interface PreviewInterface {
  /** The last drawing that was sent to the open preview. */
  shown(): Extract<ToView, { type: 'drawing' }> | undefined;
  /** The last of the sections that follow it. */
  section<N extends BenchSectionName>(name: N): Extract<BenchSection, { section: N }> | undefined;
  /** As if the view had sent it. */
  receive(message: FromView): Promise<void>;
}

/** For other features: the one bench view. */
export interface PreviewControl extends PreviewInterface {
  /** Compares the file shown, or `target` where it is named; opens the view where it is not open. */
  compare(choice: BaseChoice, target: Uri | undefined): Promise<void>;
  endComparison(): Promise<void>;
  subject(): ShownSubject | undefined;
  /** Lets the view paint its drawing; the picture is then saved. */
  paint(): void;
}

/** The bench beside the editor: one panel that follows the pickup one works on. */
export function activatePreview(context: ExtensionContext, client: BaseLanguageClient): PreviewControl {
  let panel: PreviewPanel | undefined;
  const adopt = (webview: WebviewPanel, state: ViewState): PreviewPanel => {
    const { extensionUri } = context;
    const adopted = createPreviewPanel(webview, { client, extensionUri, state, savePicture });
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
      'Bench',
      { viewColumn: column, preserveFocus: true },
      viewOptions(context.extensionUri),
    );
    await adopt(webview, state).follow(window.activeTextEditor);
  };
  const control: PreviewControl = {
    shown: () => panel?.shown(),
    section: (name) => panel?.section(name),
    receive: async (message) => panel?.receive(message),
    subject: () => panel?.subject(),
    paint: () => panel?.paint(),
    compare: async (choice, target) => {
      if (target !== undefined && target.toString() !== window.activeTextEditor?.document.uri.toString()) {
        await window.showTextDocument(target, { viewColumn: ViewColumn.One, preserveFocus: false });
      }
      if (panel === undefined || window.activeTextEditor?.document.languageId === LANGUAGE_ID) {
        await open(ViewColumn.Beside);
      }
      await panel?.compare(choice);
    },
    endComparison: async () => panel?.compare(undefined),
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
    activateExport(control, client),
    Disposable.from({ dispose: () => panel?.dispose() }),
  );
  return control;
}

const followsEditor = (): boolean =>
  workspace.getConfiguration('pickup').get<unknown>('preview.followEditor') !== false;

/** A view of an older version of this extension may have remembered anything. */
function stateFrom(state: unknown): ViewState {
  const { uri, subject, position, pots, base }: { readonly [key in keyof ViewState]?: unknown } = Object(state ?? {});
  const { kind, name }: { kind?: unknown; name?: unknown } = Object(subject ?? {});
  const { volume, tone }: { volume?: unknown; tone?: unknown } = Object(pots ?? {});
  const remembered = baseFrom(base);
  return {
    uri: typeof uri === 'string' ? uri : '',
    ...((kind === 'pickup' || kind === 'instrument') && typeof name === 'string' ? { subject: { kind, name } } : {}),
    ...(typeof position === 'string' ? { position } : {}),
    ...(typeof volume === 'number' && typeof tone === 'number' ? { pots: { volume, tone } } : {}),
    ...(remembered === undefined ? {} : { base: remembered }),
  };
}

function baseFrom(base: unknown): BaseChoice | undefined {
  const { kind, revision, uri }: { kind?: unknown; revision?: unknown; uri?: unknown } = Object(base ?? {});
  if (kind === 'revision' && typeof revision === 'string') return { kind, revision };
  return kind === 'file' && typeof uri === 'string' ? { kind, uri } : undefined;
}
