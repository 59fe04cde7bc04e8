/** Where a shell starts: the process as a context, and nothing else. */
import { createAnalyser } from '../analysis/analysis.ts';
import { forLocale } from './ascii.ts';
import { commands } from './commands.ts';
import type { Output } from './output.ts';
import { progressOn } from './progress.ts';
import { run } from './run.ts';
import { stylesFor } from './styles.ts';
import { errorCode } from './text-file.ts';

// A reader that has seen enough (`| head`) closes the pipe; that is no fault of the command.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error) => process.exit(errorCode(error) === 'EPIPE' ? 0 : 2));
}

const plain = (stream: NodeJS.WriteStream): Output => ({
  isTerminal: stream.isTTY === true,
  columns: stream.isTTY ? stream.columns : undefined,
  write: (text) => void stream.write(text),
});

const stderr = forLocale(plain(process.stderr), process.env);
const stdout = forLocale(plain(process.stdout), process.env);

void run(process.argv.slice(2), commands, {
  cwd: process.cwd(),
  environment: process.env,
  stdout,
  stderr,
  styles: stylesFor(stdout.isTerminal, process.env),
  progress: progressOn(stderr),
  readStandardInput,
  analyser: createAnalyser(),
}).then((code) => {
  // Not process.exit: what is written to a pipe would be cut off.
  process.exitCode = code;
});

async function readStandardInput(): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  for await (const piece of process.stdin) pieces.push(piece);
  return Buffer.concat(pieces);
}
