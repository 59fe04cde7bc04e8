/** Where a shell starts: the process as a context, and nothing else. */
import { realpathSync } from 'node:fs';
import { createInterface } from 'node:readline/promises';
import { isMainThread } from 'node:worker_threads';
import { createAnalyser } from '../analysis/analysis.ts';
import { forLocale } from './ascii.ts';
import { checkTask } from './check-file.ts';
import type { ExitCode } from './command.ts';
import { commands } from './commands.ts';
import { factsTask, recordTask } from './list-tasks.ts';
import type { Output } from './output.ts';
import { progressOn } from './progress.ts';
import { run } from './run.ts';
import { stylesFor } from './styles.ts';
import { errorCode, fileProblem, LARGEST_BYTES } from './text-file.ts';
import { KEPT_FILES, manyThreads, oneThread, serveThread } from './threads.ts';

// The threads that `manyThreads` starts run this very file.
if (isMainThread) begin();
else serveThread([checkTask, factsTask, recordTask]);

function begin(): void {
  /** Whether a stream has failed; what is written to it afterwards is dropped. */
  const failed = { stdout: false, stderr: false };

  process.stdout.on('error', (error) => {
    if (failed.stdout) return;
    failed.stdout = true;
    // A reader that has seen enough (`| head`) closes the pipe; that is no fault, and the code is that of the command.
    if (errorCode(error) === 'EPIPE') return;
    stderr.write(`pickup-spec: standard output: ${fileProblem(error)}\n`);
    outcome = 2;
    process.exitCode = 2;
  });
  process.stderr.on('error', () => {
    failed.stderr = true;
  });

  const plain = (name: 'stdout' | 'stderr'): Output => ({
    isTerminal: process[name].isTTY === true,
    columns: process[name].isTTY ? process[name].columns : undefined,
    write: (text) => {
      if (!failed[name]) process[name].write(text);
    },
  });

  /** Instead of the command's own code. */
  let outcome: ExitCode | undefined;
  const stderr = forLocale(plain('stderr'), process.env);
  const stdout = forLocale(plain('stdout'), process.env);

  const analyser = createAnalyser(KEPT_FILES);
  const program = realpathSync(process.argv[1] ?? '');
  // Threads do not read the sources as they are.
  const isBundle = program.endsWith('.cjs');
  void run(process.argv.slice(2), commands, {
    cwd: process.cwd(),
    environment: process.env,
    stdout,
    stderr,
    styles: stylesFor(stdout.isTerminal, process.env),
    progress: progressOn(stderr),
    readStandardInput: () => {
      if (process.stdin.isTTY) stderr.write('standard input is read; Ctrl+D ends it\n');
      return readStandardInput();
    },
    ...(process.stdin.isTTY && process.stderr.isTTY ? { ask } : {}),
    analyser,
    threads: isBundle ? manyThreads(program, analyser) : oneThread(analyser),
  }).then((code) => {
    // Not process.exit: what is written to a pipe would be cut off.
    process.exitCode = outcome ?? code;
  });
}

/** The question goes where everything goes that is no result. */
async function ask(question: string): Promise<string> {
  const lines = createInterface({ input: process.stdin, output: process.stderr });
  // Ctrl+D closes it without an answer: the usual one is taken.
  const closed = new Promise<string>((resolve) => lines.once('close', () => resolve('')));
  try {
    return await Promise.race([lines.question(question).catch(() => ''), closed]);
  } finally {
    lines.close();
  }
}

async function readStandardInput(): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let bytes = 0;
  for await (const piece of process.stdin as AsyncIterable<Uint8Array>) {
    pieces.push(piece);
    bytes += piece.length;
    // What is larger is refused, and has no end, maybe.
    if (bytes > LARGEST_BYTES) break;
  }
  return Buffer.concat(pieces);
}
