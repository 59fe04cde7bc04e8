import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { seededBuild, seededSpec } from '../support/seeded-shelf.ts';

/** A pair of coils of which everything is left out, over six spools, eight bobbins and six magnets, on the built command line, cold each time. */
export async function run(): Promise<void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'propose-'));
  const file = path.join(folder, 'two-coils.pickup');
  writeFileSync(file, twoCoils());
  const program = path.resolve('dist/cli/pickup-spec.cjs');
  const runs = Array.from({ length: 7 }, () => {
    const start = performance.now();
    const { status, stderr, stdout } = spawnSync(process.execPath, [program, 'propose', file, '--format', 'json']);
    if (status !== 0 && status !== 1) throw new Error(String(stderr));
    return { ms: performance.now() - start, builds: JSON.parse(String(stdout)).pickups[0]?.builds.length ?? 0 };
  });
  rmSync(folder, { recursive: true });
  const [median] = runs
    .map(({ ms }) => ms)
    .sort((a, b) => a - b)
    .slice(3);
  console.log(`propose: two coils, six spools, eight bobbins, six magnets; ${runs[0]?.builds} builds`);
  console.log(`  cold, on the command line  ${Math.round(median ?? 0)} ms of 7 (target below 1000 ms)`);
}

function twoCoils(): string {
  // The ninth is a pair.
  const build = seededBuild(9, { bobbins: 8, spools: 6 });
  const more = ['alnico-3', 'alnico-8', 'neodymium'].map(
    (material) => `magnet bar-${material} {\n  material ${material}\n  size 63 x 12.7 x 3.2 mm\n}\n`,
  );
  return `${more.join('')}${seededSpec(build, {
    target: '    resistance 8 kohm ± 5 %\n    resonance 3 kHz ± 0.15 kHz loaded\n',
    without: { turns: true, wire: true, bobbin: true, magnet: true },
  })}`;
}
