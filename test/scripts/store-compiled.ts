/** Runs a program as it is shipped, and stores what was compiled of it once it ends. */
import { writeFileSync } from 'node:fs';
import { loadProgram } from '../../server/src/lsp/compiled-code.ts';
import { beFrugal } from '../../server/src/lsp/frugal-node.ts';

beFrugal();
const [, , program = '', stored = ''] = process.argv;
const loaded = loadProgram(program);
process.once('exit', () => writeFileSync(stored, loaded.compiled()));
loaded.run();
