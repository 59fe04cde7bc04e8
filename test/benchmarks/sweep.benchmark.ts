import { sweptEach } from '../../server/src/estimates/sweeps-measured.ts';
import { sweptTogether } from '../../server/src/estimates/sweeps-together.ts';
import { fitSweeps } from '../../server/src/physics/sweep/sweep-fit.ts';
import { coverage } from '../sweeps/coverage.ts';
import { referenceCurves, sweepsFor } from '../sweeps/reference-sweeps.ts';
import { drawnSpec, type Kind } from '../sweeps/spec-coverage.ts';
import { sweptSpec } from '../sweeps/spec-sweeps.ts';

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
  for (const { what, kind, draws } of JOINT) {
    const joint = Array.from({ length: draws }, (_, seed) => jointFitMs(kind, seed + 1)).sort((a, b) => a - b);
    print(what, 150, joint[Math.floor(draws / 2)] ?? 0, `${(joint[0] ?? 0).toFixed(0)} ms at best`);
  }
}

const JOINT: readonly { readonly what: string; readonly kind: Kind; readonly draws: number }[] = [
  { what: 'two coils apart and in series, all at once', kind: 'in series, taken apart', draws: 9 },
  { what: 'four coils, in pairs and as a whole, all at once', kind: 'four coils', draws: 9 },
];

/** Each coil by itself has been fitted before, and what is computed of them is known. */
function jointFitMs(kind: Kind, seed: number): number {
  const { netlist, bench } = sweptSpec(drawnSpec(kind, seed), seed).swept;
  sweptEach(netlist, bench);
  const before = performance.now();
  sweptTogether(netlist, bench);
  return performance.now() - before;
}

function print(what: string, limitMs: number, ms: number, more: string): void {
  const ratio = `${(ms / limitMs).toFixed(1)} times the ${limitMs} ms aimed at`;
  console.log(`  ${what.padEnd(50)} ${ms.toFixed(1).padStart(9)} ms, ${ratio}  ${more}`);
}
