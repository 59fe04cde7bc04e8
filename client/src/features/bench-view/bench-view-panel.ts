import {
  type CancellationToken,
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
  SECTION_REQUEST,
  SECTIONS,
  type Section,
  type SectionName,
  type SectionParams,
  type SectionResult,
  SOUND_REQUEST,
  type SoundParams,
  type SoundResult,
  type Subject,
} from '../../../../server/src/lsp/protocol.ts';
import { createComparedBase } from '../compare/compared-base.ts';
import { benchViewHtml } from './bench-view-html.ts';
import { fromView } from './from-view.ts';
import type { BaseChoice, FromView, ToView, ViewState } from './messages.ts';
import { createSectionFeed } from './section-feed.ts';

export const VIEW_TYPE = 'pickup.benchView';

/** Scripts and styles from our own folder, nothing else; the view is rebuilt when it comes back into sight. */
export const viewOptions = (extensionUri: Uri): WebviewOptions & WebviewPanelOptions => ({
  enableScripts: true,
  enableFindWidget: true,
  localResourceRoots: [Uri.joinPath(extensionUri, 'dist/client')],
});

type DrawingMessage = Extract<ToView, { type: 'drawing' }>;

export interface BenchViewPanel {
  reveal(column: ViewColumn): void;
  /** Shows the pickup that the editor's cursor is in. */
  follow(editor: TextEditor | undefined): Promise<void>;
  cursorMoved(editor: TextEditor): void;
  /** The findings of this version of a file are out: its drawing may have changed. */
  analysed(uri: string): void;
  closed(uri: Uri): void;
  refresh(): Promise<void>;
  compare(choice: BaseChoice | undefined): Promise<void>;
  receive(message: FromView): Promise<void>;
  shown(): DrawingMessage | undefined;
  section<N extends SectionName>(name: N): Extract<Section, { section: N }> | undefined;
  /** What a saved picture or page is made of. */
  subject(): ShownSubject | undefined;
  paint(): void;
  dispose(): void;
}

/** What is shown, as the server is asked for it. */
export type ShownSubject = Pick<SectionParams, 'uri' | 'subject' | 'position' | 'pots' | 'base'>;

interface PanelSources {
  readonly client: BaseLanguageClient;
  readonly extensionUri: Uri;
  readonly state: ViewState;
  readonly savePicture: (png: string, name: string) => Promise<void>;
}

/** A short rest after typing, so that the drawing never stands in the way of the next keystroke's findings. */
const REST_MS = 80;
/** The schematic of an instrument tells what each position gives: it takes longer. */
const INSTRUMENT_REST_MS = 250;
/** A longer one before what takes the server some tens of milliseconds. */
const HEAVY_REST_MS = 150;
const HEAVY: readonly SectionName[] = ['numbers', 'response', 'positions'];
/** What turning a pot or a switch changes. */
const HEARD: readonly SectionName[] = ['numbers', 'response', 'positions'];

export function createBenchViewPanel(panel: WebviewPanel, sources: PanelSources): BenchViewPanel {
  const { client, extensionUri, state, savePicture } = sources;
  let { uri, subject, position } = state;
  let pots = state.pots ?? { volume: 10, tone: 10 };
  let width = 960;
  let renders = 0;
  let drawnAt = 0;
  let inFlight: CancellationTokenSource | undefined;
  let resting: ReturnType<typeof setTimeout> | undefined;
  let isReady = false;
  let last: { readonly result: DrawingResult; readonly message: DrawingMessage } | undefined;
  const sections = new Map<SectionName, Section>();
  const base = createComparedBase(state.base, () => void render());

  const post = (message: ToView): void => {
    if (isReady) void panel.webview.postMessage(message);
  };
  const shownSubject = (): ShownSubject | undefined => {
    const drawn = last?.result.subject;
    const compared = base.state();
    return (
      drawn && {
        uri,
        subject: drawn,
        pots,
        ...(position === undefined ? {} : { position }),
        ...(compared === undefined ? {} : { base: compared }),
      }
    );
  };
  const feed = createSectionFeed({
    order: SECTIONS,
    restMs: (name) => (HEAVY.includes(name) ? Math.max(0, drawnAt + HEAVY_REST_MS - Date.now()) : 0),
    fetch: async (section, token) => {
      const asked = shownSubject();
      if (asked === undefined || !panel.visible || !isReady) return undefined;
      const params: SectionParams = { protocol: PROTOCOL_VERSION, section, width, ...asked };
      const result = await client.sendRequest<SectionResult | null>(SECTION_REQUEST, params, token);
      return result?.content;
    },
    deliver: (content) => {
      sections.set(content.section, content);
      post({ type: 'section', render: renders, content });
      if (content.section === 'comparison') base.uses(content.uses);
    },
  });
  const wantSections = (names: readonly SectionName[]): void => {
    const isHeard = (last?.result.positions.length ?? 0) > 0 && position !== undefined;
    feed.want(
      names.filter((name) =>
        name === 'comparison' ? base.state() !== undefined : name === 'positions' ? isHeard : true,
      ),
    );
  };
  /** Asks for a drawing. A newer wish ends the older one; what comes too late is dropped. */
  const render = async (cursor?: Position): Promise<void> => {
    clearTimeout(resting);
    if (uri === '') return;
    // What is not on screen is not drawn; coming into sight, the view reports that it is ready.
    if (!panel.visible || !isReady) return;
    inFlight?.cancel();
    feed.stop();
    const source = new CancellationTokenSource();
    inFlight = source;
    renders += 1;
    const render = renders;
    try {
      const result = await drawing(source.token, cursor);
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
  const drawing = (token: CancellationToken, cursor: Position | undefined): Promise<DrawingResult | null> => {
    const params: DrawingParams = {
      protocol: PROTOCOL_VERSION,
      uri,
      width,
      pots,
      ...(subject === undefined ? {} : { subject }),
      ...(position === undefined ? {} : { position }),
      ...(cursor === undefined ? {} : { cursor: { line: cursor.line, character: cursor.character } }),
    };
    return client.sendRequest<DrawingResult | null>(DRAWING_REQUEST, params, token);
  };
  const show = (result: DrawingResult, render: number): void => {
    // What is shown no longer reads: its last drawing stays, and the bar says which line.
    const isGone = result.subject === undefined && result.broken !== undefined && last?.result.uri === result.uri;
    const kept = isGone && last ? { ...last.result, broken: result.broken, findings: result.findings } : result;
    if (kept.subject !== undefined) {
      if (!sameSubject(last?.result.subject, kept.subject)) sections.clear();
      subject = kept.subject;
      position = kept.position;
    }
    panel.title = kept.title === undefined ? 'Bench' : `Bench: ${kept.title}`;
    const message: DrawingMessage = { type: 'drawing', render, part: partAtCursor(kept), drawing: shownFrom(kept) };
    last = { result: kept, message };
    drawnAt = Date.now();
    post(message);
    if (!isGone) wantSections(SECTIONS);
  };
  const shownFrom = (result: DrawingResult): DrawingMessage['drawing'] => ({
    uri,
    file: fileName(uri),
    subject: result.subject,
    title: result.title,
    svg: result.svg,
    subjects: result.subjects.map(({ kind, name, title }) => ({ kind, name, title })),
    parts: result.parts.map(({ id }) => id),
    table: result.table,
    findings: result.findings,
    broken: result.broken,
    positions: result.positions,
    position: result.position,
    hasPots: result.positions.some(({ id, hasPots }) => id === result.position && hasPots),
    pots,
    comparedWith: base.state()?.label,
    base: base.choice(),
  });
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
  const compare = async (choice: BaseChoice | undefined): Promise<void> => {
    const why = await base.choose(choice, uri);
    if (why !== undefined) void window.showWarningMessage(why);
    await render();
  };
  let plucks = 0;
  /** Of several plucks in a row only the last is heard. */
  const pluck = async (frequencyHz: number): Promise<void> => {
    const asked = shownSubject();
    if (asked === undefined) return;
    plucks += 1;
    const mine = plucks;
    const params: SoundParams = { protocol: PROTOCOL_VERSION, ...asked, frequencyHz };
    const sound = await client.sendRequest<SoundResult>(SOUND_REQUEST, params).catch(() => undefined);
    if (sound !== undefined && mine === plucks) post({ type: 'sound', sound });
  };
  const receive = async (message: FromView): Promise<void> => {
    switch (message.type) {
      case 'ready':
        isReady = true;
        width = message.width;
        if (last) {
          post(last.message);
          for (const content of sections.values()) post({ type: 'section', render: last.message.render, content });
        }
        await base.read(uri);
        return render(subject === undefined ? editorOf()?.selection.active : undefined);
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
        subject = message.subject;
        position = undefined;
        return render();
      case 'position':
        position = message.position;
        return render();
      case 'pots':
        pots = message.pots;
        if (last) last = { ...last, message: { ...last.message, drawing: { ...last.message.drawing, pots } } };
        wantSections(HEARD);
        return;
      case 'sound':
        return pluck(message.frequencyHz);
      case 'command':
        await commands.executeCommand(`pickup.${message.command}`);
        return;
      case 'picture':
        return savePicture(message.png, subject?.name ?? 'drawing');
    }
  };

  panel.webview.html = benchViewHtml(panel.webview, extensionUri);
  const listening = [
    base,
    panel.webview.onDidReceiveMessage((said: unknown) => {
      const message = fromView(said);
      return message && receive(message);
    }),
    panel.onDidChangeViewState(() => {
      // Hidden, the view is taken down; coming back it reports again.
      if (!panel.visible) isReady = false;
    }),
  ];
  panel.onDidDispose(() => {
    clearTimeout(resting);
    inFlight?.cancel();
    feed.stop();
    for (const each of listening) each.dispose();
  });
  return {
    reveal: (column) => panel.reveal(column, true),
    follow: async (editor) => {
      if (editor?.document.languageId !== LANGUAGE_ID) return;
      const next = editor.document.uri.toString();
      if (next !== uri) {
        uri = next;
        subject = undefined;
        position = undefined;
        await base.followed(uri);
      }
      await render(editor.selection.active);
    },
    cursorMoved: (editor) => {
      if (editor.document.uri.toString() !== uri || last === undefined) return;
      const { active } = editor.selection;
      const around = last.result.subjects.find(({ range }) => holds(range, active));
      if (around && !sameSubject(around, subject)) void render(active);
      else post({ type: 'highlight', part: partAt(last.result.parts, active) });
    },
    analysed: (analysedUri) => {
      if (analysedUri !== uri) return;
      clearTimeout(resting);
      resting = setTimeout(() => void render(), subject?.kind === 'instrument' ? INSTRUMENT_REST_MS : REST_MS);
    },
    closed: (closedUri) => {
      if (closedUri.toString() !== uri) return;
      clearTimeout(resting);
      post({ type: 'failed', message: `${fileName(uri)} is closed. The drawing shows it as it was.` });
    },
    refresh: async () => {
      await base.read(uri);
      await render();
    },
    compare,
    receive,
    shown: () => last?.message,
    section: <N extends SectionName>(name: N) => {
      const content = sections.get(name);
      return content?.section === name ? (content as Extract<Section, { section: N }>) : undefined;
    },
    subject: shownSubject,
    paint: () => post({ type: 'paint' }),
    dispose: () => panel.dispose(),
  };
}

const sameSubject = (a: Subject | undefined, b: Subject | undefined): boolean =>
  a?.kind === b?.kind && a?.name === b?.name;

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
