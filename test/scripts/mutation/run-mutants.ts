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

/** How long each test, and each file of tests, took without a change: the quick ones go first. */
const took = new Map<string, number>();
const tookOf = (title: string): number => took.get(title) ?? 0;

type Files = ReadonlyMap<string, () => void>;

/** Everything anew: nothing that was remembered before is known to it. */
function evaluated(): Files {
  const module = { exports: {} as Readonly<Record<string, () => void>> };
  (script.runInThisContext() as (...args: unknown[]) => void)(require, module, module.exports);
  return new Map(Object.entries(module.exports));
}

/** Runs the tests of a file that are `wanted`, up to the first failure where `bail` says so. */
async function runFile(
  load: () => void,
  bail: boolean,
  wanted: (title: string) => boolean,
  at: (title: string) => void = () => undefined,
): Promise<Run> {
  const mocha = new Mocha({ bail, timeout: 600_000, reporter: Silent, diff: false });
  mocha.suite.emit('pre-require', globalThis as never, bundle, mocha);
  try {
    load();
  } catch (error) {
    return { failures: [`loading: ${error instanceof Error ? error.message : error}`], tests: [] };
  }
  for (const suite of suitesOf(mocha.suite))
    suite.tests = suite.tests
      .filter((test) => wanted(test.fullTitle()))
      .sort((a, b) => tookOf(a.fullTitle()) - tookOf(b.fullTitle()));
  const failures: string[] = [];
  const tests: { title: string; ms: number }[] = [];
  await new Promise<void>((resolve) => {
    const runner = mocha.run(() => resolve());
    runner.on('hook', ({ title, parent, ctx }) =>
      at((title.includes('all') ? parent?.fullTitle() : ctx?.currentTest?.fullTitle()) ?? ''),
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

/** File by file, under which titles (of a test, of a suite, or of none while it is loaded) each mutant's place is reached. */
const reached = new Map<number, Map<string, Set<string>>>();
let place = { file: '', title: '' };
let asked = 0;
ask = (id) => {
  asked++;
  const files = reached.get(id) ?? new Map<string, Set<string>>();
  reached.set(id, files);
  files.set(place.file, (files.get(place.file) ?? new Set<string>()).add(place.title));
  return false;
};
let count = 0;
const failed: string[] = [];
// Each file by itself, so that what one reaches does not hang on what another has made before.
for (const file of evaluated().keys()) {
  place = { file, title: '' };
  const { failures, tests } = await runFile(
    evaluated().get(file) ?? (() => undefined),
    false,
    () => true,
    (title) => {
      place = { file, title };
    },
  );
  for (const { title, ms } of tests) took.set(title, ms);
  took.set(
    file,
    tests.reduce((sum, { ms }) => sum + ms, 0),
  );
  count += tests.length;
  failed.push(...failures);
}
const most = asked * MOST_TIMES + 1_000_000;
tell({ kind: 'ready', tests: count, failed, reached: [...reached.keys()] });

async function killerOf(id: number): Promise<string | undefined> {
  let left = most;
  ask = (other) => {
    if (left-- < 0) throw new Error('it goes on for ever');
    return other === id;
  };
  const files = [...(reached.get(id) ?? [])].sort(([a], [b]) => tookOf(a) - tookOf(b));
  const failureOf = async (isWanted: (titles: ReadonlySet<string>, test: string) => boolean) => {
    const fresh = evaluated();
    for (const [file, titles] of files) {
      const { failures } = await runFile(fresh.get(file) ?? (() => undefined), true, (test) => isWanted(titles, test));
      if (failures[0] !== undefined) return failures[0];
    }
    return undefined;
  };
  const isReaching = (titles: ReadonlySet<string>, test: string) =>
    [...titles].some((each) => each === test || test.startsWith(each));
  try {
    // What one test has made is remembered for the next, which may look at it without passing there again.
    return (await failureOf(isReaching)) ?? (await failureOf(() => true));
  } catch (error) {
    return String(error);
  }
}

process.on('disconnect', () => process.exit());
process.on('message', ({ id }: { id: number }) => {
  void killerOf(id).then((killedBy) => tell({ kind: 'done', id, killedBy }));
});
