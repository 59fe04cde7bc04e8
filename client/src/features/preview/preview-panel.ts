import {
  CancellationTokenSource,
  commands,
  type Position,
  Range,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewOptions,
  type WebviewPanel,
  type WebviewPanelOptions,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  DRAWING_REQUEST,
  type DrawingParams,
  type DrawingResult,
  type DrawnPart,
  LANGUAGE_ID,
  type Range as PlainRange,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import type { FromView, ToView, ViewState } from './messages.ts';
import { previewHtml } from './preview-html.ts';

export const VIEW_TYPE = 'pickup.bench';

/** Scripts and styles from our own folder, nothing else; the view is rebuilt when it comes back into sight. */
export const viewOptions = (extensionUri: Uri): WebviewOptions & WebviewPanelOptions => ({
  enableScripts: true,
  enableFindWidget: true,
  localResourceRoots: [Uri.joinPath(extensionUri, 'dist/client')],
});

export interface PreviewPanel {
  reveal(column: ViewColumn): void;
  /** Shows the pickup that the editor's cursor is in. */
  follow(editor: TextEditor | undefined): Promise<void>;
  cursorMoved(editor: TextEditor): void;
  /** The findings of this version of a file are out: its drawing may have changed. */
  analysed(uri: string): void;
  closed(uri: Uri): void;
  refresh(): Promise<void>;
  receive(message: FromView): Promise<void>;
  shown(): Extract<ToView, { type: 'drawing' }> | undefined;
  dispose(): void;
}

interface PanelSources {
  readonly client: BaseLanguageClient;
  readonly extensionUri: Uri;
  readonly state: ViewState;
}

/** A short rest after typing, so that the drawing never stands in the way of the next keystroke's findings. */
const REST_MS = 80;

export function createPreviewPanel(panel: WebviewPanel, { client, extensionUri, state }: PanelSources): PreviewPanel {
  let uri = state.uri;
  let name = state.name;
  let width = 960;
  let renders = 0;
  let inFlight: CancellationTokenSource | undefined;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let isReady = false;
  let last: { readonly result: DrawingResult; readonly message: Extract<ToView, { type: 'drawing' }> } | undefined;

  const post = (message: ToView): void => {
    if (isReady) void panel.webview.postMessage(message);
  };
  /** Asks for a drawing. A newer wish ends the older one; what comes too late is dropped. */
  const render = async (position?: Position): Promise<void> => {
    clearTimeout(resting);
    if (uri === '') return;
    // What is not on screen is not drawn; coming into sight, the view reports that it is ready.
    if (!panel.visible || !isReady) return;
    inFlight?.cancel();
    const source = new CancellationTokenSource();
    inFlight = source;
    renders += 1;
    const render = renders;
    const params: DrawingParams = {
      protocol: PROTOCOL_VERSION,
      uri,
      width,
      ...(name === undefined ? {} : { name }),
      ...(position === undefined ? {} : { position: { line: position.line, character: position.character } }),
    };
    try {
      const result = await client.sendRequest<DrawingResult | null>(DRAWING_REQUEST, params, source.token);
      if (render !== renders) return;
      if (result === null) post({ type: 'failed', message: 'This file could not be drawn. The log says why.' });
      else show(result, render);
    } catch {
      // A cancelled request lands here too: then a newer one is on its way.
      if (render === renders) post({ type: 'failed', message: 'The server does not answer. The drawing may be old.' });
    } finally {
      source.dispose();
      if (inFlight === source) inFlight = undefined;
    }
  };
  const show = (result: DrawingResult, render: number): void => {
    // The pickup that is shown no longer reads: its last drawing stays, and the bar says which line.
    const isGone = result.svg === undefined && result.broken !== undefined && last?.result.uri === result.uri;
    const kept = isGone && last ? { ...last.result, broken: result.broken, findings: result.findings } : result;
    if (kept.name !== undefined) name = kept.name;
    panel.title = kept.title === undefined ? 'Wiring' : `Wiring: ${kept.title}`;
    const { svg, pickups, joints, findings, broken, title } = kept;
    const message = {
      type: 'drawing' as const,
      render,
      part: partAtCursor(kept),
      drawing: {
        uri,
        file: fileName(uri),
        name,
        title,
        svg,
        parts: kept.parts.map(({ id }) => id),
        pickups: pickups.map((each) => ({ name: each.name, title: each.title })),
        joints,
        findings,
        broken,
      },
    };
    last = { result: kept, message };
    post(message);
  };
  const editorOf = (): TextEditor | undefined =>
    window.visibleTextEditors.find(({ document }) => document.uri.toString() === uri);
  const partAtCursor = (result: DrawingResult): string | undefined => {
    const editor = editorOf();
    return editor && partAt(result.parts, editor.selection.active);
  };
  const goTo = async (range: PlainRange): Promise<void> => {
    const document = await workspace.openTextDocument(Uri.parse(uri));
    const column = editorOf()?.viewColumn ?? (panel.viewColumn === ViewColumn.One ? ViewColumn.Two : ViewColumn.One);
    const { start, end } = range;
    const selection = new Range(start.line, start.character, end.line, end.character);
    const editor = await window.showTextDocument(document, { viewColumn: column, selection });
    editor.revealRange(selection, TextEditorRevealType.InCenterIfOutsideViewport);
  };
  const receive = async (message: FromView): Promise<void> => {
    switch (message.type) {
      case 'ready':
        isReady = true;
        width = message.width;
        if (last) post(last.message);
        return render(name === undefined ? editorOf()?.selection.active : undefined);
      case 'resized':
        width = message.width;
        return render();
      case 'reveal': {
        const part = last?.result.parts.find(({ id }) => id === message.part);
        return part && goTo(part.range);
      }
      case 'reveal line': {
        const at = { line: message.line, character: 0 };
        return goTo({ start: at, end: at });
      }
      case 'explain':
        await commands.executeCommand('pickup.explainFinding', message.code);
        return;
      case 'choose':
        name = message.name;
        return render();
    }
  };

  panel.webview.html = previewHtml(panel.webview, extensionUri);
  const listening = [
    panel.webview.onDidReceiveMessage((message: FromView) => receive(message)),
    panel.onDidChangeViewState(() => {
      // Hidden, the view is taken down; coming back it reports again.
      if (!panel.visible) isReady = false;
    }),
  ];
  panel.onDidDispose(() => {
    clearTimeout(resting);
    inFlight?.cancel();
    for (const each of listening) each.dispose();
  });
  return {
    reveal: (column) => panel.reveal(column, true),
    follow: async (editor) => {
      if (editor?.document.languageId !== LANGUAGE_ID) return;
      const next = editor.document.uri.toString();
      if (next !== uri) {
        uri = next;
        name = undefined;
      }
      await render(editor.selection.active);
    },
    cursorMoved: (editor) => {
      if (editor.document.uri.toString() !== uri || last === undefined) return;
      const { active } = editor.selection;
      const around = last.result.pickups.find(({ range }) => holds(range, active));
      if (around && around.name !== name) void render(active);
      else post({ type: 'highlight', part: partAt(last.result.parts, active) });
    },
    analysed: (analysedUri) => {
      if (analysedUri !== uri) return;
      clearTimeout(resting);
      resting = setTimeout(() => void render(), REST_MS);
    },
    closed: (closedUri) => {
      if (closedUri.toString() !== uri) return;
      clearTimeout(resting);
      post({ type: 'failed', message: `${fileName(uri)} is closed. The drawing shows it as it was.` });
    },
    refresh: () => render(),
    receive,
    shown: () => last?.message,
    dispose: () => panel.dispose(),
  };
}

/** The smallest part around a position. */
function partAt(parts: readonly DrawnPart[], at: Position): string | undefined {
  const around = parts.filter(({ range }) => holds(range, at));
  return around.sort((a, b) => sizeOf(a.range) - sizeOf(b.range))[0]?.id;
}

const sizeOf = ({ start, end }: PlainRange): number =>
  (end.line - start.line) * 10_000 + end.character - start.character;

function holds({ start, end }: PlainRange, { line, character }: Position): boolean {
  if (line < start.line || line > end.line) return false;
  return (line > start.line || character >= start.character) && (line < end.line || character <= end.character);
}

const fileName = (uri: string): string => Uri.parse(uri).path.split('/').at(-1) ?? uri;
