import { type ChildProcess, spawn } from 'node:child_process';
import { Socket } from 'node:net';
import {
  createMessageConnection,
  type Diagnostic,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { ANALYSED_NOTIFICATION, type AnalysedParams, PROTOCOL_VERSION } from '../../server/src/lsp/protocol.ts';
import { bundled, SERVER } from '../support/bundled.ts';

/** A running server over stdio and the client that talks to it. */
export interface ServerProcess {
  readonly child: ChildProcess;
  readonly connection: MessageConnection;
  /** Every publish so far, in order. */
  readonly published: readonly PublishDiagnosticsParams[];
  readonly log: readonly string[];
  request<R = unknown>(method: string, params?: unknown): Promise<R>;
  notify(method: string, params?: unknown): void;
  open(uri: string, text: string, version?: number): void;
  change(uri: string, version: number, contentChanges: readonly unknown[]): void;
  /** Waits for the first diagnostics of this version: those of the text may come before those of the circuit. */
  early(uri: string, version: number): Promise<readonly Diagnostic[]>;
  /** Waits for the diagnostics of this version, the circuit solved. */
  diagnosed(uri: string, version: number): Promise<readonly Diagnostic[]>;
  /** The same once the findings that need heavy numbers are there too. */
  completelyDiagnosed(uri: string, version: number): Promise<readonly Diagnostic[]>;
  /** Asks again after every message of the server, until there is an answer; rejects where no more messages come. */
  until<T>(ask: () => T | undefined): Promise<T>;
  /** Resolves with the exit code once the process has ended. */
  readonly ended: Promise<number | null>;
  stop(): Promise<void>;
}

export interface StartOptions {
  /** A file that is started by itself, without a word behind it; otherwise the bundled server. */
  readonly program?: string;
  readonly capabilities?: unknown;
  readonly workspace?: string;
  /** The client's answer to `workspace/configuration`. */
  readonly settings?: unknown;
  /** Beside those by which the server tells when it has done. */
  readonly initializationOptions?: object;
  readonly initialize?: boolean;
}

/** Less than a test has, so that a failure names what it waited for; a server that works says something long before. */
const SILENCE_MS = 50_000;

/** Starts a server; by default with a client that can do nothing. */
export async function startServer(options: StartOptions = {}): Promise<ServerProcess> {
  const [command, ...words] =
    options.program === undefined ? [process.execPath, await bundled(SERVER), '--stdio'] : [options.program];
  const child = spawn(command, words, { stdio: ['pipe', 'pipe', 'pipe'] });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const published: PublishDiagnosticsParams[] = [];
  const log: string[] = [];
  const analysed = new Set<string>();
  const completed = new Set<string>();
  const waiting = new Set<() => void>();
  child.stderr.on('data', (data: Buffer) => log.push(data.toString()));
  child.stdin.on('error', () => undefined);
  // A test that fails before it stops its server must not keep the whole run waiting; the server ends with its input.
  child.unref();
  for (const stream of child.stdio) if (stream instanceof Socket) stream.unref();
  const ended = new Promise<number | null>((resolve) => {
    child.once('exit', (code) => {
      resolve(code);
      for (const wake of waiting) wake();
    });
  });
  connection.onError(() => undefined);
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    published.push(params);
    for (const wake of waiting) wake();
  });
  connection.onNotification(ANALYSED_NOTIFICATION, ({ uri, version, complete }: AnalysedParams) => {
    analysed.add(`${version} ${uri}`);
    if (complete) completed.add(`${version} ${uri}`);
    for (const wake of waiting) wake();
  });
  connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
    log.push(message);
  });
  connection.onRequest('workspace/configuration', ({ items }: { items: unknown[] }) =>
    items.map(() => options.settings ?? null),
  );
  connection.onRequest(() => null);
  connection.listen();
  const lastOf = (uri: string, version: number) =>
    published.findLast((each) => each.uri === uri && each.version === version);
  const until = async <T>(ask: () => T | undefined): Promise<T> => {
    for (;;) {
      const answer = ask();
      if (answer !== undefined) return answer;
      if (child.exitCode !== null) throw new Error(`the server has ended\n${log.join('\n')}`);
      await new Promise<void>((resolve, reject) => {
        const wake = (): void => {
          clearTimeout(silent);
          waiting.delete(wake);
          resolve();
        };
        const silent = setTimeout(() => {
          waiting.delete(wake);
          reject(new Error(`the server has said nothing more for ${SILENCE_MS / 1000} s\n${log.join('\n')}`));
        }, SILENCE_MS);
        waiting.add(wake);
      });
    }
  };
  const server: ServerProcess = {
    child,
    connection,
    published,
    log,
    ended,
    request: (method, params) => connection.sendRequest(method, params),
    notify: (method, params) => {
      connection.sendNotification(method, params).catch(() => undefined);
    },
    open: (uri, text, version = 1) =>
      server.notify('textDocument/didOpen', { textDocument: { uri, languageId: 'pickup', version, text } }),
    change: (uri, version, contentChanges) =>
      server.notify('textDocument/didChange', { textDocument: { uri, version }, contentChanges }),
    until,
    early: (uri, version) => until(() => lastOf(uri, version)?.diagnostics),
    diagnosed: (uri, version) =>
      until(() => (analysed.has(`${version} ${uri}`) ? lastOf(uri, version)?.diagnostics : undefined)),
    completelyDiagnosed: (uri, version) =>
      until(() => (completed.has(`${version} ${uri}`) ? lastOf(uri, version)?.diagnostics : undefined)),
    stop: async () => {
      if (child.exitCode === null) {
        await connection.sendRequest('shutdown').catch(() => undefined);
        connection.sendNotification('exit').catch(() => undefined);
      }
      await ended;
      connection.dispose();
    },
  };
  if (options.initialize !== false) {
    const { workspace, capabilities = {}, initializationOptions } = options;
    await server.request('initialize', {
      processId: null,
      rootUri: workspace ?? null,
      workspaceFolders: workspace === undefined ? null : [{ uri: workspace, name: 'shop' }],
      capabilities,
      initializationOptions: { protocol: PROTOCOL_VERSION, ...initializationOptions },
    });
    server.notify('initialized', {});
  }
  return server;
}
