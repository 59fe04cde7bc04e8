/** What a client or a shell starts: the server beside it, as it was compiled where this Node can read that. */
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import manifest from '../../../package.json' with { type: 'json' };
import { compiledFile, loadProgram } from './compiled-code.ts';
import { beFrugal } from './frugal-node.ts';
import { readServerOptions } from './server-options.ts';

const asked = readServerOptions(process.argv.slice(2), manifest.version);
if (asked.kind === 'serve') {
  process.argv = [...process.argv.slice(0, 2), ...asked.words];
  serve();
} else if (asked.kind === 'print') {
  process.stdout.write(asked.text);
} else {
  process.stderr.write(asked.line);
  process.exitCode = 2;
}

function serve(): void {
  beFrugal();
  const server = path.join(__dirname, 'server-node.cjs');
  const compiled = existsSync(compiledFile(server)) ? loadProgram(server) : undefined;
  // Otherwise by the engine's own means, which may keep compiled code elsewhere.
  if (compiled?.isCompiled) compiled.run();
  else createRequire(server)(server);
}
