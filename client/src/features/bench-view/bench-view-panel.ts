import {
  type CancellationToken,
  commands,
  type Position,
  Range,
  SnippetString,
  type TextEditor,
  TextEditorRevealType,
  Uri,
  ViewColumn,
  type WebviewOptions,
  type WebviewPanel,
  type WebviewPanelOptions,
  WorkspaceEdit,
  window,
  workspace,
} from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type AnalysedParams,
  DRAWING_REQUEST,
  type DrawingParams,
  type DrawingResult,
  LANGUAGE_ID,
  type Range as PlainRange,
  type Pots,
  PROTOCOL_VERSION,
  SECTION_NAMES,
  SECTION_REQUEST,
  SECTIONS,
  type Section,
  type SectionName,
  type SectionParams,
  type SectionResult,
  type Settings,
  SOUND_REQUEST,
  type SoundParams,
  type SoundResult,
  type Subject,
  WHAT_IF_REQUEST,
  type WhatIfParams,
  type WhatIfResult,
  type WhatIfState,
} from '../../../../server/src/lsp/protocol.ts';
import { type ComparedBase, createComparedBase } from '../compare/compared-base.ts';
import { fileName } from '../files/file-choice.ts';
import { specFiles } from '../files/spec-files.ts';
import { pageHtml, pageOptions, tabIcon } from '../page-html.ts';
import { t } from '../words.ts';
import { DrawingFeed } from './drawing-feed.ts';
import { holds, partAt, sameSubject } from './drawn-places.ts';
import { fromView } from './from-view.ts';
import type { BaseChoice, FromView, ToView, ViewState } from './messages.ts';
import { createSectionFeed, type SectionFeed } from './section-feed.ts';

export const VIEW_TYPE = 'pickup.benchView';

/** Scripts and styles from our own folder, photographs from the workspace; the view is rebuilt when it comes back into sight. */
export const viewOptions = (extensionUri: Uri): WebviewOptions & WebviewPanelOptions => ({
  ...pageOptions(extensionUri, ...(workspace.workspaceFolders ?? []).map(({ uri }) => uri)),
  enableFindWidget: true,
});

export type DrawingMessage = Extract<ToView, { type: 'drawing' }>;

/** What is shown, as the server is asked for it. */
export type ShownSubject = Pick<SectionParams, 'uri' | 'subject' | 'position' | 'pots' | 'base' | 'among'>;

interface PanelSources {
  readonly client: BaseLanguageClient;
  readonly extensionUri: Uri;
  readonly state: ViewState;
  readonly savePicture: (png: string, name: string) => Promise<void>;
  readonly drawn: (drawing: DrawingMessage['drawing']) => void;
}

/** What the view is about. */
interface Focus {
  readonly uri: string;
  readonly subject: Subject | undefined;
  readonly position: string | undefined;
  readonly pots: Pots;
}

/** A rest before what takes the server some tens of milliseconds, so that a typist's findings go first. */
const HEAVY_REST_MS = 150;
/** For a hand on a pot, whose schematic tells what each position gives. */
const POTS_REST_MS = 250;

/** How the drawing of an instrument calls a position, with its key behind. */
const POSITION_PART = 'position:';

const outside = (): string => t('Its folder is not open: the hover over its line shows it.');

/** The one panel of the bench view: what it is about, what it shows, and what becomes of what its page says. */
export class BenchViewPanel {
  private readonly panel: WebviewPanel;
  private readonly sources: PanelSources;
  private readonly base: ComparedBase;
  private readonly drawings: DrawingFeed;
  private readonly feed: SectionFeed;
  private focus: Focus;
  private width = 960;
  private isReady = false;
  private drawnAt = 0;
  private plucks = 0;
  private whatIfs = 0;
  private whatIf: WhatIfState | undefined;
  private paintsWhenReady = false;
  /** Files that may use the parts shown. */
  private among: readonly string[] = [];
  private last: { readonly result: DrawingResult; readonly message: DrawingMessage } | undefined;
  private sections: { [N in SectionName]?: Section<N> } = {};

  constructor(panel: WebviewPanel, sources: PanelSources) {
    const { uri, subject, position, pots = {}, base } = sources.state;
    this.panel = panel;
    this.sources = sources;
    this.focus = { uri, subject, position, pots };
    this.base = createComparedBase(base, () => void this.render());
    this.drawings = new DrawingFeed({
      fetch: (token, cursor) => this.fetchDrawing(token, cursor),
      show: (result) => this.show(result),
      failed: (message) => this.post({ type: 'failed', message }),
    });
    this.feed = createSectionFeed({
      order: SECTION_NAMES,
      restMs: (name) => (SECTIONS[name].isHeavy ? Math.max(0, this.drawnAt + HEAVY_REST_MS - Date.now()) : 0),
      fetch: (section, token) => this.fetchSection(section, token),
      deliver: (content) => this.keepSection(content),
    });
    panel.iconPath = tabIcon(sources.extensionUri, 'bench');
    panel.webview.html = pageHtml(panel.webview, sources.extensionUri, { title: t('Bench'), script: 'webview.js' });
    const listening = [
      this.base,
      panel.webview.onDidReceiveMessage((said: unknown) => {
        const message = fromView(said);
        return message && this.receive(message);
      }),
      panel.onDidChangeViewState(() => {
        // Hidden, the view is taken down; coming back it reports again.
        if (!panel.visible) this.isReady = false;
      }),
    ];
    panel.onDidDispose(() => {
      // What still comes would ask a panel that is gone, which throws.
      this.isReady = false;
      this.drawings.stop();
      this.feed.stop();
      for (const each of listening) each.dispose();
    });
  }

  reveal(column: ViewColumn): void {
    this.panel.reveal(column, true);
  }

  /** Shows the pickup that the editor's cursor is in. */
  async follow(editor: TextEditor | undefined): Promise<void> {
    if (editor?.document.languageId !== LANGUAGE_ID) return;
    const uri = editor.document.uri.toString();
    if (uri !== this.focus.uri) {
      this.focus = { ...this.focus, uri, subject: undefined, position: undefined };
      await this.base.followed(uri);
    }
    await this.render(editor.selection.active);
  }

  cursorMoved(editor: TextEditor): void {
    const { focus, last } = this;
    if (editor.document.uri.toString() !== focus.uri || last === undefined) return;
    const { active } = editor.selection;
    const around = last.result.subjects.find(({ ranges }) => ranges.some((range) => holds(range, active)));
    if (around && !sameSubject(around, focus.subject)) void this.render(active);
    else {
      const onLine = last.result.parts.find(({ id, range: { start, end } }) => {
        return id.startsWith(POSITION_PART) && start.line <= active.line && active.line <= end.line;
      });
      if (!this.switchedTo(onLine?.id)) this.post({ type: 'highlight', part: partAt(last.result.parts, active) });
    }
  }

  /** Of an instrument: the position that the part stands for is shown, where it is another than the one at hand. */
  private switchedTo(part: string | undefined): boolean {
    const { subject, position } = this.focus;
    const key = part?.startsWith(POSITION_PART) ? part.slice(POSITION_PART.length) : undefined;
    if (subject?.kind !== 'instrument' || key === undefined) return false;
    const id = `${subject.name}/${key}`;
    if (id === position || !this.last?.result.positions.some((each) => each.id === id)) return false;
    this.focus = { ...this.focus, position: id };
    void this.render();
    return true;
  }

  /** The findings of this version of a file are out: its drawing may have changed. */
  analysed({ uri, version, isNews }: AnalysedParams): void {
    if (uri !== this.focus.uri || (!isNews && version === this.last?.result.version)) return;
    this.drawings.whenRested(() => void this.render());
  }

  closed(uri: Uri): void {
    if (uri.toString() !== this.focus.uri) return;
    this.drawings.forgetRest();
    this.post({
      type: 'failed',
      message: t('{0} is closed. The drawing shows it as it was.', fileName(this.focus.uri)),
    });
  }

  async refresh(): Promise<void> {
    await this.base.read(this.focus.uri);
    await this.render();
  }

  async compare(choice: BaseChoice | undefined): Promise<void> {
    const why = await this.base.choose(choice, this.focus.uri);
    if (why !== undefined) void window.showWarningMessage(why);
    await this.render();
  }

  async receive(message: FromView): Promise<void> {
    switch (message.type) {
      case 'ready':
        return this.pageReady(message.width);
      case 'resized':
        this.width = message.width;
        return this.render();
      case 'reveal': {
        const part = this.last?.result.parts.find(({ id }) => id === message.part);
        this.switchedTo(message.part);
        return part && this.goTo(part.range);
      }
      case 'reveal line': {
        const at = { line: message.line, character: 0 };
        return this.goTo({ start: at, end: at });
      }
      case 'begin':
        return this.begin(message.index);
      case 'use build':
        return this.useBuild(message.index);
      case 'what if':
        return this.askWhatIf(message.asked, message.settings);
      case 'write what if':
        return this.writeWhatIf();
      case 'write plan':
        return this.writePlan();
      case 'explain':
        await commands.executeCommand('pickup.explainFinding', message.code);
        return;
      case 'choose':
        this.focus = { ...this.focus, subject: message.subject, position: undefined };
        return this.render();
      case 'position':
        this.focus = { ...this.focus, position: message.position };
        return this.render();
      case 'pots':
        return this.turned(message.pots);
      case 'sound':
        return this.pluck(message.frequencyHz, message.settings);
      case 'command':
        await commands.executeCommand(`pickup.${message.command}`);
        return;
      case 'picture':
        return this.sources.savePicture(message.png, this.focus.subject?.name ?? 'drawing');
    }
  }

  shown(): DrawingMessage | undefined {
    return this.last?.message;
  }

  section<N extends SectionName>(name: N): Section<N> | undefined {
    return this.sections[name];
  }

  /** What a saved picture or page is made of. */
  subject(): ShownSubject | undefined {
    const { uri, position, pots } = this.focus;
    const drawn = this.last?.result.subject;
    const base = this.base.state();
    if (drawn === undefined) return undefined;
    return {
      uri,
      subject: drawn,
      pots,
      ...(position === undefined ? {} : { position }),
      ...(base === undefined ? {} : { base }),
      ...(drawn.kind === 'parts' ? { among: this.among } : {}),
    };
  }

  /** A page that is out of sight is brought back first: only what is shown can be painted. */
  paint(): void {
    if (this.isSeen()) this.post({ type: 'paint' });
    else {
      this.paintsWhenReady = true;
      this.panel.reveal(undefined, true);
    }
  }

  dispose(): void {
    this.panel.dispose();
  }

  private post(message: ToView): void {
    if (this.isReady) void this.panel.webview.postMessage(message);
  }

  /** Asks for a drawing. What is not on screen is not drawn; coming into sight, the view reports that it is ready. */
  private async render(cursor?: Position): Promise<void> {
    this.drawings.forgetRest();
    if (this.focus.uri === '' || !this.isSeen()) return;
    this.feed.stop();
    await this.drawings.ask(cursor);
  }

  private isSeen(): boolean {
    return this.isReady && this.panel.visible;
  }

  private fetchDrawing(token: CancellationToken, cursor: Position | undefined): Promise<DrawingResult | null> {
    const { uri, subject, position, pots } = this.focus;
    const params: DrawingParams = {
      protocol: PROTOCOL_VERSION,
      uri,
      width: this.width,
      pots,
      ...(subject === undefined ? {} : { subject }),
      ...(position === undefined ? {} : { position }),
      ...(cursor === undefined ? {} : { cursor: { line: cursor.line, character: cursor.character } }),
    };
    return this.sources.client.sendRequest<DrawingResult | null>(DRAWING_REQUEST, params, token);
  }

  private show(result: DrawingResult): void {
    const before = this.last?.result;
    // What is shown no longer reads: its last drawing stays, and the bar says which line.
    const isGone = result.subject === undefined && result.broken !== undefined && before?.uri === result.uri;
    const kept = isGone
      ? { ...before, broken: result.broken, findings: result.findings, cautions: result.cautions }
      : result;
    if (before?.uri !== kept.uri || !sameSubject(before.subject, kept.subject)) this.sections = {};
    this.focus = { ...this.focus, subject: kept.subject, position: kept.position };
    this.panel.title = t('Bench: {0}', kept.title ?? fileName(kept.uri));
    const editor = this.editor();
    const message: DrawingMessage = {
      type: 'drawing',
      render: this.drawings.newest,
      part: editor && partAt(kept.parts, editor.selection.active),
      drawing: this.shownFrom(kept),
    };
    this.last = { result: kept, message };
    this.drawnAt = Date.now();
    this.post(message);
    this.sources.drawn(message.drawing);
    if (!isGone) this.want(SECTION_NAMES);
  }

  private shownFrom(result: DrawingResult): DrawingMessage['drawing'] {
    const { uri, pots } = this.focus;
    return {
      ...result,
      uri,
      file: fileName(uri),
      subjects: result.subjects.map(({ kind, name, title }) => ({ kind, name, title })),
      parts: result.parts.map(({ id }) => id),
      knobs: result.positions.find(({ id }) => id === result.position)?.knobs ?? [],
      pots,
      comparedWith: this.base.state()?.label ?? result.former,
      base: this.base.choice(),
    };
  }

  private want(names: readonly SectionName[]): void {
    const kind = this.last?.result.subject?.kind;
    const has = {
      base: this.base.state() !== undefined || this.last?.result.former !== undefined,
      position: (this.last?.result.positions.length ?? 0) > 0 && this.focus.position !== undefined,
      pickups: kind === 'pickup' || kind === 'instrument',
      parts: kind === 'parts',
    };
    this.feed.want(names.filter((name) => has[SECTIONS[name].needs]));
  }

  private async fetchSection(section: SectionName, token: CancellationToken): Promise<Section | undefined> {
    if (SECTIONS[section].needs === 'parts') this.among = await specFiles();
    const asked = this.subject();
    if (asked === undefined || !this.isSeen()) return undefined;
    const params: SectionParams = { protocol: PROTOCOL_VERSION, section, width: this.width, ...asked };
    const result = await this.sources.client.sendRequest<SectionResult | null>(SECTION_REQUEST, params, token);
    return result?.content;
  }

  private keepSection(content: Section): void {
    const shown = this.withAddresses(content);
    this.sections = { ...this.sections, [content.section]: shown };
    this.post({ type: 'section', render: this.drawings.newest, content: shown });
    if (content.section === 'comparison') this.base.uses(content.uses);
  }

  /** Photographs under the addresses that the page may ask for; what has changed on the disk has another one. */
  private withAddresses(content: Section): Section {
    if (content.section !== 'photos') return content;
    const photos = content.photos.map((photo) => {
      if (photo.uri === undefined) return photo;
      const { uri, mark, ...rest } = photo;
      const file = Uri.parse(uri);
      if (!workspace.getWorkspaceFolder(file)) return { ...rest, why: outside() };
      return {
        ...rest,
        uri: this.panel.webview
          .asWebviewUri(file)
          .with({ query: mark ?? '' })
          .toString(),
      };
    });
    return { ...content, photos };
  }

  private async pageReady(width: number): Promise<void> {
    this.isReady = true;
    this.width = width;
    if (this.last) {
      const { message } = this.last;
      this.post(message);
      for (const content of Object.values(this.sections))
        this.post({ type: 'section', render: message.render, content });
      if (this.paintsWhenReady) this.post({ type: 'paint' });
      this.paintsWhenReady = false;
    }
    const { uri, subject } = this.focus;
    await this.base.read(uri);
    return this.render(subject === undefined ? this.editor()?.selection.active : undefined);
  }

  private turned(pots: Pots): void {
    this.focus = { ...this.focus, pots };
    const { last } = this;
    if (last) this.last = { ...last, message: { ...last.message, drawing: { ...last.message.drawing, pots } } };
    this.want(SECTION_NAMES.filter((name) => SECTIONS[name].isHeard));
    // A schematic tells what the jack gives with the pots where they are; it follows once they rest.
    if (last?.result.subject?.kind === 'instrument') this.drawings.later(POTS_REST_MS, () => void this.render());
  }

  /** Writes the beginning that the view offers at the end of the file, with a stop for each thing to fill in. */
  private async begin(index: number): Promise<void> {
    const start = this.last?.result.invitation?.starts[index];
    if (start === undefined) return;
    const document = await workspace.openTextDocument(Uri.parse(this.focus.uri));
    const end = document.lineAt(document.lineCount - 1).range.end;
    await this.goTo({ start: end, end });
    const space = document.getText().trim() === '' ? '' : '\n';
    await window.activeTextEditor?.insertSnippet(new SnippetString(`${space}${start.snippet}\n`), end);
  }

  private async useBuild(index: number): Promise<void> {
    const { uri } = this.focus;
    const proposals = this.section('proposals');
    const build = proposals?.builds[index];
    if (proposals === undefined || build === undefined) return;
    await this.write(
      proposals.version,
      build.edits.map((each) => ({ ...each, uri })),
    );
  }

  /** Of several movements in a row only the last is answered. */
  private async askWhatIf(asked: number, settings: Settings): Promise<void> {
    const shown = this.subject();
    if (shown === undefined) return;
    this.whatIfs += 1;
    const mine = this.whatIfs;
    const params: WhatIfParams = { protocol: PROTOCOL_VERSION, width: this.width, ...shown, settings };
    const result = await this.sources.client.sendRequest<WhatIfResult>(WHAT_IF_REQUEST, params).catch(() => undefined);
    if (mine !== this.whatIfs) return;
    this.whatIf = result?.state;
    this.post({ type: 'what if', asked, state: this.whatIf });
  }

  private async writePlan(): Promise<void> {
    const { uri } = this.focus;
    const plan = this.section('plan');
    if (plan === undefined || plan.edits.length === 0) return;
    await this.write(
      plan.version,
      plan.edits.map((each) => ({ ...each, uri })),
    );
  }

  private async writeWhatIf(): Promise<void> {
    if (this.whatIf) await this.write(this.whatIf.version, this.whatIf.edits);
  }

  /** Written as it was analysed, and not into a text that has changed since. */
  private async write(version: number, edits: WhatIfState['edits']): Promise<void> {
    const document = await workspace.openTextDocument(Uri.parse(this.focus.uri));
    const edit = new WorkspaceEdit();
    for (const { uri, range, newText } of edits) edit.replace(Uri.parse(uri), rangeOf(range), newText);
    if (document.version !== version || !(await workspace.applyEdit(edit)))
      void window.showWarningMessage(t('The text has changed meanwhile: plan again.'));
  }

  /** Of several plucks in a row only the last is heard. */
  private async pluck(frequencyHz: number, settings: Settings | undefined): Promise<void> {
    const asked = this.subject();
    if (asked === undefined) return;
    this.plucks += 1;
    const mine = this.plucks;
    const params: SoundParams = {
      protocol: PROTOCOL_VERSION,
      ...asked,
      frequencyHz,
      ...(settings === undefined ? {} : { settings }),
    };
    const sound = await this.sources.client.sendRequest<SoundResult>(SOUND_REQUEST, params).catch(() => undefined);
    if (sound !== undefined && mine === this.plucks)
      this.post({ type: 'sound', sound, isWhatIf: settings !== undefined });
  }

  private editor(): TextEditor | undefined {
    return window.visibleTextEditors.find(({ document }) => document.uri.toString() === this.focus.uri);
  }

  private async goTo({ start, end }: PlainRange): Promise<void> {
    const document = await workspace.openTextDocument(Uri.parse(this.focus.uri));
    const beside = this.panel.viewColumn === ViewColumn.One ? ViewColumn.Two : ViewColumn.One;
    const selection = rangeOf({ start, end });
    const viewColumn = this.editor()?.viewColumn ?? beside;
    const editor = await window.showTextDocument(document, { viewColumn, selection });
    editor.revealRange(selection, TextEditorRevealType.InCenterIfOutsideViewport);
  }
}

const rangeOf = ({ start, end }: PlainRange): Range => new Range(start.line, start.character, end.line, end.character);
