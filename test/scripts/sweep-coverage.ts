/**
 * Draws coils and set-ups by chance, fits what was recorded of them, and prints how many numbers lie within one and two stated
 * deviations (68 and 95 % of a normal distribution), and what a fit takes on this computer.
 */
import { COVERED, coverage } from '../sweeps/coverage.ts';

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
