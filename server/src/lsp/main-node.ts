/** What a client starts: the server beside it, as it was compiled where this Node can read that. */
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { compiledFile, loadProgram } from './compiled-code.ts';

const server = path.join(__dirname, 'server-node.cjs');
const compiled = existsSync(compiledFile(server)) ? loadProgram(server) : undefined;
// Otherwise by the engine's own means, which may keep compiled code elsewhere.
if (compiled?.isCompiled) compiled.run();
else createRequire(server)(server);
