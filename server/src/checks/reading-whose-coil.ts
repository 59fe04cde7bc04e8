import type { WhoseCoil } from '../estimates/coil-life.ts';
import { readingTemperature } from '../estimates/coil-reading.ts';
import type { Bench } from '../model/bench.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import type { Found } from './check.ts';
import { insertFirstLine } from './edits.ts';
import { definePickupCheck } from './pickup-check.ts';
import { remedy } from './remedy.ts';

/** A reading as found that the stated turns do not give: of the coil as it is, or of one that came out. Nobody says which. */
export const readingWhoseCoil = definePickupCheck({
  code: 'reading/whose-coil',
  severity: 'warning',
  yieldsTo: [],
  run: ({ quick, bench }) => quick.life.doubts.map((doubt) => findingOf(doubt, temperatureOf(doubt, bench))),
});

function findingOf({ coil, read: { line }, expected }: WhoseCoil, celsius: number): Found {
  const read = (t: Language) => (line.value === 'open' ? t('open') : line.value.written);
  const words = (t: Language) => capital(coilWords(coil, t));
  return {
    what: (t) =>
      expected
        ? t(
            '{0} read {1} as found, but its turns compute to {2} at {3}: nothing says whether it is still the coil that was found, so the reading is not used.',
            words(t),
            read(t),
            printQuantity({ value: expected.value, sd: expected.sd, dimension: 'resistance', style: t.numbers }),
            printCelsius(celsius, t.numbers),
          )
        : t(
            '{0} read {1} as found, and what its turns would read is not known: nothing says whether it is still the coil that was found, so the reading is not used.',
            words(t),
            read(t),
          ),
    ...(expected
      ? {
          hint: (t: Language) => t('Most likely the coil was wound anew, and the reading is of the one that came out.'),
        }
      : { severity: 'information' as const }),
    action: (t) => t('Say `new` or `kept` in the coil.'),
    place: (coil.counted ?? coil.turns ?? coil.spool)?.place ?? coil.place,
    related: [{ message: (t: Language) => t('The reading as found'), place: line.place }],
    remedies: () => [
      remedy(
        (t) => t('{0} is new: the reading is of the one that came out', words(t)),
        insertFirstLine(coil.place, 'new'),
        true,
      ),
      remedy((t) => t('{0} was kept: the reading is of it', words(t)), insertFirstLine(coil.place, 'kept')),
    ],
    subject: { coils: [coil.name] },
  };
}

const temperatureOf = ({ read: { line, dated } }: WhoseCoil, bench: Bench | undefined): number =>
  readingTemperature(line.atC, dated.block, bench).celsius;
