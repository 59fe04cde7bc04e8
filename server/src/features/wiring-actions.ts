/** What to solder, planned for the selector or the switch under the cursor, and written as the instrument's wiring. */
import type { Span } from '../../../grammar/src/span.ts';
import type { FactNode } from '../../../grammar/src/syntax-tree.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis, InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { finished } from '../physics/switching/steps.ts';
import { FEW_SEARCHES, proposeWiring, type WiringAnswer } from '../repair/wiring-proposal.ts';
import { wiresWords } from '../words/wiring-words.ts';
import { inFile, isOnHead } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

export function wiringActions(analysis: Analysis, span: Span): readonly Refactoring[] {
  return analysis.tree.chunks.flatMap((placed): readonly Refactoring[] => {
    const { chunk } = placed;
    const block = chunk.content;
    const instrument = analysis.instruments.find(({ written }) => written.place.chunk === chunk);
    if (block?.kind !== 'block' || !instrument) return [];
    const isAsked = block.body.some((each) =>
      each.kind === 'block'
        ? ['selector', 'wiring'].includes(each.keyword.text) && isOnHead(placed, each, span)
        : firstWord(each) === 'switch' && touches(inFile(placed, each.span), span),
    );
    const answer = isAsked ? wiringOf(analysis, instrument) : undefined;
    if (answer?.kind !== 'proposal') return [];
    const { plan, taken, edit } = answer.proposal;
    const edits = locateEdits(analysis, [edit]);
    const on = taken ? ` on ${taken.name}, the smallest of the shelf` : '';
    const title = `${instrument.written.wiring ? 'Plan the wiring anew' : 'Plan the wiring'}${on}: ${wiresWords(plan)}`;
    return edits ? [{ title, edits }] : [];
  });
}

const firstWord = ({ items: [first] }: FactNode): string | undefined =>
  first?.kind === 'word' ? first.text : undefined;

const touches = (at: Span, { start, end }: Span): boolean => at.start <= start && end <= at.end;

const wiringOf = onceFor(
  (analysis: Analysis, instrument: InstrumentAnalysis): WiringAnswer =>
    finished(proposeWiring(analysis, instrument, { isQuiet: true, searches: FEW_SEARCHES })),
);
