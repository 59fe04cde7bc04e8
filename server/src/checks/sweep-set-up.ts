import { newestSwept, type OtherSetUp, otherSetUps } from '../estimates/sweep-diagnosis.ts';
import type { Swept } from '../estimates/sweeps-measured.ts';
import { printNumber, printQuantity } from '../quantities/print.ts';
import { filesWords, sweptBetween } from '../words/sweep-words.ts';
import { list } from '../words/text.ts';
import { replaceAt } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

type Unlike = Extract<Swept, { kind: 'set-up' }>;

export const sweepSetUp = definePickupCheck({
  code: 'sweep/set-up',
  severity: 'warning',
  late: true,
  yieldsTo: ['sweep/not-passive'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      if (swept.kind !== 'set-up') return [];
      const [seen, read] = [swept.seenOhm, swept.readOhm].map((value) =>
        printQuantity({ value: Math.max(0, value), dimension: 'resistance' }),
      );
      const others = otherSetUps(swept);
      return [
        {
          what: say`${filesWords(swept)}: as stated the sweep makes ${sweptBetween(swept)} ${seen ?? ''}, and a meter read ${read ?? ''}. It is not used.`,
          hint:
            others.length > 0
              ? say`It fits where it was ${list(
                  others.map((each) => say`\`${otherWords(swept, each)}\``),
                  'or',
                )}.`
              : say`The resistor was another one, or something else lay on the leads.`,
          action: say`Look at the resistor and at which side of it the pickup was, and correct the line.`,
          place: sweepPlace(swept),
          remedies: () => others.flatMap((each) => remedyOf(swept, each, others.length === 1) ?? []),
        },
      ];
    }),
});

const otherWords = ({ curve }: Unlike, { by, times }: OtherSetUp): string => {
  const ohm = curve.seriesOhm * times;
  const [value, unit] = ohm >= 1e6 ? [ohm / 1e6, 'Mohm'] : ohm >= 1e3 ? [ohm / 1e3, 'kohm'] : [ohm, 'ohm'];
  return `${by} ${printNumber(value, Number.isInteger(value) ? 0 : 2, 'plain')} ${unit}`;
};

/** In the line of the sweep whose curve says so. */
function remedyOf(swept: Unlike, other: OtherSetUp, preferred: boolean): Remedy | undefined {
  const sweep = swept.group.sweeps.find(({ curve }) => curve.hz === swept.curve.hz);
  if (!sweep || sweep.setUp.kind === 'impedance') return undefined;
  const { chunk, span } = sweep.place;
  const written = `${sweep.setUp.kind} ${sweep.setUp.seriesOhm.written}`;
  const at = chunk.text.slice(sweep.file.place.span.end, span.end).indexOf(written);
  if (at < 0) return undefined;
  const start = sweep.file.place.span.end + at;
  const newText = otherWords(swept, other);
  return {
    title: say`Change to \`${newText}\``,
    edits: [replaceAt({ chunk, span: { start, end: start + written.length } }, newText)],
    kind: 'build',
    preferred,
  };
}
