import {
  commands,
  type Diagnostic,
  DiagnosticSeverity,
  Disposable,
  type ExtensionContext,
  languages,
  Selection,
  type TextDocument,
  Uri,
  ViewColumn,
  window,
  workspace,
} from 'vscode';
import type { BenchViewControl } from '../bench-view/bench-view-control.ts';
import type { Cards } from '../cards/cards.ts';
import { commitFile } from '../compare/git.ts';
import type { ExplanationControl } from '../explanation/explanation.ts';
import { codeOf } from '../explanation/finding-at.ts';
import { isThere } from '../files/file-choice.ts';
import { t } from '../words.ts';
import { contextOf, LESSON_READINGS, type LessonState, type LessonStep, stepsWritten } from './lesson-steps.ts';

/** What the steps of the lesson happen in. */
interface Bench {
  readonly benchView: BenchViewControl;
  readonly explanation: ExplanationControl;
  readonly cards: Cards;
}

export interface LessonControl extends Disposable {
  /** The steps that have happened since the window opened. */
  done(): readonly LessonStep[];
}

const FILE = 'lesson.pickup';
const AS_FOUND = 'as-found.pickup';

/**
 * The job once through with a made-up pickup, as the walkthrough tells it. A step is done when it has happened, whichever way it
 * was brought about, and never by itself. The files lie in a folder of the extension's own, so nothing needs to be open.
 */
export function activateLesson(context: ExtensionContext, bench: Bench): LessonControl {
  const folder = Uri.joinPath(context.globalStorageUri, 'lesson');
  const [file, asFound] = [Uri.joinPath(folder, FILE), Uri.joinPath(folder, AS_FOUND)];
  const isLesson = (uri: string): boolean => uri === file.toString();
  const done = new Set<LessonStep>();
  const happened = (step: LessonStep): void => {
    done.add(step);
    void commands.executeCommand('setContext', contextOf(step), true);
  };
  let before: LessonState | undefined;
  const written = (): void => {
    const document = workspace.textDocuments.find(({ uri }) => isLesson(uri.toString()));
    if (document === undefined) return;
    const now = stateOf(document, languages.getDiagnostics(file));
    for (const step of stepsWritten(before, now)) happened(step);
    // A mistake once seen stays seen while a line is half typed.
    before = now.hasErrors && before !== undefined ? before : now;
  };
  const listening = Disposable.from(
    commands.registerCommand('pickup.openLesson', () => open(context, { folder, file, asFound })),
    commands.registerCommand('pickup.compareLesson', async () => {
      await show(file);
      await bench.benchView.compare({ kind: 'file', uri: asFound.toString() }, file);
    }),
    commands.registerCommand('pickup.readLesson', () => read(file)),
    commands.registerCommand('pickup.keepLesson', async () => {
      const why = await keep(file);
      if (why === undefined) happened('keep');
      return why;
    }),
    languages.onDidChangeDiagnostics(({ uris }) => {
      if (uris.some((uri) => isLesson(uri.toString()))) written();
    }),
    bench.benchView.onDidDraw(({ uri, comparedWith }) => {
      if (!isLesson(uri)) return;
      happened('look');
      if (comparedWith !== undefined) happened('compare');
    }),
    bench.explanation.onDidShow((code) => {
      if (code.startsWith('reading/')) happened('why');
    }),
    bench.cards.onDidWrite((spec) => {
      if (isLesson(spec.toString())) happened('print');
    }),
  );
  return { done: () => [...done], dispose: () => listening.dispose() };
}

const stateOf = (document: TextDocument, found: readonly Diagnostic[]): LessonState => ({
  text: document.getText(),
  codes: found.map(codeOf),
  hasErrors: found.some(({ severity }) => severity === DiagnosticSeverity.Error),
});

interface LessonFiles {
  readonly folder: Uri;
  readonly file: Uri;
  readonly asFound: Uri;
}

/** As one left it; where one wants to begin anew, as it came in. */
async function open(context: ExtensionContext, { folder, file, asFound }: LessonFiles): Promise<void> {
  const text = await workspace.fs.readFile(Uri.joinPath(context.extensionUri, 'client/walkthrough', FILE));
  await workspace.fs.createDirectory(folder);
  await workspace.fs.writeFile(asFound, text);
  if (!(await isThere(file))) await workspace.fs.writeFile(file, text);
  const document = await show(file);
  const original = new TextDecoder().decode(text);
  if (document.getText() !== original) void offerAnew(document, original);
}

async function show(file: Uri): Promise<TextDocument> {
  const document = await workspace.openTextDocument(file);
  await window.showTextDocument(document, ViewColumn.One);
  return document;
}

async function offerAnew(document: TextDocument, original: string): Promise<void> {
  const anew = t('Begin Anew');
  if ((await window.showInformationMessage(t('The lesson stands as you left it.'), anew)) !== anew) return;
  const editor = await window.showTextDocument(document, ViewColumn.One);
  const whole = document.validateRange(
    document.lineAt(0).range.with({ end: document.lineAt(document.lineCount - 1).range.end }),
  );
  await editor.edit((edit) => edit.replace(whole, original));
  await document.save();
}

const READINGS = `\n${LESSON_READINGS.map((line) => `  ${line}\n`).join('')}`;

/** Writes what stood on the card before the last brace, where the writer did not do it by hand. */
async function read(file: Uri): Promise<void> {
  const document = await show(file);
  const end = document.getText().lastIndexOf('}');
  if (end < 0 || /^\s*readings\b/m.test(document.getText())) return;
  const editor = await window.showTextDocument(document, ViewColumn.One);
  await editor.edit((edit) => edit.insert(document.positionAt(end), READINGS));
  const line = document.positionAt(document.getText().lastIndexOf('hot to ground'));
  editor.selection = new Selection(line, line);
  editor.revealRange(editor.selection);
}

/** Answers why git could not keep it, in one line. */
async function keep(file: Uri): Promise<string | undefined> {
  const document = await show(file);
  await document.save();
  const why = await commitFile(file, 'The pickup of the lesson, mended');
  void window.showInformationMessage(
    why ?? t('Kept: git holds the lesson as it stands now, and compares with it from here on.'),
  );
  return why;
}
