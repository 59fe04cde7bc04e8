import { type JudgedPosition, judgeJackReadings } from '../estimates/jack-reading.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { positionWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { defineInstrumentCheck, type InstrumentContext } from './instrument-check.ts';
import { likelyWords } from './reading-words.ts';

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
        what: (t: Language) =>
          t(
            '{0} at the jack, but should read {1} with the controls full up.',
            readWords(judged, t),
            expectedWords(judged, t),
          ),
        hint: (t: Language) =>
          first ? likelyWords([first.words, ...(second ? [second.words] : [])], t) : t('No usual cause explains it.'),
        action: (t: Language) =>
          t(
            'Measure again in {0}, controls full up and nothing plugged in but the meter; where it stays so, measure each pickup at its own leads.',
            positionWords(judged.position, t),
          ),
        place: judged.line.place,
        related: [
          ...alike.map((each) => ({
            message: (t: Language) => t('{0}, from the same cause', readWords(each, t)),
            place: each.line.place,
          })),
          {
            message: (t: Language) => t('{0} is this', capital(positionWords(judged.position, t))),
            place: judged.position.place,
          },
        ],
        subject: { position: judged.position.key.value },
      };
    });
  },
});

const readWords = ({ line, position }: JudgedPosition, t: Language): string =>
  t('{0} reads {1}', capital(positionWords(position, t)), line.value === 'open' ? t('open') : line.value.written);

function expectedWords({ expectedOhm, limitOhm, temperature }: JudgedPosition, t: Language): string {
  if (expectedOhm === null) return t('open');
  const ohms = printQuantity({ value: expectedOhm, sd: limitOhm, dimension: 'resistance', style: t.numbers });
  return `${ohms} ${t('at {0}', printCelsius(temperature.celsius, t.numbers))}`;
}
