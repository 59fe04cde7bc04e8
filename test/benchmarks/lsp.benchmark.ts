import { loadavg } from 'node:os';
import path from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { bundles, writeBundles } from '../scripts/build.ts';
import { compileServer } from '../scripts/compile-server.ts';
import { root } from '../scripts/steps.ts';
import { generatedSpec } from './generated-spec.ts';
import { type Measurable, residentMb, startMeasured } from './measured-server.ts';
import { peers } from './peers.ts';

const SIZES = (process.env.LSP_LINES ?? '100,1000,10000').split(',').map(Number);
const COLD_STARTS = 5;
/** Keystrokes that are made first and not counted, and those that are. */
const WARM_UP = 5;
const KEYSTROKES = 40;
const REQUESTS = 20;
/** A fast typist's pause. */
const THINK_MS = 60;

const OURS: Measurable = {
  name: 'ours',
  program: path.join(root, 'dist', 'server', 'main-node.cjs'),
  languageId: 'pickup',
  ending: '.pickup',
  text: generatedSpec,
};

/** Latency and memory of the server over stdio, as any client sees them; beside public servers in the same run where they are installed. */
export async function run(): Promise<void> {
  await writeBundles(
    bundles.filter(({ output }) => output.startsWith('dist/server/') && output.endsWith('.cjs')),
    root,
  );
  await compileServer(path.join(root, 'dist', 'server', 'server-node.cjs'), root, writeBundles);
  const others = peers();
  // The first start after a build reads the program from the disk.
  for (const each of [OURS, ...others]) await (await startMeasured(each, SIZES[0] ?? 100)).stop();
  console.log(
    `language server over stdio, Node ${process.version}, load ${loadavg()[0]?.toFixed(1)}; ms, median / p95` +
      (others.length > 0 ? '; in brackets ours to the best other' : '; LSP_PEERS names no folder with others'),
  );
  console.log('| lines | server | start to first findings | keystroke to first findings | hover | completion | MB |');
  console.log('|--:|---|--:|--:|--:|--:|--:|');
  for (const lines of SIZES) {
    const measured = new Map<string, Measured>();
    for (const each of [...others, OURS]) measured.set(each.name, await measure(each, lines));
    const best = (of: (each: Measured) => number): number =>
      Math.min(
        ...others
          .flatMap(({ name }) => measured.get(name) ?? [])
          .map(of)
          .filter(Number.isFinite),
      );
    for (const [name, each] of measured) {
      const cell = (of: (each: Measured) => readonly number[]): string => {
        const ratio = (share: number) => quantile(of(each), share) / best((other) => quantile(of(other), share));
        const beside = name === OURS.name && others.length > 0;
        return `${both(of(each))}${beside ? ` (${ratio(0.5).toFixed(1)} / ${ratio(0.95).toFixed(1)})` : ''}`;
      };
      const memory = `${each.mb.toFixed(0)}${name === OURS.name && others.length > 0 ? ` (${(each.mb / best(({ mb }) => mb)).toFixed(1)})` : ''}`;
      const cells = [
        cell(({ first }) => first),
        cell(({ keys }) => keys),
        cell(({ hovers }) => hovers),
        cell(({ completions }) => completions),
      ];
      console.log(`| ${[lines, name, ...cells, memory].join(' | ')} |`);
    }
  }
}

interface Measured {
  readonly first: readonly number[];
  readonly keys: readonly number[];
  readonly hovers: readonly number[];
  readonly completions: readonly number[];
  readonly mb: number;
}

async function measure(measurable: Measurable, lines: number): Promise<Measured> {
  let server = await startMeasured(measurable, lines);
  const first = [server.firstMs];
  while (first.length < COLD_STARTS) {
    await server.stop();
    server = await startMeasured(measurable, lines);
    first.push(server.firstMs);
  }
  await sleep(1000);
  const keys: number[] = [];
  for (let key = 0; key < WARM_UP + KEYSTROKES; key += 1) {
    const took = await server.type();
    if (key >= WARM_UP) keys.push(took);
    await sleep(THINK_MS);
  }
  const times = async (ask: () => Promise<number>): Promise<readonly number[]> => {
    const took: number[] = [];
    for (let request = 0; request < REQUESTS; request += 1) {
      took.push(await ask());
      await sleep(5);
    }
    return took;
  };
  const hovers = await times(server.hover);
  const completions = await times(server.completion);
  const mb = residentMb(server.child.pid);
  await server.stop();
  return { first, keys, hovers, completions, mb };
}

const both = (times: readonly number[]): string =>
  times.some(Number.isNaN) ? '–' : `${quantile(times, 0.5).toFixed(1)} / ${quantile(times, 0.95).toFixed(1)}`;

function quantile(times: readonly number[], share: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (sorted.length - 1) * share;
  const low = sorted[Math.floor(at)] ?? Number.NaN;
  return low + ((sorted[Math.ceil(at)] ?? low) - low) * (at - Math.floor(at));
}
