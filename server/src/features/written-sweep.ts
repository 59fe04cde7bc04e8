/** What a sweep measured, at its line: its numbers beside the computed ones, whether the circuit holds, what it could not tell. */
import type { Analysis } from '../analysis/analysis-types.ts';
import { sweptOf } from '../estimates/sweeps-together.ts';
import type { Sweep } from '../model/sweep.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { sweptWords } from '../words/sweep-words.ts';
import { ownPickups } from './own-blocks.ts';
import type { RichText } from './rich-text.ts';

export function writtenSweep(analysis: Analysis, offset: number): RichText {
  const isHere = ({ place }: Sweep): boolean => {
    const span = analysis.locate(place);
    return span?.uri === analysis.uri && span.start <= offset && offset <= span.end;
  };
  // Nothing is fitted for a hover elsewhere.
  const analysed = ownPickups(analysis)
    .map((each) => each.analysed)
    .find(({ pickup }) => sweepsOf(pickup).some(({ sweep }) => isHere(sweep)));
  const swept = analysed && sweptOf(analysed.netlist, analysis.bench).find(({ group }) => group.sweeps.some(isHere));
  if (!swept) return [];
  const { rows, sentences } = sweptWords(swept, analysed.netlist, analysis.bench);
  const values = rows.map(({ what, measured, isUsed, beside }) => ({
    name: what,
    value: isUsed ? `${measured}, measured` : measured,
    restsOn: beside,
  }));
  return [
    ...(values.length > 0 ? [{ kind: 'values' as const, rows: values }] : []),
    ...(sentences.length > 0 ? [{ kind: 'paragraph' as const, text: sentences.join(' ') }] : []),
  ];
}
