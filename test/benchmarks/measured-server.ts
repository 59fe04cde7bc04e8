/** A language server over stdio as any client sees it: findings pushed or asked for, whichever it offers. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import {
  createMessageConnection,
  type MessageConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';

/** A server and a text that it has one thing to say of at least. */
export interface Measurable {
  readonly name: string;
  readonly program: string;
  readonly languageId: string;
  readonly ending: string;
  /** Offsets: behind a digit in the middle of the text, and in a word that has a hover. */
  readonly text: (lines: number) => { readonly text: string; readonly digit: number; readonly word: number };
  /** What it is told of each section of its settings. */
  readonly settings?: unknown;
}

export interface MeasuredServer {
  readonly child: ChildProcess;
  /** From the start of the process to the first findings. */
  readonly firstMs: number;
  /** From a keystroke to the findings of that text: the first of them. */
  type(): Promise<number>;
  /** No number where it has none. */
  hover(): Promise<number>;
  /** The same: from the request to the list. */
  completion(): Promise<number>;
  stop(): Promise<void>;
}

interface Pulled {
  readonly items: readonly unknown[];
}

export async function startMeasured(measurable: Measurable, lines: number): Promise<MeasuredServer> {
  const { program, languageId, ending } = measurable;
  const { text, digit, word } = measurable.text(lines);
  const uri = `file:///bench/main${ending}`;
  const document = TextDocument.create(uri, languageId, 1, text);
  const began = performance.now();
  const child = spawn(process.execPath, [program, '--stdio'], { stdio: ['pipe', 'pipe', 'ignore'] });
  const connection = createMessageConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const told: PublishDiagnosticsParams[] = [];
  let wake = (): void => undefined;
  connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
    told.push(params);
    wake();
  });
  connection.onRequest('workspace/configuration', ({ items }: { readonly items: readonly unknown[] }) =>
    items.map(() => measurable.settings ?? null),
  );
  connection.onRequest(() => null);
  connection.listen();
  const pulls = await initialize(connection);
  let version = 1;
  const diagnosed = async (): Promise<number> => {
    if (pulls) {
      const { items } = await connection.sendRequest<Pulled>('textDocument/diagnostic', { textDocument: { uri } });
      return items.length;
    }
    for (;;) {
      const found = told.find((each) => each.uri === uri && (each.version ?? version) >= version);
      if (found) return found.diagnostics.length;
      await new Promise<void>((resolve) => {
        wake = resolve;
      });
    }
  };
  await connection.sendNotification('textDocument/didOpen', {
    textDocument: { uri, languageId, version, text },
  });
  if ((await diagnosed()) === 0) throw new Error(`${measurable.name} finds nothing: nothing was measured`);
  const firstMs = performance.now() - began;
  const asked = async (what: 'hover' | 'completion'): Promise<number> => {
    const at = performance.now();
    const params = { textDocument: { uri }, position: document.positionAt(word) };
    const answer = await connection.sendRequest(`textDocument/${what}`, params).catch(() => null);
    return answer === null ? Number.NaN : performance.now() - at;
  };
  return {
    child,
    firstMs,
    type: async () => {
      version += 1;
      told.length = 0;
      const start = document.positionAt(digit);
      const isTyped = version % 2 === 0;
      const end = isTyped ? start : { line: start.line, character: start.character + 1 };
      const at = performance.now();
      await connection.sendNotification('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges: [{ range: { start, end }, text: isTyped ? '1' : '' }],
      });
      await diagnosed();
      return performance.now() - at;
    },
    hover: () => asked('hover'),
    completion: () => asked('completion'),
    stop: async () => {
      const ended = new Promise((resolve) => child.once('exit', resolve));
      await connection.sendRequest('shutdown').catch(() => undefined);
      connection.sendNotification('exit').catch(() => undefined);
      await ended;
      connection.dispose();
    },
  };
}

/** True where findings are asked for. */
async function initialize(connection: MessageConnection): Promise<boolean> {
  const { capabilities } = await connection.sendRequest<{ readonly capabilities: { diagnosticProvider?: unknown } }>(
    'initialize',
    {
      processId: process.pid,
      rootUri: null,
      workspaceFolders: null,
      capabilities: {
        workspace: { configuration: true },
        textDocument: {
          publishDiagnostics: { versionSupport: true },
          hover: { contentFormat: ['markdown'] },
          completion: { completionItem: { snippetSupport: true } },
          diagnostic: {},
        },
      },
    },
  );
  await connection.sendNotification('initialized', {});
  return capabilities.diagnosticProvider !== undefined;
}

/** Resident memory of a process; Linux only, elsewhere no number. */
export function residentMb(pid: number | undefined): number {
  try {
    return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]) / 1024;
  } catch {
    return Number.NaN;
  }
}
