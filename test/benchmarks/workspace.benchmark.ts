import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { loadavg, tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import {
  createMessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { IN_SIGHT_NOTIFICATION, PROTOCOL_VERSION } from '../../server/src/lsp/protocol.ts';
import { bundles, writeBundles } from '../scripts/build.ts';
import { compileServer } from '../scripts/compile-server.ts';
import { root } from '../scripts/steps.ts';
import { shopFiles, writeShop } from './generated-shop.ts';
import { residentMb } from './measured-server.ts';

const FILES = Number(process.env.SHOP_FILES?.split(',')[0] ?? 2000);
const KEYSTROKES = 40;
/** A fast typist's pause. */
const THINK_MS = 60;
const IN_SIGHT = 2;
const PARTS = 'parts/stock.pickup';

/** The server over a large workspace: its index, many open files, and an edit of what all of them use. */
export async function run(): Promise<void> {
  await writeBundles(
    bundles.filter(({ output }) => output.startsWith('dist/server/') && output.endsWith('.cjs')),
    root,
  );
  await compileServer(path.join(root, 'dist', 'server', 'server-node.cjs'), root, writeBundles);
  const folder = mkdtempSync(path.join(tmpdir(), 'shop-'));
  try {
    writeShop(folder, FILES);
    await measure(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measure(folder: string): Promise<void> {
  const server = await start(folder);
  const names = shopFiles(FILES);
  const middle = names[FILES >> 1] ?? '';
  const say = (what: string, ...figures: readonly string[]): void =>
    console.log(`| ${[what, ...figures].join(' | ')} |`);
  console.log(
    `server over ${FILES} files, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}; ms, median / p95 / most`,
  );
  console.log('| what | ms | MB |');
  console.log('|---|--:|--:|');
  const mb = (): string => residentMb(server.pid).toFixed(0);

  await server.open(middle);
  say('first findings of one file', (await server.told(middle)).toFixed(0), mb());
  const meanwhile = await server.type(middle);
  say('keystroke while the index is made', figures(meanwhile), mb());
  const asked = performance.now();
  await server.request('workspace/symbol', { query: `p${FILES - 1}` });
  say('index, once somebody waits for it', (performance.now() - asked).toFixed(0), mb());
  await sleep(1000);
  const alone = await server.type(middle);
  say('keystroke, one file open', figures(alone), mb());

  const opening = performance.now();
  for (const name of names) if (name !== middle) await server.open(name);
  await Promise.all(names.map((name) => server.told(name)));
  say(`findings of all ${FILES}, opened at once`, (performance.now() - opening).toFixed(0), mb());
  await sleep(1000);
  const among = await server.type(middle);
  say(`keystroke, ${FILES} files open`, `${figures(among)} (${(median(among) / median(alone)).toFixed(1)})`, mb());

  await server.open(PARTS);
  await server.told(PARTS);
  await sleep(1000);
  const inSight = [names[FILES - 1], names[0]].flatMap((each) => each ?? []).slice(0, IN_SIGHT);
  await server.look(inSight);
  const spaces = performance.now();
  await server.edit(PARTS, 'core 60.0', ' ');
  await server.settled(names);
  say('a space in what all use: all findings', (performance.now() - spaces).toFixed(0), mb());
  const edited = performance.now();
  await server.edit(PARTS, 'core 60.', '1');
  await Promise.all(inSight.map((name) => server.told(name)));
  say('a number in what all use: findings in sight', (performance.now() - edited).toFixed(0), mb());
  say('keystroke while the others follow', figures(await server.type(middle)), mb());
  await server.stop();
}

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;
const figures = (times: readonly number[]): string => {
  const sorted = [...times].sort((a, b) => a - b);
  const p95 = sorted[Math.floor((sorted.length - 1) * 0.95)] ?? Number.NaN;
  return [median(times), p95, sorted.at(-1) ?? Number.NaN].map((ms) => ms.toFixed(1)).join(' / ');
};

interface Running {
  readonly pid: number | undefined;
  open(name: string): Promise<void>;
  /** Resolves with the time since it was opened or edited, once findings of that text have been sent. */
  told(name: string): Promise<number>;
  /** Resolves once nothing has been sent for these files for a while, or each has been told. */
  settled(names: readonly string[]): Promise<void>;
  /** Puts something behind a piece of the text. */
  edit(name: string, behind: string, text: string): Promise<void>;
  /** Keystrokes one by one, each with the time until its findings. */
  type(name: string): Promise<readonly number[]>;
  look(names: readonly string[]): Promise<void>;
  request(method: string, params: unknown): Promise<unknown>;
  stop(): Promise<void>;
}

interface OpenFile {
  text: string;
  version: number;
  since: number;
  /** When findings of this version, or of what it uses, were sent last. */
  told: number | undefined;
}

async function start(folder: string): Promise<Running> {
  const program = path.join(root, 'dist', 'server', 'main-node.cjs');
  const child = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const uriOf = (name: string): string => pathToFileURL(path.join(folder, name)).href;
  const files = new Map<string, OpenFile>();
  const waiting = new Set<() => void>();
  connection.onNotification('textDocument/publishDiagnostics', ({ uri, version }: PublishDiagnosticsParams) => {
    const file = files.get(uri);
    if (file && version === file.version) file.told = performance.now();
    for (const wake of [...waiting]) wake();
  });
  connection.onRequest(() => null);
  connection.listen();
  const fileOf = (name: string): OpenFile => {
    const file = files.get(uriOf(name));
    if (file === undefined) throw new Error(`${name} is not open`);
    return file;
  };
  const until = async (isSo: () => boolean): Promise<void> => {
    while (!isSo()) {
      await new Promise<void>((resolve) => {
        const wake = (): void => {
          waiting.delete(wake);
          resolve();
        };
        waiting.add(wake);
      });
    }
  };
  const change = async (name: string, at: number, length: number, text: string): Promise<void> => {
    const file = fileOf(name);
    const position = (offset: number) => {
      const lines = file.text.slice(0, offset).split('\n');
      return { line: lines.length - 1, character: lines.at(-1)?.length ?? 0 };
    };
    const range = { start: position(at), end: position(at + length) };
    file.text = file.text.slice(0, at) + text + file.text.slice(at + length);
    file.version += 1;
    const since = performance.now();
    for (const each of files.values()) Object.assign(each, { since, told: undefined });
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: uriOf(name), version: file.version },
      contentChanges: [{ range, text }],
    });
  };
  const told = async (name: string): Promise<number> => {
    const file = fileOf(name);
    await until(() => file.told !== undefined);
    return (file.told ?? Number.NaN) - file.since;
  };
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: pathToFileURL(folder).href,
    capabilities: { textDocument: { publishDiagnostics: { versionSupport: true } } },
    initializationOptions: { protocol: PROTOCOL_VERSION },
  });
  await connection.sendNotification('initialized', {});
  return {
    pid: child.pid,
    open: async (name) => {
      const text = readFileSync(path.join(folder, name), 'utf8');
      files.set(uriOf(name), { text, version: 1, since: performance.now(), told: undefined });
      await connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri: uriOf(name), languageId: 'pickup', version: 1, text },
      });
    },
    told,
    settled: async (names) => {
      await Promise.all(names.map(told));
    },
    edit: async (name, behind, text) => {
      const { text: now } = fileOf(name);
      await change(name, now.indexOf(behind) + behind.length, 0, text);
    },
    type: async (name) => {
      const times: number[] = [];
      for (let key = 0; key < KEYSTROKES; key += 1) {
        const at = fileOf(name).text.indexOf('turns 4_9') + 'turns 4_9'.length;
        await (key % 2 === 0 ? change(name, at, 0, '1') : change(name, at, 1, ''));
        times.push(await told(name));
        await sleep(THINK_MS);
      }
      return times;
    },
    look: (names) =>
      connection.sendNotification(IN_SIGHT_NOTIFICATION, { protocol: PROTOCOL_VERSION, uris: names.map(uriOf) }),
    request: (method, params) => connection.sendRequest(method, params),
    stop: async () => {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      await connection.sendRequest('shutdown').catch(() => undefined);
      connection.sendNotification('exit').catch(() => undefined);
      await ended;
      connection.dispose();
    },
  };
}
