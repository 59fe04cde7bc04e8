import 'mocha/mocha.js';
import { loadTests } from 'editor-tests';
import { runSuite, TEST_TIME_MS } from './run-suite.ts';

/** VS Code calls this in its extension host in a browser's worker. */
export async function run(): Promise<void> {
  mocha.setup({ ui: 'bdd', reporter: Mocha.reporters.Base, timeout: TEST_TIME_MS });
  loadTests();
  await runSuite(mocha);
}
