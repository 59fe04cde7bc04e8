/** A pickup's numbers after an edit that leaves its geometry alone, the positions of an instrument, and a key typed in a pickup's block. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { performance } from 'node:perf_hooks';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis, Host } from '../../server/src/analysis/analysis-types.ts';

const SAMPLES = path.resolve(import.meta.dirname, '../../samples');
const sample = (name: string): string => readFileSync(path.join(SAMPLES, name), 'utf8').replace(/^use .*$/gm, '');

export async function run(): Promise<void> {
  console.log('estimates (medians)');
  for (const { what, limit, ms, beside } of [...pickupRows(), positionsRow()])
    console.log(`  ${what.padEnd(52)} ${ms.toFixed(3).padStart(8)} ms  (${limit})  ${beside}`);
}

interface Row {
  readonly what: string;
  readonly limit: string;
  readonly ms: number;
  readonly beside: string;
}

const REPEATS = 400;
const URI = 'file:///bench.pickup';

/** The reading changes by one digit each time: every number of the pickup is new, no coil has another shape. */
function pickupRows(): readonly Row[] {
  const text = `${sample('parts/stock.pickup')}\n${sample('hesk-neck.pickup')}`;
  const edited = (n: number): string => text.replace('hot to ground 8.19 kohm', `hot to ground 8.1${n}9 kohm`);
  const key: number[] = [];
  const numbers: number[] = [];
  const cold = timed(() => resonanceOf(analysed(edited(1000))));
  let resonance = Number.NaN;
  for (let n = 0; n < REPEATS; n++) {
    let analysis: Analysis | undefined;
    key.push(timed(() => (analysis = analysed(edited(2000 + n)))));
    numbers.push(timed(() => (resonance = analysis ? resonanceOf(analysis) : Number.NaN)));
  }
  return [
    { what: 'pickup with cover, all numbers, cold', limit: 'no limit', ms: cold, beside: '' },
    {
      what: 'the same after an edit beside its geometry',
      limit: 'limit 1 ms',
      ms: median(numbers),
      beside: `resonance ${resonance.toFixed(1)} Hz`,
    },
    { what: 'one key in a pickup with seven readings: findings', limit: 'limit 1.5 ms', ms: median(key), beside: '' },
  ];
}

function positionsRow(): Row {
  const text = `${sample('shop.pickup')}\n${sample('parts/stock.pickup')}\n${sample('quorl.pickup')}`;
  const times = Array.from({ length: 40 }, (_, n) => {
    const instrument = analysed(text.replace(/scale \d+/, `scale ${600 + n}`)).instruments[0];
    return timed(() => instrument?.positions());
  });
  const count = analysed(text).instruments[0]?.positions().length ?? 0;
  return { what: `${count} positions of an instrument`, limit: 'no limit', ms: median(times), beside: '' };
}

const analyser = createAnalyser();
const analysed = (text: string): Analysis => analyser.analyse(URI, hostOf(text));

const hostOf = (text: string): Host => ({
  content: (uri) => (uri === URI ? { kind: 'text', text } : { kind: 'missing' }),
  isInside: () => true,
});

const resonanceOf = ({ pickups }: Analysis): number => pickups[0]?.estimates().resonanceHz?.value ?? Number.NaN;

function timed(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

/** Of the second half, when everything is compiled. */
function median(times: readonly number[]): number {
  const sorted = times.slice(times.length / 2).sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
