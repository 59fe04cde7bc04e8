import { fitSweeps } from '../../server/src/physics/sweep/sweep-fit.ts';
import { coverage } from '../sweeps/coverage.ts';
import { referenceCurves, sweepsFor } from '../sweeps/reference-sweeps.ts';

/** Prints what the fit of a sweep takes once the code is settled, with how many values lie within two stated deviations beside it. */
export async function run(): Promise<void> {
  console.log('fit of a sweep (medians)');
  for (const kind of ['over', 'through'] as const) {
    coverage(kind, 20);
    const { middleMs, counts } = coverage(kind, 60, 100);
    const all = Object.values(counts);
    const [values, two] = [
      all.reduce((sum, each) => sum + each.values, 0),
      all.reduce((sum, each) => sum + each.two, 0),
    ];
    print(
      `one coil, ${kind} a resistor, drawn`,
      15,
      middleMs,
      `${((100 * two) / values).toFixed(0)} % within 2 deviations`,
    );
  }
  const times = referenceCurves.map((entry) => {
    const sweeps = sweepsFor(entry);
    const each = Array.from({ length: 7 }, () => {
      const before = performance.now();
      fitSweeps(sweeps);
      return performance.now() - before;
    });
    return each.sort((a, b) => a - b)[3] ?? 0;
  });
  times.sort((a, b) => a - b);
  print('the curves of the reference, the middle one', 15, times[Math.floor(times.length / 2)] ?? 0, '');
  print('the slowest of them', 150, times.at(-1) ?? 0, '');
}

function print(what: string, limitMs: number, ms: number, more: string): void {
  console.log(`  ${what.padEnd(44)} ${ms.toFixed(1).padStart(9)} ms  (limit ${limitMs} ms)  ${more}`);
}
