import { coilOfReading } from '../estimates/coil-reading.ts';
import { type JudgedLine, judgeReadings } from '../estimates/expected-reading.ts';
import { explainReadings } from '../estimates/reading-explanation.ts';
import { pickupNetlist } from '../model/netlist.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import type { Related } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { isSum } from './reading-unlikely.ts';
import { causeWords, expectedWords, readWords } from './reading-words.ts';
import { say } from './say.ts';

export const readingSum = definePickupCheck({
  code: 'reading/sum',
  severity: 'warning',
  yieldsTo: [],
  run: (context) =>
    judgeReadings(context.quick, context.bench).flatMap((block) => {
      const explanations = explainReadings(block, context.quick);
      return block.lines
        .filter((line) => !line.fits && isSum(line))
        .map((line) => ({
          what: say`${readWords(line)}, but ${sumWords(line, context)}.`,
          ...causeWords(explanations, line),
          place: line.line.place,
          related: ownReadings(line, context),
          subject: { coils: line.coils.map(({ name }) => name) },
        }));
    }),
});

function ownReadings({ coils }: JudgedLine, { netlist, pickup }: PickupContext): readonly Related[] {
  const loose = pickupNetlist(pickup, { joined: false });
  return pickup.readings.flatMap((block) =>
    block.lines.flatMap((line) => {
      const coil = coilOfReading(line, block, netlist, loose);
      return coil && coils.includes(coil) ? [{ message: say`The ${coil.name} coil by itself`, place: line.place }] : [];
    }),
  );
}

/** `4.01 + 4.02 is 8.03 kΩ at 21 degC, 0.41 kΩ more than read`. */
function sumWords(line: JudgedLine, { quick }: PickupContext): string {
  const { expected, readOhm, coils, temperature } = line;
  if (expected === null) return 'nothing stated joins them';
  if (readOhm === null) return say`the coils' own readings make it ${expectedWords(line)}`;
  const factor = copperTemperatureFactor(temperature.celsius);
  const terms = coils.map((coil) => (quick.readings.get(coil)?.at20COhm.value ?? Number.NaN) * factor);
  const total = terms.reduce((sum, each) => sum + each, 0);
  const inSeries = Math.abs(total - expected.value) < 1e-3 * expected.value;
  const number = (ohm: number) => (Math.round(ohm / 10) / 100).toFixed(2);
  const degrees = say`${Math.round(temperature.celsius * 10) / 10} degC`;
  const off = expected.value - readOhm;
  const difference = say`${number(Math.abs(off))} kΩ ${off > 0 ? 'more' : 'less'} than read`;
  const sum = inSeries
    ? say`${terms.map(number).join(' + ')} is ${number(total)} kΩ`
    : say`the coils' own readings make it ${number(expected.value)} kΩ`;
  return say`${sum} at ${degrees}, ${difference}`;
}
