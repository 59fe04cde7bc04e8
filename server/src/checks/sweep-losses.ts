import { type MetalCandidate, metalCandidates } from '../estimates/metal-candidates.ts';
import { newestSwept, otherLosses } from '../estimates/sweep-diagnosis.ts';
import { printNumber, printQuantity } from '../quantities/print.ts';
import { filesWords, lossWords } from '../words/sweep-words.ts';
import { list } from '../words/text.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

export const sweepLosses = definePickupCheck({
  code: 'sweep/losses',
  severity: 'warning',
  late: true,
  yieldsTo: ['sweep/set-up', 'sweep/open', 'sweep/circuit-differs', 'sweep/shorted-turns'],
  run: ({ quick }) =>
    newestSwept(quick).flatMap((swept) => {
      const other = swept.kind === 'coil' ? otherLosses(swept, quick) : undefined;
      if (!other || swept.kind !== 'coil') return [];
      const { computed, times } = other;
      const before =
        computed.share > 0
          ? say`${printNumber(100 * computed.share, 0)}\u202F% from ${printQuantity({ value: computed.cornerHz, dimension: 'frequency', digits: 2 })}`
          : 'nothing';
      const likely = metalCandidates(swept, quick).slice(0, TOLD);
      return [
        {
          what: say`${filesWords(swept)}: ${lossWords(swept) ?? ''} With the metal stated, ${before} is computed.`,
          hint:
            likely.length > 0 ? say`It would fit ${list(likely.map(candidateWords), 'or')}.` : say`${otherwise(times)}`,
          action: say`Look at cover, baseplate and poles, and state the metal that is there. What was measured is used.`,
          place: sweepPlace(swept),
          subject: { coils: other.coils.map(({ name }) => name) },
        },
      ];
    }),
});

/** Told are so many of what would fit. */
const TOLD = 3;

const otherwise = (times: number): string =>
  times > 1
    ? 'No cover or baseplate of the usual metals does so: poles of other steel, a ring, steel on the bench.'
    : 'Less metal than stated lies near the coil, or it conducts worse.';

/** `a cover of brass, 0.5 mm`, `no cover`. */
const candidateWords = ({ part, material, thickness }: MetalCandidate): string =>
  material === undefined ? `no ${part}` : `a ${part} of ${material}${thickness ? `, ${thickness.written}` : ''}`;
