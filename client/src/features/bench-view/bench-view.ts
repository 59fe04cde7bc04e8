import {
  commands,
  Disposable,
  EventEmitter,
  type ExtensionContext,
  Selection,
  Uri,
  ViewColumn,
  type WebviewPanel,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { LANGUAGE_ID } from '../../../../server/src/lsp/protocol.ts';
import type { OnDidAnalyse } from '../analysed.ts';
import { setContextKey } from '../context-keys.ts';
import type { BenchViewControl } from './bench-view-control.ts';
import { BenchViewPanel, VIEW_TYPE, viewOptions } from './bench-view-panel.ts';
import { activateExport, savePicture } from './export.ts';
import { isKind, potsIn } from './from-view.ts';
import type { BaseChoice, ShownDrawing, ViewState } from './messages.ts';

/** The bench beside the editor: one panel that follows the pickup one works on. */
export function activateBenchView(
  context: ExtensionContext,
  client: BaseLanguageClient,
  onDidAnalyse: OnDidAnalyse,
): BenchViewControl {
  const drawn = new EventEmitter<ShownDrawing>();
  let panel: BenchViewPanel | undefined;
  const adopt = (webview: WebviewPanel, state: ViewState): BenchViewPanel => {
    const { extensionUri } = context;
    const adopted = new BenchViewPanel(webview, {
      client,
      extensionUri,
      state,
      savePicture,
      drawn: (drawing) => {
        tellState(drawing);
        drawn.fire(drawing);
      },
    });
    panel = adopted;
    setContextKey('pickup.benchView.open', true);
    webview.onDidDispose(() => {
      if (panel !== adopted) return;
      panel = undefined;
      setContextKey('pickup.benchView.open', false);
      tellState(undefined);
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
  const control: BenchViewControl = {
    onDidDraw: drawn.event,
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
    commands.registerCommand('pickup.openBenchView', async (target?: unknown) => {
      // From the list of files, where the file need not be in front.
      if (target instanceof Uri) await window.showTextDocument(target);
      await open(ViewColumn.Active);
    }),
    commands.registerCommand('pickup.openBenchViewToSide', (line?: unknown) => {
      goToLine(line);
      return open(ViewColumn.Beside);
    }),
    commands.registerCommand('pickup.refreshBenchView', () => panel?.refresh()),
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
    onDidAnalyse((analysed) => panel?.analysed(analysed)),
    drawn,
    activateExport(control, client),
    Disposable.from({ dispose: () => panel?.dispose() }),
  );
  return control;
}

/** What the commands of the view ask for. */
function tellState(drawing: ShownDrawing | undefined): void {
  setContextKey('pickup.benchView.drawn', drawing?.svg !== undefined);
  setContextKey('pickup.benchView.compared', drawing?.base !== undefined);
}

/** The view shows what the cursor is in; menus give other things than a line. */
function goToLine(line: unknown): void {
  const editor = window.activeTextEditor;
  if (editor && typeof line === 'number') editor.selection = new Selection(line, 0, line, 0);
}

const followsEditor = (): boolean =>
  workspace.getConfiguration('pickup').get<unknown>('benchView.followEditor') !== false;

/** A view of an older version of this extension may have remembered anything. */
function stateFrom(state: unknown): ViewState {
  const { uri, subject, position, pots, base }: { readonly [key in keyof ViewState]?: unknown } = Object(state ?? {});
  const { kind, name }: { kind?: unknown; name?: unknown } = Object(subject ?? {});
  return {
    uri: typeof uri === 'string' ? uri : '',
    subject: isKind(kind) && typeof name === 'string' ? { kind, name } : undefined,
    position: typeof position === 'string' ? position : undefined,
    pots: potsIn(pots),
    base: baseFrom(base),
  };
}

function baseFrom(base: unknown): BaseChoice | undefined {
  const { kind, revision, uri }: { kind?: unknown; revision?: unknown; uri?: unknown } = Object(base ?? {});
  if (kind === 'revision' && typeof revision === 'string') return { kind, revision };
  return kind === 'file' && typeof uri === 'string' ? { kind, uri } : undefined;
}
