/**
 * Draws coils and set-ups by chance, and specs of one, two and four coils whose own circuits are swept, fits what was recorded of them, and
 * prints how many numbers lie within one and two stated deviations (68 and 95 % of a normal distribution), and what a fit of a coil takes
 * on this computer. Arguments: how many draws (500 without), the seed of the first of them (1), and the kinds, all where none is named:
 * `npx tsx test/scripts/sweep-coverage.ts 40 1 "in series" "four coils"`.
 */
import { COVERED, coverage } from '../sweeps/coverage.ts';
import { KINDS, specCoverage } from '../sweeps/spec-coverage.ts';

const [draws = 500, first = 1] = process.argv.slice(2, 4).map(Number);
const asked = process.argv.slice(4);
const isAsked = (kind: string): boolean => asked.length === 0 || asked.includes(kind);
const shares = ({ values, one, two }: { readonly values: number; readonly one: number; readonly two: number }) =>
  `${((100 * one) / values).toFixed(1)} % within one, ${((100 * two) / values).toFixed(1)} % within two`;

for (const kind of (['over', 'through'] as const).filter(isAsked)) {
  const { fits, sameForm, counts, fastestMs, middleMs } = coverage(kind, draws, first);
  console.log(
    `${kind}: ${fits} of ${draws} fitted, ${sameForm} with the form that was drawn; ${fastestMs.toFixed(1)} ms at best, ${middleMs.toFixed(1)} ms in the middle`,
  );
  for (const name of COVERED) console.log(`  ${name.padEnd(14)} ${shares(counts[name])}, of ${counts[name].values}`);
}

for (const kind of KINDS.filter(isAsked)) {
  const { counts, worstLeft } = specCoverage(kind, draws, first);
  console.log(`a spec's own circuit, ${kind}: at most ${worstLeft.toFixed(2)} times the scatter is left`);
  for (const [name, count] of counts) {
    const { off, values } = count;
    console.log(
      `  ${name.padEnd(14)} ${shares(count)}, ${(off / values).toFixed(2)} deviations off in the mean, of ${values}`,
    );
  }
}
