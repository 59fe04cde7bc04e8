/** What starts a line that is meant for the person who runs the tests; the editor's own chatter carries no mark. */
export const mark = '[test] ';

/**
 * For each test and hook; given to mocha before the tests are read, since they take it over from there. A test takes a second or two:
 * the rest is for machines with other work.
 */
export const TEST_TIME_MS = 240_000;

/** What is waited for in the window itself, less than a test has, so that a failure names it. */
export const PATIENCE_MS = 120_000;

/** A test that takes longer says so. */
const SLOW_S = 1.5;

/** What the two builds of mocha, for Node and for the browser, have in common. */
export interface MochaLike {
  forbidOnly(): unknown;
  forbidPending(): unknown;
  run(done: (failures: number) => void): Mocha.Runner;
}

/**
 * Runs mocha's tests inside the extension host and says for each how it went, in lines that survive the way out of the
 * editor; mocha's own reporter should be one that prints nothing. Rejects when a test fails and when there
 * is none, which is what makes the editor end with an error.
 */
export async function runSuite(mocha: MochaLike): Promise<void> {
  mocha.forbidOnly();
  mocha.forbidPending();
  await new Promise<void>((resolve, reject) => {
    let passed = 0;
    let failed = 0;
    const runner = mocha.run(() => {
      say(`editor: ${passed} passed, ${failed} failed`);
      if (failed > 0) reject(new Error(`${failed} failed`));
      else if (passed === 0) reject(new Error('no test ran'));
      else resolve();
    });
    runner.on('pass', (test) => {
      passed += 1;
      const seconds = (test.duration ?? 0) / 1000;
      say(`  ✔ ${test.fullTitle()}${seconds < SLOW_S ? '' : ` (${seconds.toFixed(1)} s)`}`);
    });
    runner.on('fail', (test, error: unknown) => {
      failed += 1;
      say(`  ✘ ${test.fullTitle()}`);
      say(error instanceof Error ? (error.stack ?? error.message) : String(error));
    });
  });
}

function say(text: string): void {
  for (const line of text.split('\n')) console.log(mark + line);
}
