/** How findings on readings speak. */

import type { JudgedLine } from '../estimates/expected-reading.ts';
import { type Evidence, type Explanation, isResistance } from '../estimates/reading-explanation.ts';
import { printCelsius, printQuantity } from '../quantities/print.ts';
import { capital, list } from '../words/text.ts';
import { say } from './say.ts';
import type { Telling } from './telling.ts';

/** `the slug coil`, `hot to ground`. */
export function probesWords({ line }: Evidence): string {
  if (line.kind === 'coil resistance') return say`the ${line.coil.text} coil`;
  return line.probes ? say`${line.probes.red.text} to ${line.probes.black.text}` : 'hot to ground';
}

export function readWords(line: Evidence): string {
  const { value } = line.line;
  const at = line.line.kind === 'inductance' && line.line.atHz ? say` at ${line.line.atHz.written}` : '';
  return say`${capital(probesWords(line))} reads ${value === 'open' ? 'open' : value.written}${at}`;
}

/** `4.02 ± 0.03 kΩ at 21 °C`. */
export function expectedWords(line: Evidence): string {
  if (!isResistance(line)) {
    const { value, sd } = line.expected;
    return printQuantity({ value, sd, dimension: line.line.kind });
  }
  const { expected, temperature }: JudgedLine = line;
  if (expected === null) return 'open';
  const { value, sd } = expected;
  const ohms = value === 0 ? '0\u202FΩ' : printQuantity({ value, sd, dimension: 'resistance' });
  return say`${ohms} at ${printCelsius(temperature.celsius)}`;
}

/** The two likeliest causes of a line, and the measurement that tells them apart. */
export function causeWords(explanations: readonly Explanation[], line: Evidence): Pick<Telling, 'hint' | 'action'> {
  const mine = explanations.filter(({ explains }) => explains.includes(line));
  const [first, second] = mine;
  if (!first) return { hint: say`No usual cause explains it.`, action: say`Measure again.` };
  if (first.certain) return { hint: say`It is ${first.words}: nothing else explains every reading.`, ...cure(first) };
  const near = second && second.kind !== first.kind && first.score - second.score < CLOSE ? second : undefined;
  const settles = [...new Set([first.settles, near?.settles])].flatMap((each) => each ?? []);
  return {
    hint: say`Most likely ${first.words}${near ? say`; else ${near.words}` : ''}.`,
    action: settles.length ? say`Take ${list(settles, 'or')}: it tells.` : say`Look there first, then read once more.`,
  };
}

const cure = ({ kind }: Explanation): Pick<Telling, 'action'> =>
  kind === 'shorted turns' ? { action: say`Rewind the coil: a short inside a winding is not mended.` } : {};

/** Scores nearer than this do not decide between two causes. */
const CLOSE = 1;
