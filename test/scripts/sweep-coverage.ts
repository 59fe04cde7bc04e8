/**
 * Draws coils and set-ups by chance, and specs of one and of two coils whose own circuits are swept, fits what was recorded of them, and
 * prints how many numbers lie within one and two stated deviations (68 and 95 % of a normal distribution), and what a fit of a coil takes
 * on this computer. How many draws: the first argument, 500 without.
 */
import { COVERED, coverage } from '../sweeps/coverage.ts';
import { KINDS, specCoverage } from '../sweeps/spec-coverage.ts';

const draws = Number(process.argv[2] ?? 500);
for (const kind of ['over', 'through'] as const) {
  const { fits, sameForm, counts, fastestMs, middleMs } = coverage(kind, draws);
  console.log(
    `${kind}: ${fits} of ${draws} fitted, ${sameForm} with the form that was drawn; ${fastestMs.toFixed(1)} ms at best, ${middleMs.toFixed(1)} ms in the middle`,
  );
  for (const name of COVERED) {
    const { values, one, two } = counts[name];
    console.log(
      `  ${name.padEnd(14)} ${((100 * one) / values).toFixed(1)} % within one, ${((100 * two) / values).toFixed(1)} % within two, of ${values}`,
    );
  }
}

for (const kind of KINDS) {
  const { counts, worstLeft } = specCoverage(kind, draws);
  console.log(`a spec's own circuit, ${kind}: at most ${worstLeft.toFixed(2)} times the scatter is left`);
  for (const [name, { values, one, two, off }] of counts)
    console.log(
      `  ${name.padEnd(14)} ${((100 * one) / values).toFixed(1)} % within one, ${((100 * two) / values).toFixed(1)} % within two, ${(off / values).toFixed(2)} deviations off in the mean, of ${values}`,
    );
}
