/**
 * The tests of one part, bundled with all mutants of its sources, in one process: the bundle is compiled once and evaluated anew for
 * each mutant, so that nothing remembered of one reaches the next. Started by `mutate.ts`, which it tells what it finds.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import vm from 'node:vm';
import Mocha from 'mocha';

export type Message =
  | {
      readonly kind: 'ready';
      readonly tests: number;
      readonly failed: readonly string[];
      readonly reached: readonly number[];
    }
  | { readonly kind: 'done'; readonly id: number; readonly killedBy: string | undefined };

/** Answers which mutant is meant, at every place where one might be. */
interface MutantGlobal {
  __mutant(id: number): boolean;
}

const tell = (message: Message): void => {
  process.send?.(message);
};

const [bundle = ''] = process.argv.slice(2);
const script = new vm.Script(`(function (require, module, exports) {${readFileSync(bundle, 'utf8')}\n})`, {
  filename: bundle,
});
const require = createRequire(bundle);

// Each run of the tests listens for what nobody catches.
process.setMaxListeners(0);

let ask: (id: number) => boolean = () => false;
(globalThis as unknown as MutantGlobal).__mutant = (id) => ask(id);

/** What is found is told by `tell`; this only takes the place of a reporter. */
class Silent extends Mocha.reporters.Base {}

interface Run {
  readonly failures: readonly string[];
  readonly tests: readonly { readonly title: string; readonly ms: number }[];
}

/** How long each test took without a change: the quick ones go first. */
const took = new Map<string, number>();
const tookOf = (suite: Mocha.Suite): number =>
  suite.tests.reduce((sum, test) => sum + (took.get(test.fullTitle()) ?? 0), 0) +
  suite.suites.reduce((sum, each) => sum + tookOf(each), 0);

/** Runs the tests that are `wanted`, up to the first failure where `bail` says so. */
async function runTests(
  bail: boolean,
  wanted: (title: string) => boolean,
  at: (title: string) => void = () => undefined,
): Promise<Run> {
  const mocha = new Mocha({ bail, timeout: 600_000, reporter: Silent, diff: false });
  mocha.suite.emit('pre-require', globalThis as never, bundle, mocha);
  at('');
  const module = { exports: {} };
  try {
    (script.runInThisContext() as (...args: unknown[]) => void)(require, module, module.exports);
  } catch (error) {
    return { failures: [`loading: ${error instanceof Error ? error.message : error}`], tests: [] };
  }
  for (const suite of suitesOf(mocha.suite)) {
    suite.tests = suite.tests
      .filter((test) => wanted(test.fullTitle()))
      .sort((a, b) => (took.get(a.fullTitle()) ?? 0) - (took.get(b.fullTitle()) ?? 0));
  }
  for (const suite of suitesOf(mocha.suite)) suite.suites.sort((a, b) => tookOf(a) - tookOf(b));
  const failures: string[] = [];
  const tests: { title: string; ms: number }[] = [];
  await new Promise<void>((resolve) => {
    const runner = mocha.run(() => resolve());
    runner.on('hook', (hook) =>
      at(hook.title.includes('all') ? (hook.parent?.fullTitle() ?? '') : (hook.ctx?.currentTest?.fullTitle() ?? '')),
    );
    runner.on('test', (test) => at(test.fullTitle()));
    runner.on('pass', (test) => tests.push({ title: test.fullTitle(), ms: test.duration ?? 0 }));
    runner.on('fail', (test) => failures.push(test.fullTitle()));
  });
  mocha.dispose();
  return { failures, tests };
}

const suitesOf = (suite: Mocha.Suite): readonly Mocha.Suite[] => [suite, ...suite.suites.flatMap(suitesOf)];

/** A mutant that asks so much more often than all tests do without it is taken to run for ever. */
const MOST_TIMES = 3;

/** Under which titles (of a test, of a suite, or of none while the files are read) each mutant's place is reached. */
const reached = new Map<number, Set<string>>();
let title = '';
let asked = 0;
ask = (id) => {
  asked++;
  const titles = reached.get(id) ?? new Set();
  reached.set(id, titles.add(title));
  return false;
};
const whole = await runTests(
  false,
  () => true,
  (now) => {
    title = now;
  },
);
for (const { title: test, ms } of whole.tests) took.set(test, ms);
const most = asked * MOST_TIMES;
tell({ kind: 'ready', tests: whole.tests.length, failed: whole.failures, reached: [...reached.keys()] });

process.on('message', ({ id }: { id: number }) => {
  const titles = [...(reached.get(id) ?? [])];
  let left = most;
  ask = (other) => {
    if (left-- < 0) throw new Error('it goes on for ever');
    return other === id;
  };
  void runTests(true, (test) => titles.some((each) => each === test || test.startsWith(each))).then(({ failures }) => {
    tell({ kind: 'done', id, killedBy: failures[0] });
  });
});
