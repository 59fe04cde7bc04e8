import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import {
  type CodeAction,
  DiagnosticTag,
  type DocumentDiagnosticReport,
  type Location,
  type WorkspaceDiagnosticReport,
  type WorkspaceEdit,
  type WorkspaceSymbol,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { PARTS, SINGLE } from '../support/shop.ts';
import { type ServerProcess, type StartOptions, startServer } from './server-process.ts';

/** A shop of twelve pickups that use one file of parts; each test opens one of them only. */
describe('files of the workspace that are not open', () => {
  let folder = '';
  let server: ServerProcess;
  const uriOf = (name: string): string => pathToFileURL(path.join(folder, name)).href;
  const write = (name: string, text: string): void => {
    mkdirSync(path.dirname(path.join(folder, name)), { recursive: true });
    writeFileSync(path.join(folder, name), text);
  };
  const pickup = (name: string, parts: string): string =>
    SINGLE.replace('parts.pickup', parts).replace('pickup wren "Wren"', `pickup ${name}`);
  const NAMES = Array.from({ length: 12 }, (_, index) => `wren-${String.fromCharCode(97 + index)}`);

  beforeEach(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'pickup-shop-'));
    write('parts/stock.pickup', PARTS);
    for (const name of NAMES) write(`made/${name}.pickup`, pickup(name, '../parts/stock.pickup'));
    write('node_modules/left-out.pickup', pickup('left-out', '../parts/stock.pickup'));
    const capabilities = {
      textDocument: { publishDiagnostics: { tagSupport: { valueSet: [DiagnosticTag.Unnecessary] } } },
    };
    server = await startServer({ workspace: pathToFileURL(folder).href, capabilities });
    server.open(uriOf('made/wren-a.pickup'), readFileSync(path.join(folder, 'made/wren-a.pickup'), 'utf8'));
  });
  afterEach(async () => {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  /** Where a piece of a file's text ends. */
  const endOf = (name: string, piece: string) => {
    const text = readFileSync(path.join(folder, name), 'utf8');
    const at = text.indexOf(piece);
    assert.notEqual(at, -1, piece);
    return {
      textDocument: { uri: uriOf(name) },
      position: TextDocument.create('', '', 0, text).positionAt(at + piece.length),
    };
  };
  const renameBobbin = (newName: string) =>
    server.request<WorkspaceEdit>('textDocument/rename', {
      ...endOf('made/wren-a.pickup', 'bobbin rod-six'),
      newName,
    });
  /** Writes an edit to the disk, as an editor does with files that are not open. */
  const apply = ({ changes = {} }: WorkspaceEdit): void => {
    for (const [uri, edits] of Object.entries(changes)) {
      const file = fileURLToPath(uri);
      const document = TextDocument.create(uri, 'pickup', 0, readFileSync(file, 'utf8'));
      writeFileSync(file, TextDocument.applyEdits(document, edits));
    }
  };
  const namesIn = (changes: WorkspaceEdit['changes']) =>
    Object.keys(changes ?? {})
      .map((uri) => path.relative(folder, fileURLToPath(uri)).split(path.sep).join('/'))
      .sort();

  it('take part in a rename: nothing that is clean before has an unknown name after it', async () => {
    const edit = await renameBobbin('rod-seven');
    assert.deepEqual(namesIn(edit.changes), [...NAMES.map((name) => `made/${name}.pickup`), 'parts/stock.pickup']);
    apply(edit);
    const fresh = await startServer({ workspace: pathToFileURL(folder).href });
    for (const name of NAMES) {
      const uri = uriOf(`made/${name}.pickup`);
      const text = readFileSync(fileURLToPath(uri), 'utf8');
      assert.doesNotMatch(text, /rod-six/);
      fresh.open(uri, text);
      assert.deepEqual(await fresh.diagnosed(uri, 1), [], name);
    }
    await fresh.stop();
  });

  it('are read anew where they changed, came or went without a word', async () => {
    await renameBobbin('rod-seven');
    write('made/wren-b.pickup', pickup('wren-b', '../parts/stock.pickup').replace('rod-six', 'rod-nine'));
    write('made/late.pickup', pickup('late', '../parts/stock.pickup'));
    rmSync(path.join(folder, 'made/wren-c.pickup'));
    const touched = namesIn((await renameBobbin('rod-eight')).changes);
    assert.ok(touched.includes('made/late.pickup'));
    assert.ok(!touched.includes('made/wren-b.pickup') && !touched.includes('made/wren-c.pickup'));
  });

  it('say which parts of a shelf they do not use, and take it back once one is used', async () => {
    const shelf = `${PARTS}\nwire odd-42 {\n  gauge 42 AWG\n}\nspool RYD-1 {\n  wire odd-42\n}\n`;
    write('parts/stock.pickup', shelf);
    const uri = uriOf('parts/stock.pickup');
    const told = () => server.published.findLast((each) => each.uri === uri)?.diagnostics;
    const unused = (...parts: readonly string[]) => parts.map((part) => `No spec of the workspace uses ${part}.`);
    const toldIs = (...messages: readonly string[]) =>
      server.until(
        () =>
          told()
            ?.map(({ message }) => message)
            .join() === messages.join() || undefined,
      );
    server.open(uri, shelf);
    // The wire is on the spool.
    await toldIs(...unused('spool RYD-W7', 'magnet bar-5', 'spool RYD-1'));
    assert.ok(told()?.every(({ tags, severity }) => tags?.[0] === DiagnosticTag.Unnecessary && severity === 4));
    write('made/spooled.pickup', pickup('spooled', '../parts/stock.pickup').replace('wire plain-42', 'spool RYD-1'));
    server.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: uriOf('made/spooled.pickup'), type: 1 }] });
    await toldIs(...unused('spool RYD-W7', 'magnet bar-5'));
  });

  it('have a say in where a part may move: into the parts file while none of them has a part of that name', async () => {
    const thin = 'wire thin-43 {\n  gauge 43 AWG\n}\n';
    const text = `${thin}${pickup('wren-a', '../parts/stock.pickup')}`;
    const uri = uriOf('made/wren-a.pickup');
    server.change(uri, 2, [{ text }]);
    const start = { line: 0, character: 3 };
    const moves = async (): Promise<readonly CodeAction[]> =>
      server.request('textDocument/codeAction', {
        textDocument: { uri },
        range: { start, end: start },
        context: { diagnostics: [], only: ['refactor.extract'], triggerKind: 1 },
      });
    const [move, another] = await moves();
    assert.equal(move?.title, 'Move wire thin-43 to ../parts/stock.pickup');
    assert.equal(another, undefined);
    assert.deepEqual(namesIn(move?.edit?.changes), ['made/wren-a.pickup', 'parts/stock.pickup']);
    write('made/wren-b.pickup', `${thin}${pickup('wren-b', '../parts/stock.pickup')}`);
    assert.deepEqual(await moves(), []);
  });

  it('a text that is open counts, not the file behind it', async () => {
    const uri = uriOf('made/wren-b.pickup');
    server.open(uri, '# emptied, not saved\n');
    assert.ok(!namesIn((await renameBobbin('rod-seven')).changes).includes('made/wren-b.pickup'));
  });

  it('refuse a rename, with the reason, where one of them cannot be read', async () => {
    writeFileSync(path.join(folder, 'parts/old.pickup'), Uint8Array.of(0x77, 0xff, 0xfe));
    const why = /parts\/old\.pickup cannot be read \(it is not UTF-8 text\), and rod-six may stand in it/;
    await assert.rejects(renameBobbin('rod-seven'), why);
    await assert.rejects(
      server.request('textDocument/prepareRename', endOf('made/wren-a.pickup', 'bobbin rod-six')),
      why,
    );
    // A lead is looked for in what can be read.
    await server.request('textDocument/rename', { ...endOf('made/wren-a.pickup', 'hot violet'), newName: 'white' });
  });

  it('refuse a rename where the name stands in a line that does not read, and say where', async () => {
    write(
      'made/torn.pickup',
      'use "../parts/stock.pickup"\npickup torn {\n  coil main {\n    bobin 7 rod-six\n  }\n}\n',
    );
    await assert.rejects(
      renameBobbin('rod-seven'),
      /does not read; mend that line first\. \(made\/torn\.pickup, line 4\)/,
    );
  });

  it('refuse a name that one of them has already', async () => {
    write(
      'parts/more.pickup',
      PARTS.slice(PARTS.indexOf('bobbin'), PARTS.indexOf('magnet')).replace('rod-six', 'taken'),
    );
    write('made/both.pickup', `use "../parts/more.pickup"\n${pickup('both', '../parts/stock.pickup')}`);
    await assert.rejects(renameBobbin('taken'), /already a bobbin named taken/);
  });

  it('what is declared outside the folders that are open is not renamed', async () => {
    const outside = pathToFileURL(path.join(folder, '..', `${path.basename(folder)}-beside.pickup`)).href;
    server.open(outside, PARTS);
    const at = PARTS.indexOf('rod-six');
    const position = TextDocument.create('', '', 0, PARTS).positionAt(at);
    await assert.rejects(
      server.request('textDocument/rename', { textDocument: { uri: outside }, position, newName: 'other' }),
      /lies outside the folders that are open/,
    );
  });

  it('hold references', async () => {
    const found = await server.request<Location[]>('textDocument/references', {
      ...endOf('made/wren-a.pickup', 'bobbin rod-six'),
      context: { includeDeclaration: true },
    });
    assert.equal(found.length, NAMES.length + 1);
    assert.ok(!found.some(({ uri }) => uri.includes('node_modules')));
  });

  it('are among the symbols, former states of a pickup as records', async () => {
    write('made/later.pickup', 'use "wren-b.pickup"\npickup later reworks wren-b {\n}\n');
    const symbols = await server.request<WorkspaceSymbol[]>('workspace/symbol', { query: 'wren-' });
    assert.deepEqual(symbols.map(({ name }) => name).sort(), NAMES);
    assert.deepEqual(
      symbols.filter(({ containerName }) => containerName === 'record').map(({ name }) => name),
      ['wren-b'],
    );
  });

  it('are offered behind `use`, by their paths', async () => {
    await server.request('workspace/symbol', { query: '' });
    const uri = uriOf('made/new.pickup');
    server.open(uri, 'use ""\n');
    const items = await server.request<{ items: { label: string }[] }>('textDocument/completion', {
      textDocument: { uri },
      position: { line: 0, character: 5 },
    });
    const labels = items.items.map(({ label }) => label);
    assert.ok(labels.includes('../parts/stock.pickup') && labels.includes('wren-b.pickup'), labels.join(', '));
  });

  it('keep their `use` lines right when a file or a folder moves', async () => {
    const moving = (from: string, to: string) =>
      server.request<WorkspaceEdit | null>('workspace/willRenameFiles', {
        files: [{ oldUri: uriOf(from), newUri: uriOf(to) }],
      });
    const file = await moving('parts/stock.pickup', 'parts/shelf & drawer.pickup');
    assert.deepEqual(
      namesIn(file?.changes),
      NAMES.map((name) => `made/${name}.pickup`),
    );
    assert.deepEqual(
      new Set(Object.values(file?.changes ?? {}).map(([edit]) => edit?.newText)),
      new Set(['"../parts/shelf & drawer.pickup"']),
    );
    const folderMoved = await moving('made', 'made/2026');
    assert.equal(Object.keys(folderMoved?.changes ?? {}).length, NAMES.length);
    assert.equal(Object.values(folderMoved?.changes ?? {})[0]?.[0]?.newText, '"../../parts/stock.pickup"');
    assert.equal(await moving('made/wren-a.pickup', 'made/wren-z.pickup'), null);
  });
});

describe('findings of files that are not open', () => {
  let folder = '';
  let server: ServerProcess;
  const uriOf = (name: string): string => pathToFileURL(path.join(folder, name)).href;
  const FAULTY = SINGLE.replace('hot violet', 'hot vilet');

  const start = async (settings: unknown, other: Omit<StartOptions, 'settings'> = {}): Promise<void> => {
    folder = mkdtempSync(path.join(tmpdir(), 'pickup-shop-'));
    writeFileSync(path.join(folder, 'parts.pickup'), PARTS);
    writeFileSync(path.join(folder, 'clean.pickup'), SINGLE);
    writeFileSync(path.join(folder, 'faulty.pickup'), FAULTY);
    server = await startServer({
      workspace: pathToFileURL(folder).href,
      capabilities: { workspace: { configuration: true } },
      settings,
      ...other,
    });
  };
  afterEach(async () => {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  const codesOf = (name: string) => server.published.findLast(({ uri }) => uri === uriOf(name))?.diagnostics;
  const until = (isSo: () => boolean): Promise<true> => server.until(() => isSo() || undefined);

  it('are told where the setting says so, and follow the file that they use', async () => {
    await start({ check: { scope: 'workspace' } });
    await until(() => codesOf('faulty.pickup') !== undefined);
    assert.equal(codesOf('clean.pickup'), undefined);
    // An open parts file without the bobbin: both that use it have a name that nothing declares.
    server.open(uriOf('parts.pickup'), PARTS.replace('bobbin rod-six', 'bobbin rod-seven'));
    await until(() => codesOf('clean.pickup')?.some(({ code }) => code === 'name/unknown') === true);
    server.change(uriOf('parts.pickup'), 2, [{ text: PARTS }]);
    await until(() => codesOf('clean.pickup')?.length === 0);
  });

  it('change with the file, and go with it', async () => {
    await start({ check: { scope: 'workspace' } });
    await until(() => codesOf('faulty.pickup') !== undefined);
    const changed = (type: number) =>
      server.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: uriOf('faulty.pickup'), type }] });
    rmSync(path.join(folder, 'faulty.pickup'));
    changed(3);
    await until(() => codesOf('faulty.pickup')?.length === 0);
    writeFileSync(path.join(folder, 'faulty.pickup'), FAULTY);
    changed(1);
    await until(() => codesOf('faulty.pickup')?.length !== 0);
  });

  it('stay when the file is opened and closed again', async () => {
    await start({ check: { scope: 'workspace' } });
    await until(() => codesOf('faulty.pickup') !== undefined);
    server.open(uriOf('faulty.pickup'), SINGLE);
    await until(() => codesOf('faulty.pickup')?.length === 0);
    server.notify('textDocument/didClose', { textDocument: { uri: uriOf('faulty.pickup') } });
    await until(() => codesOf('faulty.pickup')?.length !== 0);
  });

  it('are not told without the setting', async () => {
    await start(null);
    server.open(uriOf('clean.pickup'), SINGLE);
    await server.diagnosed(uriOf('clean.pickup'), 1);
    await server.request('workspace/symbol', { query: '' });
    await new Promise((resolve) => setTimeout(resolve, 400));
    assert.equal(codesOf('faulty.pickup'), undefined);
  });

  it('are given to an editor that asks, those of open files too, and it is told to ask again; nothing is sent', async () => {
    await start(
      { check: { scope: 'workspace' } },
      {
        capabilities: {
          textDocument: { diagnostic: {} },
          workspace: { configuration: true, diagnostics: { refreshSupport: true } },
        },
        initializationOptions: { protocol: undefined },
      },
    );
    let refreshed = (): void => undefined;
    server.connection.onRequest('workspace/diagnostic/refresh', () => refreshed());
    const uri = uriOf('clean.pickup');
    const ask = (previousResultId?: string) =>
      server.request<DocumentDiagnosticReport>('textDocument/diagnostic', { textDocument: { uri }, previousResultId });
    server.open(uri, SINGLE);
    const clean = await ask();
    assert.deepEqual([clean.kind, 'items' in clean && clean.items], ['full', []]);
    assert.deepEqual(await ask(clean.resultId), { kind: 'unchanged', resultId: clean.resultId });
    const others = new Promise<void>((resolve) => {
      refreshed = resolve;
    });
    server.open(uriOf('parts.pickup'), PARTS.replace('bobbin rod-six', 'bobbin rod-seven'));
    await others;
    const faulty = await ask(clean.resultId);
    assert.ok('items' in faulty && faulty.items.some(({ code }) => code === 'name/unknown'));
    const { items } = await server.request<WorkspaceDiagnosticReport>('workspace/diagnostic', {
      previousResultIds: [],
    });
    const found = items.find((each) => each.uri === uriOf('faulty.pickup'));
    assert.ok(found && 'items' in found && found.items.length > 0);
    assert.deepEqual(server.published, []);
  });
});
