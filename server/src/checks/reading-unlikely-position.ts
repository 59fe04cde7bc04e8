import { type JudgedPosition, judgeJackReadings } from '../estimates/jack-reading.ts';
import { printQuantity } from '../quantities/print.ts';
import { positionWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';

/** Readings at the jack, controls full up. */
export const positionReadingUnlikely = defineInstrumentCheck({
  code: 'reading/unlikely',
  severity: 'warning',
  yieldsTo: ['circuit/open', 'circuit/output-shorted'],
  run: ({ instrument, quickOf, bench }: InstrumentContext) => {
    const wrong = judgeJackReadings(instrument, quickOf, bench)
      .filter(({ fits }) => !fits)
      .map((judged) => ({ judged, causes: judged.causes() }));
    const told = new Set<JudgedPosition>();
    return wrong.flatMap(({ judged, causes }) => {
      if (told.has(judged)) return [];
      const [first, second] = causes;
      const alike = wrong
        .filter(
          (each) =>
            each.judged !== judged && !told.has(each.judged) && each.causes.some(({ words }) => words === first?.words),
        )
        .map((each) => each.judged);
      for (const each of [judged, ...alike]) told.add(each);
      const cause = first
        ? `most likely ${first.words}${second ? `; else ${second.words}` : ''}`
        : 'no usual cause explains it: measure again with the controls full up and nothing plugged in';
      return [
        {
          message: `${readWords(judged)} at the jack, but should read ${expectedWords(judged)} with the controls full up: ${cause}.`,
          place: judged.line.place,
          related: [
            ...alike.map((each) => ({ message: `${readWords(each)}, from the same cause`, place: each.line.place })),
            { message: `${capital(positionWords(judged.position))} is this`, place: judged.position.place },
          ],
          subject: { position: judged.position.key.value },
        },
      ];
    });
  },
});

const readWords = ({ line, position }: JudgedPosition): string =>
  `${capital(positionWords(position))} reads ${line.value === 'open' ? 'open' : line.value.written}`;

function expectedWords({ expectedOhm, limitOhm, temperature }: JudgedPosition): string {
  if (expectedOhm === null) return 'open';
  const ohms = printQuantity({
    value: expectedOhm,
    sd: limitOhm,
    dimension: 'resistance',
    unit: expectedOhm >= 1000 ? 'kohm' : 'ohm',
  });
  return `${limitOhm > 0 ? ohms : printQuantity({ value: expectedOhm, dimension: 'resistance' })} at ${Math.round(temperature.celsius * 10) / 10} degC`;
}
