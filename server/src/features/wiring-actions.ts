/** What to solder, planned for the selector or the switch under the cursor, and written as the instrument's wiring. */
import type { Span } from '../../../grammar/src/span.ts';
import type { FactNode } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { replaceAt } from '../checks/edits.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Steps } from '../physics/switching/steps.ts';
import { type OtherSwitch, wiringFor } from '../repair/wiring-proposal.ts';
import { takenWords, wiresWords } from '../words/wiring-words.ts';
import { inFile, isOnHead } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

/** In steps, since it may take long. */
export function* wiringActions(analysis: Analysis, span: Span): Steps<readonly Refactoring[]> {
  const actions: Refactoring[] = [];
  for (const placed of analysis.tree.chunks) {
    const { chunk } = placed;
    const block = chunk.content;
    const instrument = analysis.instruments.find(({ written }) => written.place.chunk === chunk);
    if (block?.kind !== 'block' || !instrument) continue;
    const isAsked = block.body.some((each) =>
      each.kind === 'block'
        ? ['selector', 'wiring'].includes(each.keyword.text) && isOnHead(placed, each, span)
        : firstWord(each) === 'switch' && touches(inFile(placed, each.span), span),
    );
    const answer = isAsked ? yield* wiringFor(analysis, instrument) : undefined;
    if (answer?.kind === 'impossible') actions.push(...switchesThatDo(analysis, instrument.written, answer.others));
    if (answer?.kind !== 'proposal') continue;
    const { plan, taken, edit } = answer.proposal;
    const edits = locateEdits(analysis, [edit]);
    const on = taken ? ` ${takenWords(taken)}` : '';
    const title = `${instrument.written.wiring ? 'Plan the wiring anew' : 'Plan the wiring'}${on}: ${wiresWords(plan)}`;
    if (edits) actions.push({ title, edits });
  }
  return actions;
}

/** In the place of a switch that cannot. */
function switchesThatDo(
  analysis: Analysis,
  { switches }: Instrument,
  others: readonly OtherSwitch[],
): readonly Refactoring[] {
  return others.flatMap(({ part, index, slot, wires }) => {
    const own = switches[index];
    const edits = own && locateEdits(analysis, [replaceAt(own.partName.place, part.name)]);
    const place = slot === undefined ? '' : ` in the place of ${slot}`;
    return edits
      ? [{ title: `Take ${part.name} of the shelf${place}: it does all positions with ${wires} wires`, edits }]
      : [];
  });
}

const firstWord = ({ items: [first] }: FactNode): string | undefined =>
  first?.kind === 'word' ? first.text : undefined;

const touches = (at: Span, { start, end }: Span): boolean => at.start <= start && end <= at.end;
