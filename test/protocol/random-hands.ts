/** What hands do in an editor: at one document, or at several while files change on the disk and requests are taken back. */
import assert from 'node:assert/strict';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { CancellationTokenSource, type Diagnostic } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import type { Chance } from '../support/chance.ts';
import type { ServerProcess } from './server-process.ts';

/** A letter more, a letter less, a line gone, a line twice, a piece pasted. */
export function randomChange(document: TextDocument, random: () => number) {
  const text = document.getText();
  const pick = (length: number): number => Math.floor(random() * length);
  const from = pick(text.length + 1);
  const lineAt = document.positionAt(from).line;
  const line = { start: { line: lineAt, character: 0 }, end: { line: lineAt + 1, character: 0 } };
  const span = (start: number, end: number) => ({ start: document.positionAt(start), end: document.positionAt(end) });
  const letters = 'abx7. _"#{}()\n=;±Ω😀';
  switch (pick(6)) {
    case 0:
      return { range: span(from, from), text: [...letters][pick([...letters].length)] ?? ' ' };
    case 1:
      return { range: span(from, Math.min(from + 1 + pick(3), text.length)), text: '' };
    case 2:
      return { range: line, text: '' };
    case 3:
      return { range: { start: line.start, end: line.start }, text: document.getText(line) };
    case 4:
      return { range: span(from, from), text: text.slice(pick(text.length), pick(text.length)).slice(0, 60) };
    default:
      return { range: span(from, Math.min(from + pick(40), text.length)), text: '\n' };
  }
}

/** What the server says of a document beside its findings, in a form that two servers can be compared by. */
export async function answersOf(server: ServerProcess, uri: string): Promise<Readonly<Record<string, unknown>>> {
  const about = { textDocument: { uri } };
  const range = { start: { line: 0, character: 0 }, end: { line: 1e6, character: 0 } };
  return {
    symbols: await server.request('textDocument/documentSymbol', about),
    folding: await server.request('textDocument/foldingRange', about),
    tokens: await server.request('textDocument/semanticTokens/full', about),
    hints: await server.request('textDocument/inlayHint', { ...about, range }),
  };
}

const SAMPLES = path.resolve(import.meta.dirname, '..', '..', 'samples');
/** A spec with an instrument, two that share its parts, and the parts. */
const FILES = ['fennel-bridge.pickup', 'larkspit.pickup', 'shop.pickup', 'parts/stock.pickup'] as const;
const REQUESTS = ['hover', 'completion', 'documentSymbol', 'semanticTokens/full', 'foldingRange'] as const;

const good = (name: string): string => readFileSync(path.join(SAMPLES, name), 'utf8');

/** Puts the files of a small shop into a folder, as they are. */
export function layOut(folder: string): void {
  mkdirSync(path.join(folder, 'parts'), { recursive: true });
  for (const name of FILES) writeFileSync(path.join(folder, name), good(name));
}

/**
 * `steps` things done at random to the files of that folder, open or not, on a live server. In the end every open document has the
 * findings and answers that a server has which opened them so. The documents are closed again.
 */
export async function playHands(
  edited: ServerProcess,
  fresh: ServerProcess,
  folder: string,
  chance: Chance,
  steps: number,
): Promise<void> {
  const uriOf = (name: string) => pathToFileURL(path.join(folder, name)).href;
  const random = () => chance.whole(2 ** 20) / 2 ** 20;
  const open = new Map<string, TextDocument>();
  const done: string[] = [];
  const openNow = (name: string, text: string): void => {
    open.set(name, TextDocument.create(uriOf(name), 'pickup', 1, text));
    edited.open(uriOf(name), text, 1);
  };
  const change = (name: string, document: TextDocument): void => {
    const edit = randomChange(document, random);
    open.set(name, TextDocument.update(document, [edit], document.version + 1));
    edited.change(uriOf(name), document.version, [edit]);
  };
  const onDisk = (name: string, text: string | undefined): void => {
    if (text === undefined) rmSync(path.join(folder, name), { force: true });
    else writeFileSync(path.join(folder, name), text);
    const told = { changes: [{ uri: uriOf(name), type: text === undefined ? 3 : 2 }] };
    for (const server of [edited, fresh]) server.notify('workspace/didChangeWatchedFiles', told);
  };
  const ask = (name: string): void => {
    const source = new CancellationTokenSource();
    const params = {
      textDocument: { uri: uriOf(name) },
      position: { line: chance.whole(40), character: chance.whole(20) },
    };
    const sent = edited.connection.sendRequest(`textDocument/${chance.pick(REQUESTS)}`, params, source.token);
    // Cancelled or answered: that it is one of the two is waited for below, by the answers that come after it.
    sent.catch(() => undefined);
    if (chance.whole(2) === 0) source.cancel();
  };
  openNow(FILES[0], good(FILES[0]));
  for (let step = 0; step < steps; step++) {
    const name = chance.pick(FILES);
    const document = open.get(name);
    const what = chance.whole(10);
    done.push(`${what} ${name}`);
    if (document && what < 6) change(name, document);
    else if (document && what === 6 && open.size > 1) {
      open.delete(name);
      edited.notify('textDocument/didClose', { textDocument: { uri: uriOf(name) } });
    } else if (what === 7) {
      const text = TextDocument.create('', 'pickup', 1, good(name));
      onDisk(
        name,
        chance.whole(4) === 0 ? undefined : TextDocument.applyEdits(text, [asEdit(randomChange(text, random))]),
      );
    } else if (what >= 8) ask(name);
    else if (!document) openNow(name, good(name));
  }
  for (const [name, document] of open) fresh.open(uriOf(name), document.getText(), document.version);
  for (const [name, { version }] of open) {
    const words = `${name} after ${done.join(', ')}, text:\n${open.get(name)?.getText()}`;
    const wanted = findings(await fresh.completelyDiagnosed(uriOf(name), version));
    assert.equal(
      new Set(wanted.map((each) => JSON.stringify(each))).size,
      wanted.length,
      `findings told twice: ${words}`,
    );
    await edited.completelyDiagnosed(uriOf(name), version);
    assert.deepEqual(await answersOf(edited, uriOf(name)), await answersOf(fresh, uriOf(name)), words);
    await comeTo(edited, uriOf(name), version, wanted, words);
  }
  for (const [name] of open)
    for (const server of [edited, fresh])
      server.notify('textDocument/didClose', { textDocument: { uri: uriOf(name) } });
  for (const name of FILES) onDisk(name, good(name));
  assert.deepEqual([edited.log, fresh.log], [[], []], done.join(', '));
}

const asEdit = ({ range, text }: ReturnType<typeof randomChange>) => ({ range, newText: text });

/** Without the hints of parts that nobody uses: they follow the index, whenever it has been read. */
const findings = (told: readonly Diagnostic[]): readonly Diagnostic[] => told.filter(({ code }) => code !== undefined);

/** Findings of a document that others changed follow by themselves, under the version that it has: they are waited for. */
async function comeTo(
  server: ServerProcess,
  uri: string,
  version: number,
  wanted: readonly unknown[],
  words: string,
): Promise<void> {
  const last = () =>
    findings(server.published.findLast((each) => each.uri === uri && each.version === version)?.diagnostics ?? []);
  const text = JSON.stringify(wanted);
  await server
    .until(() => JSON.stringify(last()) === text || undefined)
    .catch(() => assert.deepEqual(last(), wanted, words));
}
