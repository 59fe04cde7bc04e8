/** What a sweep measured, at its line: its numbers beside the computed ones, whether the circuit holds, what it could not tell. */
import type { Analysis } from '../analysis/analysis-types.ts';
import { sweptOf } from '../estimates/sweeps-measured.ts';
import { sweptWords } from '../words/sweep-words.ts';
import { ownPickups } from './own-blocks.ts';
import type { RichText } from './rich-text.ts';

export function writtenSweep(analysis: Analysis, offset: number): RichText {
  for (const { analysed } of ownPickups(analysis))
    for (const swept of sweptOf(analysed.netlist, analysis.bench)) {
      const isHere = swept.group.sweeps.some(({ place }) => {
        const span = analysis.locate(place);
        return span?.uri === analysis.uri && span.start <= offset && offset <= span.end;
      });
      if (!isHere) continue;
      const { rows, sentences } = sweptWords(swept, analysed.netlist, analysis.bench);
      return [
        ...(rows.length > 0
          ? [
              {
                kind: 'values' as const,
                rows: rows.map(({ what, measured, beside }) => ({ name: what, value: measured, restsOn: beside })),
              },
            ]
          : []),
        ...(sentences.length > 0 ? [{ kind: 'paragraph' as const, text: sentences.join(' ') }] : []),
      ];
    }
  return [];
}
