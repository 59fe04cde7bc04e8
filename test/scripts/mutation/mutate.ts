/**
 * Changes the sources on purpose, one small change at a time, and tells which changes no test of their part notices.
 *
 *     npm run mutate -- [--part NAME] [--file PART-OF-A-PATH] [--sample N] [--seed S] [--list]
 */
import { type ChildProcess, fork } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import { build } from 'esbuild';
import { API } from 'typescript/unstable/sync';
import { chance } from '../../support/chance.ts';
import { root } from '../steps.ts';
import { equivalenceOf } from './equivalent.ts';
import { type Mutant, mutate } from './mutants.ts';
import { MUTATED_PARTS, type MutatedPart } from './parts.ts';
import type { Message } from './run-mutants.ts';

const { values } = parseArgs({
  options: {
    part: { type: 'string' },
    file: { type: 'string', default: '' },
    sample: { type: 'string', default: '' },
    seed: { type: 'string', default: '1' },
    list: { type: 'boolean', default: false },
  },
});

/** A mutant without an answer for so long runs for ever outside of its own file. */
const LONGEST_MS = 240_000;

type Fate = 'killed' | 'survived' | 'not reached' | 'the same';

const folder = mkdtempSync(path.join(tmpdir(), 'pickup-mutants-'));
const api = new API();
let survivors = 0;
try {
  const project = api.updateSnapshot({ openProjects: [path.join(root, 'tsconfig.json')] }).getProjects()[0];
  if (!project) throw new Error('the compiler opens no project');
  for (const part of MUTATED_PARTS.filter(({ name }) => values.part === undefined || name === values.part)) {
    const files = part.sources.filter((file) => file.includes(values.file));
    if (files.length === 0) continue;
    const mutants: Mutant[] = [];
    const texts = new Map<string, string>();
    for (const file of files) {
      const source = project.program.getSourceFile(path.join(root, file));
      if (!source) throw new Error(`the compiler does not know ${file}`);
      const mutated = mutate(file, source, project.checker, mutants.length);
      mutants.push(...mutated.mutants);
      texts.set(path.join(root, file), mutated.text);
    }
    await tryPart(part, files, sampled(mutants), texts);
  }
} finally {
  api.close();
  rmSync(folder, { recursive: true, force: true });
}
process.exitCode = survivors > 0 ? 1 : 0;

function sampled(mutants: readonly Mutant[]): readonly Mutant[] {
  if (values.sample === '') return mutants;
  const { whole } = chance(Number(values.seed));
  const left = [...mutants];
  const chosen = Array.from({ length: Math.min(Number(values.sample), left.length) }, () =>
    left.splice(whole(left.length), 1),
  );
  return chosen.flat().sort((a, b) => a.id - b.id);
}

async function tryPart(
  part: MutatedPart,
  files: readonly string[],
  mutants: readonly Mutant[],
  texts: ReadonlyMap<string, string>,
): Promise<void> {
  const bundle = await bundled(part, texts);
  const fates = new Map<Mutant, Fate>();
  for (const mutant of mutants) if (equivalenceOf(mutant)) fates.set(mutant, 'the same');
  let tests = await startTests(bundle);
  console.log(`\n== ${part.name}: ${mutants.length} mutants, ${tests.count} tests`);
  for (const mutant of mutants) {
    if (fates.has(mutant)) continue;
    const { before, after, file, line } = mutant;
    if (!tests.reached.has(mutant.id)) fates.set(mutant, 'not reached');
    else {
      const killedBy = await tests.killerOf(mutant.id);
      fates.set(mutant, killedBy === undefined ? 'survived' : 'killed');
      if (killedBy === 'silence') tests = await startTests(bundle);
    }
    const fate = fates.get(mutant);
    if (fate === 'killed' && !values.list) continue;
    console.log(`${fate}: ${file}:${line}  ${short(before)}  ->  ${short(after) || 'nothing'}`);
  }
  tests.stop();
  for (const file of files) {
    const counts = (fate: Fate) => [...fates].filter(([mutant, its]) => mutant.file === file && its === fate).length;
    const [killed, left] = [counts('killed'), counts('survived') + counts('not reached')];
    survivors += left;
    const share = killed + left === 0 ? '' : `${((100 * killed) / (killed + left)).toFixed(1)} %`;
    console.log(
      `${file.padEnd(46)} ${share.padStart(7)}  ${killed} killed, ${left} left (${counts('not reached')} not reached), ${counts('the same')} the same`,
    );
  }
}

function short(code: string): string {
  const line = code.replace(/\s+/g, ' ');
  return line.length > 90 ? `${line.slice(0, 60)} … ${line.slice(-27)}` : line;
}

/** The tests of a part with all mutants of its sources, as one script that gives a function for each file. */
async function bundled(part: MutatedPart, texts: ReadonlyMap<string, string>): Promise<string> {
  const outfile = path.join(folder, `${part.name.replace(' ', '-')}.cjs`);
  await build({
    stdin: {
      contents: part.tests
        .map((file) => `exports[${JSON.stringify(file)}] = () => require(${JSON.stringify(`./${file}`)});`)
        .join('\n'),
      resolveDir: root,
      loader: 'js',
    },
    outfile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20.11',
    logLevel: 'error',
    external: ['mocha', 'esbuild', 'playwright-core'],
    plugins: [
      {
        name: 'mutants',
        setup: ({ onLoad }) =>
          onLoad({ filter: /\.ts$/ }, ({ path: file }) => {
            const text = texts.get(file) ?? readFileSync(file, 'utf8');
            const here = text
              .replaceAll('import.meta.dirname', JSON.stringify(path.dirname(file)))
              .replaceAll('import.meta.url', JSON.stringify(`file://${file}`));
            return { contents: here, loader: 'ts' };
          }),
      },
    ],
  });
  // Packages are looked up from here, not from the temporary folder.
  writeFileSync(
    outfile,
    `require = require('node:module').createRequire(${JSON.stringify(path.join(root, 'package.json'))});${readFileSync(outfile, 'utf8')}`,
  );
  return outfile;
}

interface Tests {
  readonly count: number;
  readonly reached: ReadonlySet<number>;
  killerOf(id: number): Promise<string | undefined>;
  stop(): void;
}

async function startTests(bundle: string): Promise<Tests> {
  const child = fork(path.join(root, 'test/scripts/mutation/run-mutants.ts'), [bundle], {
    cwd: root,
    execArgv: ['--import', 'tsx', '--max-semi-space-size=64'],
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  });
  const ready = await messageOf(child);
  if (ready?.kind !== 'ready') throw new Error('the tests do not start');
  if (ready.failed.length > 0 || ready.tests === 0)
    throw new Error(`the tests fail without a change: ${ready.failed.join('\n')}`);
  return {
    count: ready.tests,
    reached: new Set(ready.reached),
    killerOf: async (id) => {
      child.send({ id });
      const answer = await messageOf(child, LONGEST_MS);
      if (answer?.kind === 'done') return answer.killedBy;
      child.kill('SIGKILL');
      return 'silence';
    },
    stop: () => {
      child.kill('SIGKILL');
    },
  };
}

/** What the child tells next; undefined where it ends, or says nothing for so long. */
function messageOf(child: ChildProcess, longestMs?: number): Promise<Message | undefined> {
  return new Promise((resolve) => {
    const timer = longestMs === undefined ? undefined : setTimeout(() => settle(undefined), longestMs);
    const onMessage = (message: unknown) => settle(message as Message);
    const onExit = () => settle(undefined);
    const settle = (message: Message | undefined): void => {
      clearTimeout(timer);
      child.off('message', onMessage);
      child.off('exit', onExit);
      resolve(message);
    };
    child.on('message', onMessage);
    child.on('exit', onExit);
  });
}
