import assert from 'node:assert/strict';
import * as vscode from 'vscode';
import type { ExtensionInterface } from '../../client/src/activation.ts';

// Some hosts save by themselves, and what one test typed would be in the file that the next one opens.
before(async () => {
  await vscode.workspace.getConfiguration('files').update('autoSave', 'off', vscode.ConfigurationTarget.Global);
});

/** Asks again until the answer is there; the suite's own time limit ends it where it never comes. */
export async function eventually<T>(ask: () => T | undefined | Promise<T | undefined>): Promise<T> {
  for (;;) {
    const answer = await ask();
    if (answer !== undefined) return answer;
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

const FIRST_PATIENCE_MS = 4_000;
const MOST_PATIENCE_MS = 60_000;

/**
 * Does a gesture again until it has shown effect: a busy window swallows one now and then, and closes what was opened where the focus
 * goes elsewhere. A gesture that could not be done in its time (what it points at is not there, or went away) counts as swallowed, and
 * the next gets more, for a slow machine; the test's own time limit ends it all.
 */
export async function againUntil(
  gesture: (patience: { readonly timeout: number }) => Promise<unknown>,
  done: () => boolean | Promise<boolean>,
): Promise<void> {
  for (let timeout = FIRST_PATIENCE_MS; !(await done()); timeout = Math.min(2 * timeout, MOST_PATIENCE_MS)) {
    await gesture({ timeout }).catch(() => undefined);
    const until = Date.now() + timeout;
    while (!(await done()) && Date.now() < until) await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

/** What is told in the language of the editor: on Node it is English, and the one with a web worker says that it is in German. */
export const inWords = <T>({ en, de }: { readonly en: T; readonly de: T }): T =>
  vscode.env.language === 'de' ? de : en;

/** Opens a file of the samples in an editor. */
export async function openSample(path: string): Promise<vscode.TextEditor> {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  assert.ok(folder, 'no workspace');
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder.uri, path));
  return vscode.window.showTextDocument(document, vscode.ViewColumn.One);
}

/** Opens a text as a new file of the samples, so that it may use their parts. */
export async function openText(path: string, text: string): Promise<vscode.TextEditor> {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  assert.ok(folder, 'no workspace');
  const uri = vscode.Uri.joinPath(folder.uri, path);
  await vscode.workspace.fs.writeFile(uri, new TextEncoder().encode(text));
  return openSample(path);
}

/** What the extension shows to its tests. */
export async function extensionInterface(): Promise<ExtensionInterface> {
  const extension = vscode.extensions.getExtension<ExtensionInterface>('pickup-spec.pickup-spec');
  assert.ok(extension, 'the editor does not know the extension');
  return extension.activate();
}

export const codeOf = ({ code }: vscode.Diagnostic): string =>
  String(typeof code === 'object' ? code.value : (code ?? ''));

/** Waits for the findings of a document to be as wanted. */
export function findings(
  document: vscode.TextDocument,
  wanted: (codes: readonly string[]) => boolean,
): Promise<readonly vscode.Diagnostic[]> {
  return eventually(() => {
    const found = vscode.languages.getDiagnostics(document.uri);
    return wanted(found.map(codeOf)) ? found : undefined;
  });
}

/** The place right behind a piece of the text. */
export function behind(document: vscode.TextDocument, piece: string): vscode.Position {
  const at = document.getText().indexOf(piece);
  assert.notEqual(at, -1, `"${piece}" is not in the text`);
  return document.positionAt(at + piece.length);
}

export async function replace(editor: vscode.TextEditor, piece: string, by: string): Promise<void> {
  const end = behind(editor.document, piece);
  const start = editor.document.positionAt(editor.document.offsetAt(end) - piece.length);
  assert.ok(await editor.edit((edit) => edit.replace(new vscode.Range(start, end), by)));
}

/** Leaves nothing behind for the next test: editors closed, changes dropped. */
export async function closeAll(): Promise<void> {
  while (vscode.window.tabGroups.all.some(({ tabs }) => tabs.length > 0)) {
    const before = vscode.window.activeTextEditor?.document;
    if (before?.isDirty) await vscode.commands.executeCommand('workbench.action.files.revert');
    await vscode.commands.executeCommand('workbench.action.closeActiveEditor');
    if (vscode.window.activeTextEditor?.document === before) {
      await vscode.commands.executeCommand('workbench.action.closeAllEditors');
    }
  }
}
