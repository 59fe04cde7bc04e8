import type { WhoseCoil } from '../estimates/coil-life.ts';
import { readingTemperature } from '../estimates/coil-reading.ts';
import type { Bench } from '../model/bench.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import type { Found } from './check.ts';
import { insertFirstLine } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { say } from './say.ts';

/** A reading as found that the stated turns do not give: of the coil as it is, or of one that came out. Nobody says which. */
export const readingWhoseCoil = definePickupCheck({
  code: 'reading/whose-coil',
  severity: 'warning',
  yieldsTo: [],
  run: ({ quick, bench }) => quick.life.doubts.map((doubt) => findingOf(doubt, temperatureWords(doubt, bench))),
});

function findingOf({ coil, read: { line }, expected }: WhoseCoil, temperature: string): Found {
  const read = line.value === 'open' ? 'open' : line.value.written;
  const words = coilWords(coil);
  return {
    what: say`${capital(words)} read ${read} as found, ${
      expected
        ? say`but its turns compute to ${printQuantity({ value: expected.value, sd: expected.sd, dimension: 'resistance' })} at ${temperature}`
        : 'and what its turns would read is not known'
    }: nothing says whether it is still the coil that was found, so the reading is not used.`,
    ...(expected
      ? { hint: say`Most likely the coil was wound anew, and the reading is of the one that came out.` }
      : { severity: 'information' as const }),
    action: say`Say \`new\` or \`kept\` in the coil.`,
    place: (coil.counted ?? coil.turns ?? coil.spool)?.place ?? coil.place,
    related: [{ message: say`The reading as found`, place: line.place }],
    remedies: () => [
      remedy(
        say`${capital(words)} is new: the reading is of the one that came out`,
        insertFirstLine(coil.place, 'new'),
        true,
      ),
      remedy(say`${capital(words)} was kept: the reading is of it`, insertFirstLine(coil.place, 'kept')),
    ],
    subject: { coils: [coil.name] },
  };
}

const temperatureWords = ({ read: { line, dated } }: WhoseCoil, bench: Bench | undefined): string =>
  printCelsius(readingTemperature(line.atC, dated.block, bench).celsius);
