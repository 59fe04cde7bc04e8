import { commands, Disposable, Uri, ViewColumn, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  FILE_ENDING,
  LANGUAGE_ID,
  NEW_CHOICES_REQUEST,
  NEW_SPEC_REQUEST,
  type NewAnswers,
  type NewChoicesParams,
  type NewChoicesResult,
  type NewFile,
  type NewSpecParams,
  type NewSpecResult,
  PROTOCOL_VERSION,
} from '../../../../server/src/lsp/protocol.ts';
import { askFolder, isThere, writeText } from '../files/file-choice.ts';
import { t } from '../words.ts';
import { askAnswers } from './questions.ts';

/** Begins a shop, a pickup or an instrument; works with nothing open. */
export function activateNew(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    commands.registerCommand('pickup.newShop', (folder?: unknown) => newShop(client, folder)),
    commands.registerCommand('pickup.newPickup', (answers?: unknown) => newSpec(client, 'pickup', answers)),
    commands.registerCommand('pickup.newInstrument', (answers?: unknown) => newSpec(client, 'instrument', answers)),
  );
}

async function newShop(client: BaseLanguageClient, given: unknown): Promise<void> {
  const folder = given instanceof Uri ? given : await askFolder(t('Folder for the shop'), t('Begin the Shop Here'));
  if (folder === undefined) return;
  const { files } = await filesFrom(client, undefined);
  const targets = files.map(({ path }) => Uri.joinPath(folder, path));
  const there = (await Promise.all(targets.map(isThere))).includes(true);
  if (there) {
    void window.showWarningMessage(t('This folder holds files of a shop already; nothing was written.'));
    return;
  }
  for (const [index, { text }] of files.entries()) {
    const target = targets[index];
    if (target) await writeText(target, text);
  }
  if (workspace.getWorkspaceFolder(folder) === undefined) {
    await commands.executeCommand('vscode.openFolder', folder);
    return;
  }
  const first = targets.find(({ path }) => path.endsWith(`/first-bridge${FILE_ENDING}`));
  if (first) await show(await workspace.openTextDocument(first));
}

async function newSpec(client: BaseLanguageClient, what: NewAnswers['what'], given: unknown): Promise<void> {
  const answers = answersFrom(given) ?? (await askAnswers(what, await choices(client)));
  if (answers === undefined) return;
  const { files, problem } = await filesFrom(client, answers);
  const [file] = files;
  if (file === undefined) {
    void window.showWarningMessage(problem ?? t('These answers give no spec.'));
    return;
  }
  const [folder] = workspace.workspaceFolders ?? [];
  // With nothing open the spec is a draft, which asks for its place when it is saved.
  await show(
    folder === undefined
      ? await workspace.openTextDocument({ language: LANGUAGE_ID, content: file.text })
      : await workspace.openTextDocument(await written(folder.uri, file)),
  );
}

/** For those who call the command: nothing is asked then. What is amiss with them is told by the server. */
const answersFrom = (given: unknown): NewAnswers | undefined =>
  typeof given === 'object' && given !== null && 'title' in given ? (given as NewAnswers) : undefined;

/** Parts lie in a folder of that name, or beside the specs in a file that says so. */
const SHELVES = '**/{parts/*,shop,stock}.pickup';

async function choices(client: BaseLanguageClient): Promise<NewChoicesResult> {
  const uris = (await workspace.findFiles(SHELVES, '**/node_modules/**', 20)).map((uri) => uri.toString());
  const params: NewChoicesParams = { protocol: PROTOCOL_VERSION, uris };
  return await client.sendRequest<NewChoicesResult>(NEW_CHOICES_REQUEST, params);
}

async function filesFrom(client: BaseLanguageClient, answers: NewAnswers | undefined): Promise<NewSpecResult> {
  const params: NewSpecParams = { protocol: PROTOCOL_VERSION, ...(answers && { answers }) };
  return await client.sendRequest<NewSpecResult>(NEW_SPEC_REQUEST, params);
}

/** Under its name, or under the next free one. */
async function written(folder: Uri, { path, text }: NewFile): Promise<Uri> {
  const stem = path.slice(0, -FILE_ENDING.length);
  let target = Uri.joinPath(folder, path);
  for (let number = 2; await isThere(target); number += 1) {
    target = Uri.joinPath(folder, `${stem}-${number}${FILE_ENDING}`);
  }
  await writeText(target, text);
  return target;
}

async function show(document: Awaited<ReturnType<typeof workspace.openTextDocument>>): Promise<void> {
  await window.showTextDocument(document, ViewColumn.One);
  await commands.executeCommand('pickup.openBenchViewToSide');
}
