/** Builds for the target that a span touches, or for a coil under it that leaves its turns out; each written by one action. */
import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode } from '../../../grammar/src/syntax-tree.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { buildTitle, coilFacts, coilWords, givesUp, oddsText, windingCautions } from '../proposal/build-words.ts';
import { type NoProposal, type Proposal, proposeBuilds } from '../proposal/propose.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { type OwnPickup, ownPickups } from './own-blocks.ts';
import { inFile } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

export interface ProposalAction extends Refactoring {
  /** What each coil takes, what is reached. */
  readonly facts: readonly string[];
  readonly givesUp: readonly string[];
  readonly cautions: readonly string[];
}

/** Offered where the target stands, and where turns are missing. */
export const proposalActions = (analysis: Analysis, span: Span, t = ENGLISH): readonly ProposalAction[] =>
  ownPickups(analysis).flatMap((own) => (asksFor(own, span) ? actionsOf(analysis, own, t) : []));

/** Those of the pickup whose block holds the span. */
export const proposalsAround = (analysis: Analysis, { start }: Span, t = ENGLISH): readonly ProposalAction[] =>
  ownPickups(analysis).flatMap((own) =>
    touches(own, own.block, { start, end: start }) ? actionsOf(analysis, own, t) : [],
  );

const touches = ({ placed }: OwnPickup, block: BlockNode, span: Span): boolean => {
  const at = inFile(placed, block.span);
  return at.start <= span.start && span.end <= at.end;
};

function asksFor(own: OwnPickup, span: Span): boolean {
  const target = own.block.body.some(
    (each) => each.kind === 'block' && each.keyword.text === 'target' && touches(own, each, span),
  );
  return target || own.coils.some(({ coil, block }) => !coil.turns && !coil.counted && touches(own, block, span));
}

/** Remembered: the same builds are asked for by list, command and bench view. */
export const proposalOf = onceFor((analysis: Analysis, pickup: OwnPickup['analysed']): Proposal | NoProposal =>
  proposeBuilds(analysis, pickup),
);

function actionsOf(analysis: Analysis, { analysed }: OwnPickup, t: Language): readonly ProposalAction[] {
  const proposal = proposalOf(analysis, analysed);
  if (typeof proposal === 'string') return [];
  return proposal.builds.flatMap((each): readonly ProposalAction[] => {
    const edits = locateEdits(analysis, each.edits);
    if (!edits) return [];
    return [
      {
        title: t('Wind for the target: {0}; {1}', buildTitle(each.build, t), oddsText(each, t)),
        edits,
        facts: coilFacts(each).map((facts) => `${facts.choice.opening.coil.name}: ${coilWords(facts, t)}`),
        givesUp: givesUp(each, t),
        cautions: windingCautions(each).map((caution) => t(caution)),
      },
    ];
  });
}
