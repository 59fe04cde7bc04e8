/** How findings on readings speak. */

import type { JudgedLine } from '../estimates/expected-reading.ts';
import { type Evidence, type Explanation, isResistance } from '../estimates/reading-explanation.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { reasonWords } from '../words/reason-words.ts';
import { capital, list } from '../words/text.ts';
import type { Telling } from './telling.ts';

/** `Hot to ground reads 8.19 kohm`, `The slug coil reads open`. */
export function readWords(evidence: Evidence, t: Language): string {
  const { line } = evidence;
  const read = readText(evidence, t);
  if (line.kind === 'coil resistance') return t('{0} reads {1}', capital(t('the {0} coil', line.coil.text)), read);
  const [red = '', black = ''] = probesOf(evidence, t) ?? [];
  return t('{0} to {1} reads {2}', capital(red), black, read);
}

/** Red first; `undefined` where a coil is named in their place. */
export function probesOf({ line }: Evidence, t: Language): readonly [red: string, black: string] | undefined {
  if (line.kind === 'coil resistance') return undefined;
  const { red, black } = line.probes ?? HOT_TO_GROUND;
  return [t.word(red.text), t.word(black.text)];
}

const HOT_TO_GROUND = { red: { text: 'hot' }, black: { text: 'ground' } };

function readText({ line }: Evidence, t: Language): string {
  if (line.value === 'open') return t('open');
  const { written } = line.value;
  return line.kind === 'inductance' && line.atHz ? `${written} ${t('at {0}', line.atHz.written)}` : written;
}

/** `4.02 ± 0.03 kΩ at 21 °C`. */
export function expectedWords(line: Evidence, t = ENGLISH): string {
  if (!isResistance(line)) {
    const { value, sd } = line.expected;
    return printQuantity({ value, sd, dimension: line.line.kind, style: t.numbers });
  }
  const { expected, temperature }: JudgedLine = line;
  if (expected === null) return t('open');
  const { value, sd } = expected;
  const ohms = value === 0 ? '0\u202FΩ' : printQuantity({ value, sd, dimension: 'resistance', style: t.numbers });
  return `${ohms} ${t('at {0}', printCelsius(temperature.celsius, t.numbers))}`;
}

/** The two likeliest causes of a line, and the measurement that tells them apart. */
export function causeWords(explanations: readonly Explanation[], line: Evidence): Pick<Telling, 'hint' | 'action'> {
  const mine = explanations.filter(({ explains }) => explains.includes(line));
  const [first, second] = mine;
  if (!first) return { hint: (t) => t('No usual cause explains it.'), action: (t) => t('Measure again.') };
  if (first.certain)
    return {
      hint: (t) => t('It is {0}: nothing else explains every reading.', reasonWords(first.words, t)),
      ...cure(first),
    };
  const near = second && second.kind !== first.kind && first.score - second.score < CLOSE ? second : undefined;
  const settles = [...new Set([first.settles, near?.settles])].flatMap((each) => each ?? []);
  return {
    hint: (t) => likelyWords([first.words, ...(near ? [near.words] : [])], t),
    action: (t) =>
      settles.length > 0
        ? capital(
            t(
              'Take {0}: it tells.',
              list(
                settles.map((each) => reasonWords(each, t)),
                t('or'),
              ),
            ),
          )
        : t('Look there first, then read once more.'),
  };
}

/** `Most likely a broken coil; else …` */
export function likelyWords([first = '', second]: readonly string[], t: Language): string {
  const words = reasonWords(first, t);
  return second === undefined
    ? t('Most likely {0}.', words)
    : t('Most likely {0}; else {1}.', words, reasonWords(second, t));
}

const cure = ({ kind }: Explanation): Pick<Telling, 'action'> =>
  kind === 'shorted turns' ? { action: (t) => t('Rewind the coil: a short inside a winding is not mended.') } : {};

/** Scores nearer than this do not decide between two causes. */
const CLOSE = 1;
