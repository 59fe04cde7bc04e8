/** How findings on readings speak. */

import type { JudgedLine } from '../estimates/expected-reading.ts';
import type { Explanation } from '../estimates/reading-explanation.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { capital, list } from '../words/text.ts';
import { say } from './say.ts';
import type { Telling } from './telling.ts';

/** `the slug coil`, `hot to ground`. */
export const probesWords = ({ line }: JudgedLine): string =>
  line.kind === 'coil resistance'
    ? say`the ${line.coil.text} coil`
    : say`${line.probes.red.text} to ${line.probes.black.text}`;

export const readWords = (line: JudgedLine): string =>
  say`${capital(probesWords(line))} reads ${line.line.value === 'open' ? 'open' : line.line.value.written}`;

/** `4.02 ± 0.03 kΩ at 21 °C`. */
export function expectedWords({ expected, temperature }: JudgedLine): string {
  if (expected === null) return 'open';
  const { value, sd } = expected;
  const ohms = value === 0 ? '0\u202FΩ' : printQuantity({ value, sd, dimension: 'resistance' });
  return say`${ohms} at ${printCelsius(temperature.celsius)}`;
}

/** The two likeliest causes of a line, and the measurement that tells them apart. */
export function causeWords(explanations: readonly Explanation[], line: JudgedLine): Pick<Telling, 'hint' | 'action'> {
  const mine = explanations.filter(({ explains }) => explains.includes(line));
  const [first, second] = mine;
  if (!first) return { hint: say`No usual cause explains it.`, action: say`Measure again.` };
  const near = second && second.kind !== first.kind && first.score - second.score < CLOSE ? second : undefined;
  const settles = [...new Set([first.settles, near?.settles])].flatMap((each) => each ?? []);
  return {
    hint: say`Most likely ${first.words}${near ? say`; else ${near.words}` : ''}.`,
    ...(settles.length ? { action: say`Take ${list(settles, 'or')}: it tells.` } : {}),
  };
}

/** Scores nearer than this do not decide between two causes. */
const CLOSE = 1;
