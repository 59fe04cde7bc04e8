import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { availableParallelism, loadavg, tmpdir } from 'node:os';
import path from 'node:path';
import { bundles, writeBundles } from '../scripts/build.ts';
import { root } from '../scripts/steps.ts';
import { writeShop } from './generated-shop.ts';

/** Files of the shops; the last says whether memory grows with their number. */
const SHOPS = (process.env.SHOP_FILES ?? '200,2000,10000').split(',').map(Number);
const PROGRAM = 'dist/cli/pickup-spec.cjs';

/** Time and memory of the command line on shops of several sizes, every figure beside that of `check`. */
export async function run(): Promise<void> {
  await writeBundles(
    bundles.filter(({ output }) => output === PROGRAM),
    root,
  );
  const load = loadavg()[0]?.toFixed(1);
  console.log(`command line, Node ${process.version}, ${availableParallelism()} cores, load ${load}; ratios to check`);
  console.log('| files | command | first output s | s | processor s | processor ms a file | MB | time |');
  console.log('|--:|---|--:|--:|--:|--:|--:|--:|');
  for (const files of SHOPS) {
    const folder = mkdtempSync(path.join(tmpdir(), 'shop-'));
    try {
      writeShop(folder, files);
      const check = await measured(['check'], folder);
      report(files, 'check', check, check);
      for (const words of [
        ['check', '--format', 'json'],
        ['list', '--where', `serial RYD-${files >> 1}`],
        ['list', '--where', 'resistance 7 to 8 kohm'],
      ]) {
        report(files, words.join(' '), await measured(words, folder), check);
      }
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  }
}

interface Measured {
  readonly firstS: number;
  readonly seconds: number;
  readonly processorS: number;
  /** Largest resident memory of the process, all its threads. */
  readonly megabytes: number;
}

function report(files: number, command: string, { firstS, seconds, processorS, megabytes }: Measured, check: Measured) {
  const cells = [
    files,
    command,
    firstS.toFixed(2),
    seconds.toFixed(2),
    processorS.toFixed(2),
    ((processorS / files) * 1000).toFixed(1),
    megabytes.toFixed(0),
    `${(seconds / check.seconds).toFixed(2)}`,
  ];
  console.log(`| ${cells.join(' | ')} |`);
}

/** What the process itself says of its use at its end, on a descriptor of its own. */
const SPY = `process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  require('node:fs').writeSync(3, JSON.stringify({ processorS: (userCPUTime + systemCPUTime) / 1e6, megabytes: maxRSS / 1024 }));
});`;

async function measured(words: readonly string[], folder: string): Promise<Measured> {
  const began = performance.now();
  const spy = `data:text/javascript,${encodeURIComponent(`import { createRequire } from 'node:module'; import { isMainThread } from 'node:worker_threads';
const require = createRequire(process.cwd() + '/'); if (isMainThread) { ${SPY} }`)}`;
  const child = spawn(process.execPath, ['--import', spy, path.join(root, PROGRAM), ...words], {
    cwd: folder,
    stdio: ['ignore', 'pipe', 'inherit', 'pipe'],
  });
  let first: number | undefined;
  let said = '';
  child.stdout?.on('data', () => {
    first ??= performance.now();
  });
  child.stdio[3]?.on('data', (piece: Buffer) => {
    said += piece.toString('utf8');
  });
  await new Promise((resolve) => child.once('close', resolve));
  const ended = performance.now();
  const use = JSON.parse(said) as Pick<Measured, 'processorS' | 'megabytes'>;
  return { ...use, firstS: ((first ?? ended) - began) / 1000, seconds: (ended - began) / 1000 };
}
