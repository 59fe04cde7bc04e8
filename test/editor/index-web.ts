import 'mocha/mocha.js';
import { loadTests } from 'editor-tests';
import { env } from 'vscode';
import { runSuite, TEST_TIME_MS } from './run-suite.ts';

/** The suites of an editor in another language are called by it. */
const OTHER_LANGUAGE = /^in German /;

/** VS Code calls this in its extension host in a browser's worker. */
export async function run(): Promise<void> {
  mocha.setup({ ui: 'bdd', reporter: Mocha.reporters.Base, timeout: TEST_TIME_MS });
  loadTests();
  mocha.grep(OTHER_LANGUAGE);
  if (env.language === 'en') mocha.invert();
  await runSuite(mocha);
}
