import { type JudgedPosition, judgeJackReadings } from '../estimates/jack-reading.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { positionWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';
import { say } from './say.ts';

/** Readings at the jack, controls full up. */
export const readingUnlikelyPosition = defineInstrumentCheck({
  code: 'reading/unlikely',
  severity: 'warning',
  yieldsTo: ['circuit/open', 'circuit/output-shorted'],
  run: ({ instrument, quickOf, bench }: InstrumentContext) => {
    const wrong = judgeJackReadings(instrument, quickOf, bench)
      .filter(({ fits }) => !fits)
      .map((judged) => ({ judged, causes: judged.causes() }));
    const told = new Set<JudgedPosition>();
    return wrong.map(({ judged, causes }) => {
      if (told.has(judged)) return undefined;
      const [first, second] = causes;
      const alike = wrong
        .filter(
          (each) =>
            each.judged !== judged && !told.has(each.judged) && each.causes.some(({ words }) => words === first?.words),
        )
        .map((each) => each.judged);
      for (const each of [judged, ...alike]) told.add(each);
      return {
        what: say`${readWords(judged)} at the jack, but should read ${expectedWords(judged)} with the controls full up.`,
        hint: first
          ? say`Most likely ${first.words}${second ? say`; else ${second.words}` : ''}.`
          : say`No usual cause explains it.`,
        action: say`Measure again in ${positionWords(judged.position)}, controls full up and nothing plugged in but the meter; where it stays so, measure each pickup at its own leads.`,
        place: judged.line.place,
        related: [
          ...alike.map((each) => ({ message: say`${readWords(each)}, from the same cause`, place: each.line.place })),
          { message: say`${capital(positionWords(judged.position))} is this`, place: judged.position.place },
        ],
        subject: { position: judged.position.key.value },
      };
    });
  },
});

const readWords = ({ line, position }: JudgedPosition): string =>
  say`${capital(positionWords(position))} reads ${line.value === 'open' ? 'open' : line.value.written}`;

function expectedWords({ expectedOhm, limitOhm, temperature }: JudgedPosition): string {
  if (expectedOhm === null) return 'open';
  const ohms = printQuantity({ value: expectedOhm, sd: limitOhm, dimension: 'resistance' });
  return say`${ohms} at ${printCelsius(temperature.celsius)}`;
}
