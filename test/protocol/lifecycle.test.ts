import assert from 'node:assert/strict';
import type {
  CodeLens,
  ColorInformation,
  ColorPresentation,
  LinkedEditingRanges,
  SelectionRange,
  TextEdit,
  TypeHierarchyItem,
} from 'vscode-languageserver';
import { chance } from '../support/chance.ts';
import { SINGLE } from '../support/shop.ts';
import { playSession } from './random-session.ts';
import { type ServerProcess, startServer } from './server-process.ts';

const FILE = 'file:///shop/main.pickup';

/** Language Server Protocol, base protocol: a header with the length in bytes, then the message. */
function framed(message: object): string {
  const content = JSON.stringify(message);
  return `Content-Length: ${Buffer.byteLength(content)}\r\n\r\n${content}`;
}

describe('one server', () => {
  let server: ServerProcess;
  /** Another in each test: nothing that was published before is taken for an answer. */
  let file = '';
  let count = 0;
  const at = (line: number, character: number) => ({ textDocument: { uri: file }, position: { line, character } });
  before(async () => {
    server = await startServer();
  });
  beforeEach(() => {
    count += 1;
    file = `file:///shop/main-${count}.pickup`;
  });
  afterEach(() => server.notify('textDocument/didClose', { textDocument: { uri: file } }));
  after(() => server.stop());

  it('sends findings with the version of their text, and takes them back when the file is closed', async () => {
    server.open(file, SINGLE.replace('hot violet', 'hot violett'), 7);
    const [found] = (await server.diagnosed(file, 7)).filter(({ code }) => code === 'lead/undeclared');
    assert.ok(found);
    assert.equal(found.source, 'pickup');
    server.notify('textDocument/didClose', { textDocument: { uri: file } });
    await server.request('textDocument/hover', at(0, 0));
    assert.deepEqual(server.published.at(-1), { uri: file, diagnostics: [] });
  });

  it('a burst of changes is answered once, as of the last', async () => {
    server.open(file, SINGLE);
    await server.diagnosed(file, 1);
    const before = server.published.length;
    const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    const changes = Array.from({ length: 40 }, (_, index) => {
      const textDocument = { uri: file, version: 2 + index };
      const params = { textDocument, contentChanges: [{ range, text: ' ' }] };
      return framed({ jsonrpc: '2.0', method: 'textDocument/didChange', params });
    });
    // In one piece: a machine that lets the client rest between two messages would make no burst.
    server.child.stdin?.write(changes.join(''));
    await server.diagnosed(file, 41);
    // The pipe may deliver it in a few; what must not happen is an answer to each.
    assert.ok(server.published.length - before < 20, `${server.published.length - before} answers to 40 changes`);
  });

  it('a lens says where it stands first, and what it says when it is in sight', async () => {
    server.open(file, SINGLE);
    const lenses = await server.request<CodeLens[]>('textDocument/codeLens', { textDocument: { uri: file } });
    assert.deepEqual(
      lenses.map(({ range, command }) => [range.start.line, command?.title]),
      ['bench view', 'cards', undefined, undefined].map((title) => [2, title]),
    );
    const titles = await Promise.all(lenses.slice(2).map((lens) => server.request<CodeLens>('codeLens/resolve', lens)));
    // The parts are not there.
    assert.equal(titles[0]?.command?.title, 'one coil');
    assert.equal(titles[1]?.command?.title, 'named in no other file');
  });

  it('answers about the text by the standard alone', async () => {
    server.open(file, SINGLE.replace('hot violet', 'hot  violet'));
    const textDocument = { uri: file };
    const hot = at(16, 9);
    const range = { start: { line: 16, character: 0 }, end: { line: 16, character: 1 } };
    const colours = await server.request<ColorInformation[]>('textDocument/documentColor', { textDocument });
    assert.equal(colours.length, 4);
    const shown = { textDocument, color: colours[0]?.color, range: colours[0]?.range };
    const [offered] = await server.request<ColorPresentation[]>('textDocument/colorPresentation', shown);
    // IEC 60757: grey is GY.
    assert.deepEqual([offered?.label, offered?.textEdit?.newText], ['GY grey', 'grey']);
    const [selected] = await server.request<SelectionRange[]>('textDocument/selectionRange', {
      textDocument,
      positions: [hot.position],
    });
    assert.deepEqual(selected?.parent?.range.start, { line: 16, character: 4 });
    const options = { tabSize: 2, insertSpaces: true };
    const edits = await server.request<TextEdit[]>('textDocument/rangeFormatting', { textDocument, range, options });
    assert.deepEqual(
      edits.map(({ newText }) => newText),
      ['    hot violet'],
    );
    const typed = { ...at(17, 0), ch: '\n', options };
    assert.deepEqual(await server.request('textDocument/onTypeFormatting', typed), edits);
    const linked = await server.request<LinkedEditingRanges>('textDocument/linkedEditingRange', hot);
    assert.equal(linked.ranges.length, 2);
    const pieces = await server.request<TypeHierarchyItem[]>('textDocument/prepareTypeHierarchy', at(2, 8));
    assert.deepEqual(
      pieces.map(({ name }) => name),
      ['wren'],
    );
    for (const direction of ['supertypes', 'subtypes'])
      assert.deepEqual(await server.request(`typeHierarchy/${direction}`, { item: pieces[0] }), []);
  });

  it('unknown messages and missing parameters are refused or ignored, and the server lives', async () => {
    server.open(file, SINGLE);
    await assert.rejects(server.request('foo/bar', { x: 1 }), { code: -32601 });
    server.notify('foo/baz', {});
    server.notify('$/xyz', {});
    server.notify('textDocument/didChange', {});
    server.notify('textDocument/didOpen', null);
    server.notify('workspace/didChangeConfiguration', {});
    server.notify('workspace/didChangeWatchedFiles', null);
    await assert.rejects(server.request('textDocument/hover'));
    assert.equal(await server.request('textDocument/hover', at(1e9, 1e9)), null);
    const first = await server.request('textDocument/hover', at(0, 0));
    assert.deepEqual(await server.request('textDocument/hover', at(-1, -1)), first);
    assert.ok(await server.request('textDocument/completion', at(1e9, 1e9)));
    assert.equal(
      await server.request('textDocument/hover', { ...at(0, 0), textDocument: { uri: 'file:///never' } }),
      null,
    );
    server.change('file:///never', 2, [{ text: 'x' }]);
    assert.ok(await server.request('textDocument/hover', at(2, 2)));
  });

  it('changes beyond the end, reversed, and through the middle of a character are taken', async () => {
    const edits = [
      [1, 0, 1e6, 1e6],
      [3, 2, 1, 0],
      [0, 5, 0, 7],
    ] as const;
    let version = 1;
    for (const [line, character, endLine, endCharacter] of edits) {
      server.open(file, `# 😀😀\n${SINGLE}`, ++version);
      const range = { start: { line, character }, end: { line: endLine, character: endCharacter } };
      server.change(file, ++version, [{ range, text: 'x' }]);
      await server.diagnosed(file, version);
    }
  });

  it('documents of any name can be opened', async () => {
    for (const uri of ['untitled:Untitled-1', 'inmemory://model/1', 'file:///tmp/%zz', 'x:', 'not a uri: at all', '']) {
      server.open(uri, SINGLE);
      assert.ok(Array.isArray(await server.diagnosed(uri, 1)), uri);
    }
  });

  it('requests that are cancelled at once are all answered', async () => {
    server.open(file, SINGLE);
    const { CancellationTokenSource } = await import('vscode-languageserver/node');
    const answers = Array.from({ length: 100 }, () => {
      const source = new CancellationTokenSource();
      const sent = server.connection.sendRequest('textDocument/completion', at(2, 2), source.token);
      source.cancel();
      return sent.then(
        () => 'answered',
        (error: { code: number }) => (error.code === -32800 ? 'cancelled' : `error ${error.code}`),
      );
    });
    const kinds = new Set(await Promise.all(answers));
    assert.ok(kinds.has('cancelled'));
    assert.deepEqual(
      [...kinds].filter((kind) => kind !== 'cancelled' && kind !== 'answered'),
      [],
    );
  });

  it('explains a finding, and says nothing of a code that there is none of', async () => {
    const explain = (code: unknown) =>
      server.request<{ page?: { code: string } }>('pickup/explain', { protocol: 1, code });
    assert.equal((await explain('lead/undeclared')).page?.code, 'lead/undeclared');
    for (const code of ['no/such', '__proto__', null, 3]) assert.equal((await explain(code)).page, undefined);
  });
});

describe('server as a process', () => {
  let server: ServerProcess;
  afterEach(() => server.stop());

  it('tells an empty client what it can do', async () => {
    server = await startServer({ initialize: false });
    const { capabilities } = await server.request<{ capabilities: Record<string, unknown> }>('initialize', {
      processId: null,
      rootUri: null,
      capabilities: {},
    });
    assert.ok(capabilities.hoverProvider);
    assert.ok(capabilities.inlayHintProvider);
    assert.deepEqual(capabilities.textDocumentSync, { openClose: true, change: 2 });
  });

  for (const [name, settings] of [
    ['null', null],
    ['a string', 'garbage'],
    ['of the wrong kinds', { inlayHints: { enabled: 3, coilResistance: [] } }],
  ] as const) {
    it(`settings that are ${name} leave the standard ones`, async () => {
      server = await startServer({ settings, capabilities: { workspace: { configuration: true } } });
      server.open(FILE, SINGLE);
      await server.diagnosed(FILE, 1);
      server.notify('workspace/didChangeConfiguration', { settings });
      const symbols = await server.request<unknown[]>('textDocument/documentSymbol', { textDocument: { uri: FILE } });
      assert.notEqual(symbols.length, 0);
    });
  }

  it('ends when it is told to, and when its input ends', async () => {
    server = await startServer();
    await server.request('shutdown');
    server.notify('exit');
    assert.equal(await server.ended, 0);
    server = await startServer();
    server.child.stdin?.end();
    assert.notEqual(await server.ended, null);
  });

  it('passes over what is no message, and ends with a word where nobody knows where the next one begins', async () => {
    server = await startServer();
    server.child.stdin?.write('Content-Length: 7\r\n\r\n{"a": }');
    server.notify('$/cancelRequest', undefined);
    assert.deepEqual(await server.request('workspace/symbol', { query: '' }), []);
    server.child.stdin?.write(`Content-Length: x\r\n\r\n${framed({ jsonrpc: '2.0', id: 9, method: 'shutdown' })}`);
    assert.equal(await server.ended, 1);
    assert.match(
      server.log.join(''),
      /no message of the protocol: .*JSON.*no message of the protocol: .*Content-Length/s,
    );
  });
});

describe('a client that keeps to no rule', () => {
  it('finds the server answering a good document, and ending when it should (seeds 1 and 2)', async () => {
    for (const seed of [1, 2]) await playSession(chance(seed));
  });
});
