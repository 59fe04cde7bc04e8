import { loadTests } from 'editor-tests';
import { runSuite, TEST_TIME_MS } from './run-suite.ts';

/** VS Code calls this in its extension host on Node. */
export async function run(): Promise<void> {
  const { default: Mocha } = await import('mocha');
  const mocha = new Mocha({ ui: 'bdd', reporter: Mocha.reporters.Base, timeout: TEST_TIME_MS });
  // What mocha does before it reads each test file; here the tests are already part of this bundle.
  mocha.suite.emit('pre-require', globalThis, '', mocha);
  loadTests();
  await runSuite(mocha);
}
