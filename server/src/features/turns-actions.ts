/** Turns that reach a target or match the other coil, written into the plan; each title says the number and whether it fits. */

import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode } from '../../../grammar/src/syntax-tree.ts';
import { present } from '../../../grammar/values/present.ts';
import { grouped } from '../../../grammar/values/quantity.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { insertFirstLine, replaceNumber } from '../checks/edits.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { type TurnsProposal, targetProposals, turnsThatMatch } from '../estimates/turns-plan.ts';
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { fitText, offText, plannedTurns, turnsText, wireText } from '../words/turns-words.ts';
import type { OwnPickup } from './own-blocks.ts';
import { inFile, isOnHead } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

/** For a cursor in a target, or on the `turns` line or the first line of a coil: nowhere else, since a resonance is solved for several times. */
export function turnsActions(analysis: Analysis, own: OwnPickup, span: Span): readonly Refactoring[] {
  const { pickup } = own.analysed;
  const touches = (block: BlockNode): boolean => {
    const at = inFile(own.placed, block.span);
    return at.start <= span.start && span.end <= at.end;
  };
  const planned = own.coils.filter(
    ({ coil, block }) =>
      (isOnHead(own.placed, block, span) || onTurnsLine(analysis, coil, span)) && isPlanned(coil, block, pickup),
  );
  const target = own.block.body.find((each) => each.kind === 'block' && each.keyword.text === 'target');
  const inTarget = target?.kind === 'block' && touches(target);
  if (planned.length === 0 && !inTarget) return [];
  const quick = quickOf(analysis.bench)(pickup);
  return [
    ...planned.flatMap(({ coil }) => matching(analysis, quick, coil)),
    ...(inTarget || planned.some(({ coil }) => onTurnsLine(analysis, coil, span))
      ? forTargets(analysis, own, quick)
      : []),
  ];
}

/** Its own line plans its turns, and nobody has counted them yet. */
const isPlanned = (coil: Coil, block: BlockNode, { place }: Pickup): boolean =>
  coil.turns !== undefined &&
  coil.counted === undefined &&
  coil.turns.place.chunk === place.chunk &&
  block.span.start <= coil.turns.place.span.start &&
  coil.turns.place.span.end <= block.span.end;

function onTurnsLine(analysis: Analysis, { turns }: Coil, span: Span): boolean {
  const at = turns && analysis.locate(turns.place);
  return at !== undefined && at.start <= span.end && span.start <= at.end;
}

function matching(analysis: Analysis, quick: QuickEstimates, coil: Coil): readonly Refactoring[] {
  return quick.netlist.pickup.coils.flatMap((other) => {
    const proposal = other === coil ? undefined : turnsThatMatch(quick, coil, other);
    if (!proposal || isStated(proposal)) return [];
    return written(analysis, quick, [proposal], `Match the ${other.name} coil by turn-area, so that hum cancels`);
  });
}

const isStated = (proposal: TurnsProposal): boolean => plannedTurns(proposal) === proposal.coil.turns?.value.si;

function forTargets(analysis: Analysis, own: OwnPickup, quick: QuickEstimates): readonly Refactoring[] {
  const { pickup } = own.analysed;
  const mayChange = (coil: Coil): boolean =>
    own.coils.some((each) => each.coil === coil && (isPlanned(coil, each.block, pickup) || isBlank(coil)));
  return remembered(quick, analysis.bench).flatMap(({ words, proposals }) =>
    proposals.every(isStated) || !proposals.every(({ coil }) => mayChange(coil))
      ? []
      : written(analysis, quick, proposals, `Wind for the target ${words}`),
  );
}

const isBlank = ({ turns, counted }: Coil): boolean => turns === undefined && counted === undefined;

function written(
  analysis: Analysis,
  quick: QuickEstimates,
  proposals: readonly TurnsProposal[],
  what: string,
): readonly Refactoring[] {
  const edits = locateEdits(
    analysis,
    present(
      proposals.map((each) => {
        const count = grouped(plannedTurns(each));
        const { turns, place } = each.coil;
        return turns ? replaceNumber(turns.place, count) : insertFirstLine(place, `turns ${count}`);
      }),
    ),
  );
  if (!edits || edits.length < proposals.length || edits.length === 0) return [];
  const each = proposals.map((proposal) => {
    const { coil, turns, off, wire } = proposal;
    // What is only planned has nothing on it to take off.
    const change = off && quick.readings.has(coil) ? [offText(off)] : [];
    return `${coil.name} ${turnsText(turns)} (${[fitText(proposal), ...change, wireText(wire)].join('; ')})`;
  });
  return [{ title: `${what}: ${each.join(', ')}`, edits }];
}

/** Actions are asked for at every move of the cursor. */
const remembered = onceFor(targetProposals);
