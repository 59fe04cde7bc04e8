/** Another resistor or another word in the line of a sweep, by which it would fit. */
import type { OtherSetUp } from '../estimates/sweep-diagnosis.ts';
import type { SweepGroup } from '../estimates/sweep-set-up.ts';
import type { MeasuredCurve } from '../physics/sweep/sweep-problem.ts';
import { printNumber } from '../quantities/print.ts';
import { list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { say } from './say.ts';

export const fitsWhere = (curve: MeasuredCurve, others: readonly OtherSetUp[]) =>
  say`It fits where it was ${list(
    others.map((each) => say`\`${otherWords(curve, each)}\``),
    'or',
  )}.`;

const otherWords = ({ seriesOhm }: MeasuredCurve, { by, times }: OtherSetUp): string => {
  const ohm = seriesOhm * times;
  const [value, unit] = ohm >= 1e6 ? [ohm / 1e6, 'Mohm'] : ohm >= 1e3 ? [ohm / 1e3, 'kohm'] : [ohm, 'ohm'];
  return `${by} ${printNumber(value, Number.isInteger(value) ? 0 : 2, 'plain')} ${unit}`;
};

/** In the line of the sweep whose curve says so. */
export function setUpRemedies(
  sweeps: SweepGroup['sweeps'],
  curve: MeasuredCurve,
  others: readonly OtherSetUp[],
): readonly Remedy[] {
  const sweep = sweeps.find((each) => each.curve.hz === curve.hz);
  if (!sweep || sweep.setUp.kind === 'impedance') return [];
  const { chunk, span } = sweep.place;
  const written = `${sweep.setUp.kind} ${sweep.setUp.seriesOhm.written}`;
  const at = chunk.text.slice(sweep.file.place.span.end, span.end).indexOf(written);
  if (at < 0) return [];
  const start = sweep.file.place.span.end + at;
  return others.map((each) => {
    const newText = otherWords(curve, each);
    return {
      title: say`Change to \`${newText}\``,
      edits: [replaceAt({ chunk, span: { start, end: start + written.length } }, newText)],
      kind: 'build',
      preferred: others.length === 1,
    };
  });
}
