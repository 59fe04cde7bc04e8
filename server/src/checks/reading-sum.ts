import { type JudgedLine, judgeReadings } from '../estimates/expected-reading.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { type Explanation, explainReadings } from '../estimates/reading-explanation.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import { printCelsius, printParts } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import type { FoundRelated } from './check.ts';
import { definePickupCheck } from './pickup-check.ts';
import { isSum } from './reading-unlikely.ts';
import { causeWords, expectedWords, readWords } from './reading-words.ts';

export const readingSum = definePickupCheck({
  code: 'reading/sum',
  severity: 'warning',
  yieldsTo: [],
  run: (context) =>
    judgeReadings(context.quick, context.bench).flatMap((block) => {
      const explanations = explainReadings(block, context.quick);
      // Its sum is wrong for the same cause, and is judged once the slip is mended.
      const slips = block.lines.filter((line) => isSlip(line, explanations));
      return block.lines
        .filter((line) => !line.fits && isSum(line))
        .filter((line) => !slips.some((slip) => slip !== line && slip.coils.every((coil) => line.coils.includes(coil))))
        .map((line) => ({
          what: (t: Language) => t('{0}, but {1}.', readWords(line, t), sumWords(line, t)),
          ...causeWords(explanations, line),
          place: line.line.place,
          related: ownReadings(line, context.quick),
          subject: { coils: line.coils.map(({ name }) => name) },
        }));
    }),
});

const isSlip = (line: JudgedLine, explanations: readonly Explanation[]): boolean =>
  !line.fits && explanations.find(({ explains }) => explains.includes(line))?.kind === 'slip of the pen';

/** Up to the day of the sum. */
function ownReadings({ coils, block }: JudgedLine, { life }: QuickEstimates): readonly FoundRelated[] {
  return coils.flatMap((coil) =>
    (life.reads.get(coil) ?? []).flatMap(({ dated, line }) =>
      life.orderOf(dated.block) <= life.orderOf(block)
        ? [{ message: (t: Language) => t('{0} by itself', capital(coilWords(coil, t))), place: line.place }]
        : [],
    ),
  );
}

/** `4.01 + 4.02 is 8.03 kΩ at 21 °C, 0.41 kΩ more than read`. */
function sumWords(line: JudgedLine, t: Language): string {
  const { expected, readOhm, coils, temperature } = line;
  if (expected === null) return t('nothing stated joins them');
  if (readOhm === null) return t("the coils' own readings make it {0}", expectedWords(line, t));
  const factor = copperTemperatureFactor(temperature.celsius);
  const terms = coils.flatMap((coil) => {
    const read = line.ownOhm(coil);
    return read ? [scale(read, factor)] : [];
  });
  const total = terms.reduce((sum, { value }) => sum + value, 0);
  const inSeries = terms.length === coils.length && Math.abs(total - expected.value) < 1e-3 * expected.value;
  const kiloohms = ({ value, sd }: Pick<Estimate, 'value' | 'sd'>): string =>
    printParts({ value, sd, dimension: 'resistance', unit: 'kohm', style: t.numbers }).value;
  const degrees = printCelsius(temperature.celsius, t.numbers);
  const off = expected.value - readOhm;
  const difference = t(
    off > 0 ? '{0} kΩ more than read' : '{0} kΩ less than read',
    kiloohms({ value: Math.abs(off), sd: expected.sd }),
  );
  return inSeries
    ? t('{0} is {1} kΩ at {2}, {3}', terms.map(kiloohms).join(' + '), kiloohms(expected), degrees, difference)
    : t("the coils' own readings make it {0} kΩ at {1}, {2}", kiloohms(expected), degrees, difference);
}
