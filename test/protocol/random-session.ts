/** A session with a client that keeps to no rule: after all that it does the server answers a good document, and ends when it should. */
import assert from 'node:assert/strict';
import type { Chance } from '../support/chance.ts';
import { type ServerProcess, startServer } from './server-process.ts';

const MAIN = 'file:///shop/main.pickup';
const GOOD = 'wire plain-42 {\n  gauge 42 AWG\n}\nwire plain-42 {\n}\n';
const ODD_URIS = [
  '',
  'x:',
  'untitled:Untitled-1',
  'inmemory://model/1',
  'file:///tmp/%zz',
  'file://',
  'not a uri',
] as const;
const ODD_VALUES = [null, undefined, 0, -1, 1e300, '', 'x', [], {}, true, { textDocument: null }, [[[]]]] as const;
const REQUESTS = [
  'textDocument/hover',
  'textDocument/completion',
  'textDocument/documentSymbol',
  'textDocument/definition',
  'textDocument/references',
  'textDocument/rename',
  'textDocument/prepareRename',
  'textDocument/codeAction',
  'textDocument/formatting',
  'textDocument/semanticTokens/full',
  'textDocument/inlayHint',
  'textDocument/foldingRange',
  'textDocument/codeLens',
  'codeLens/resolve',
  'textDocument/documentColor',
  'textDocument/selectionRange',
  'textDocument/rangeFormatting',
  'textDocument/onTypeFormatting',
  'textDocument/linkedEditingRange',
  'textDocument/prepareTypeHierarchy',
  'typeHierarchy/supertypes',
  'textDocument/diagnostic',
  'workspace/symbol',
  'workspace/executeCommand',
  'pickup/explain',
  'no/such',
  'initialize',
] as const;
const NOTIFICATIONS = [
  'textDocument/didOpen',
  'textDocument/didChange',
  'textDocument/didClose',
  'textDocument/didSave',
  'workspace/didChangeConfiguration',
  'workspace/didChangeWatchedFiles',
  'workspace/didChangeWorkspaceFolders',
  '$/cancelRequest',
  '$/setTrace',
  'initialized',
  'no/such',
] as const;

type Misbehave = (server: ServerProcess, chance: Chance) => void;

const position = ({ whole, pick }: Chance) => ({
  line: pick([-1, 0, whole(6), 1e9, 0.5]),
  character: pick([-1, 0, whole(20), 1e9, 0.5]),
});

/** Answers and refusals are both right; what must not be is neither: the good document at the end waits behind all of them. */
const request = (server: ServerProcess, method: string, params: unknown): void => {
  server.request(method, params).catch(() => undefined);
};

const MISDEEDS: readonly [Misbehave, ...Misbehave[]] = [
  (server, { pick }) => request(server, pick(REQUESTS), pick(ODD_VALUES)),
  (server, { pick }) => server.notify(pick(NOTIFICATIONS), pick(ODD_VALUES)),
  (server, chance) =>
    request(server, chance.pick(REQUESTS), {
      textDocument: { uri: chance.pick([MAIN, ...ODD_URIS]) },
      position: position(chance),
      range: { start: position(chance), end: position(chance) },
      newName: chance.pick(['a', '', '}', 'x'.repeat(10_000)]),
      context: chance.pick([{ diagnostics: [], includeDeclaration: true }, null]),
    }),
  (server, { pick, whole }) =>
    server.open(pick([MAIN, ...ODD_URIS]), pick([GOOD, '', '{'.repeat(1000), '\0\uD83D']), whole(5) - 2),
  (server, { pick }) => server.notify('textDocument/didClose', { textDocument: { uri: pick([MAIN, ...ODD_URIS]) } }),
  (server, chance) =>
    server.change(chance.pick([MAIN, 'file:///never', '']), chance.whole(5) - 2, [
      { range: { start: position(chance), end: position(chance) }, text: chance.pick(['x', '\n', '']) },
    ]),
  (server, { pick }) => server.change(MAIN, 2, [{ text: pick([GOOD, '', '\uFEFF\r\r\n']) }, { text: GOOD }]),
  (server, { whole }) => server.notify('$/cancelRequest', { id: whole(50) }),
  (server) => {
    for (let version = 2; version < 60; version++)
      server.change(MAIN, version, [
        { range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } }, text: ' ' },
      ]);
  },
  (server) => {
    for (let count = 0; count < 40; count++) {
      server.open(`file:///shop/${count}.pickup`, GOOD);
      server.notify('textDocument/didClose', { textDocument: { uri: `file:///shop/${count}.pickup` } });
    }
  },
];

/** Bytes that are no message. A server may end at them, but must not stay and say nothing. */
const BROKEN = [
  'Content-Length: 7\r\n\r\n{"a": }',
  'Foo: bar\r\nContent-Length: 2\r\n\r\n{}',
  'Content-Length: 4\r\n\r\nnull',
  'Content-Length: 2\r\n\r\n[]',
  'Content-Length: x\r\n\r\n',
] as const;

export async function playSession(chance: Chance): Promise<void> {
  const server = await startServer({ initialize: false });
  try {
    if (chance.whole(3) === 0) request(server, chance.pick(REQUESTS), { textDocument: { uri: MAIN } });
    await server
      .request('initialize', { processId: null, rootUri: null, capabilities: {} })
      // Whoever has said `initialize` without sense before is refused the second time.
      .catch(() => undefined);
    server.notify('initialized', {});
    server.open(MAIN, GOOD);
    for (let count = 3 + chance.whole(12); count > 0; count--) chance.pick(MISDEEDS)(server, chance);
    const isBroken = chance.whole(10) === 0;
    if (isBroken) server.child.stdin?.write(chance.pick(BROKEN));
    await answersWell(server).catch((error: unknown) => {
      if (!isBroken || server.child.exitCode === null) throw error;
    });
    await endsWell(server, chance);
  } finally {
    server.child.kill('SIGKILL');
    server.connection.dispose();
  }
}

async function answersWell(server: ServerProcess): Promise<void> {
  const uri = 'file:///shop/good.pickup';
  server.open(uri, GOOD, 77);
  const found = await server.early(uri, 77);
  assert.deepEqual(
    found.map(({ code }) => code),
    ['name/duplicate'],
  );
  const symbols = await server.request<readonly unknown[]>('textDocument/documentSymbol', { textDocument: { uri } });
  assert.equal(symbols.length, 2);
}

async function endsWell(server: ServerProcess, { whole }: Chance): Promise<void> {
  if (server.child.exitCode !== null) return;
  switch (whole(3)) {
    case 0:
      await server.request('shutdown');
      server.notify('exit');
      assert.equal(await server.ended, 0);
      return;
    case 1:
      server.notify('exit');
      assert.equal(await server.ended, 1);
      return;
    default:
      server.child.stdin?.end();
      await server.ended;
  }
}
