/**
 * Runs the built server once as a client would use it, and stores beside it what was compiled for that. It is for this computer's own
 * Node, and no part of the package, whose bytes depend on nothing but its contents: an editor brings an engine of its own.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createMessageConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node';
import { compiledFile } from '../../server/src/lsp/compiled-code.ts';
import { ANALYSED_NOTIFICATION, type AnalysedParams, PROTOCOL_VERSION } from '../../server/src/lsp/protocol.ts';
import type { Bundle } from './build.ts';

const URI = 'file:///bench/main.pickup';

type WriteBundles = (list: readonly Bundle[], root: string) => Promise<unknown>;

export async function compileServer(server: string, root: string, writeBundles: WriteBundles): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'pickup-compile-'));
  try {
    const writer = path.join(folder, 'store-compiled.cjs');
    await writeBundles(
      [{ entry: 'test/scripts/store-compiled.ts', output: path.relative(root, writer), runsIn: 'node' }],
      root,
    );
    const stored = path.join(folder, 'compiled');
    await useOnce(writer, [server, stored], exampleText(root));
    renameSync(stored, compiledFile(server));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function exampleText(root: string): string {
  const template = readFileSync(path.join(root, 'test', 'benchmarks', 'realistic.tpl'), 'utf8').replace(/⦗.⦘/g, '');
  const [parts = '', pickup = ''] = template.split('%%\n');
  return parts + [1, 2, 3].map((index) => pickup.replaceAll('{{i}}', String(index))).join('');
}

async function useOnce(writer: string, args: readonly string[], text: string): Promise<void> {
  const child = spawn(process.execPath, [writer, ...args, '--stdio'], { stdio: ['pipe', 'pipe', 'inherit'] });
  const ended = new Promise<void>((resolve, reject) => {
    child.once('error', reject);
    child.once('exit', (code) => (code === 0 ? resolve() : reject(new Error(`the server ended with ${code}`))));
  });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  let version = 0;
  const complete = () =>
    new Promise<void>((resolve) => {
      connection.onNotification(ANALYSED_NOTIFICATION, (told: AnalysedParams) => {
        if (told.complete && told.version === version) resolve();
      });
    });
  const uses = async (): Promise<void> => {
    connection.listen();
    await connection.sendRequest('initialize', {
      processId: null,
      rootUri: null,
      capabilities: {},
      initializationOptions: { protocol: PROTOCOL_VERSION },
    });
    await connection.sendNotification('initialized', {});
    version = 1;
    const first = complete();
    await connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri: URI, languageId: 'pickup', version, text },
    });
    await first;
    const line = text.slice(0, text.indexOf('turns ')).split('\n').length - 1;
    const position = { line, character: text.split('\n')[line]?.indexOf('turns ') ?? 0 };
    for (const method of ['hover', 'completion', 'documentSymbol', 'semanticTokens/full'])
      await connection.sendRequest(`textDocument/${method}`, { textDocument: { uri: URI }, position });
    version = 2;
    const second = complete();
    await connection.sendNotification('textDocument/didChange', {
      textDocument: { uri: URI, version },
      contentChanges: [{ range: { start: position, end: position }, text: ' ' }],
    });
    await second;
    await connection.sendRequest('shutdown');
    await connection.sendNotification('exit');
  };
  await Promise.race([Promise.all([uses(), ended]), ended]);
  connection.dispose();
}
