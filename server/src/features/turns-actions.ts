/** Turns that reach a target or match the other coil, written into the plan; each title says the number and whether it fits. */
import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { present, replaceNumber } from '../checks/edits.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { type TurnsProposal, turnsForTarget, turnsThatMatch } from '../estimates/winding-plan.ts';
import type { Bench } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { printNumber } from '../quantities/print.ts';
import type { OwnPickup } from './own-blocks.ts';
import { inFile } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

/** For a cursor in a target, or on the `turns` line of a coil: nowhere else, since a resonance is solved for several times. */
export function turnsActions(analysis: Analysis, own: OwnPickup, span: Span): readonly Refactoring[] {
  const { pickup } = own.analysed;
  const touches = (block: BlockNode): boolean => {
    const at = inFile(own.placed, block.span);
    return at.start <= span.start && span.end <= at.end;
  };
  const planned = own.coils.filter(({ coil, block }) => touches(block) && isPlanned(coil, block, pickup));
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
    if (!proposal || proposal.turns === coil.turns?.value.si) return [];
    return written(analysis, [proposal], `Match the ${other.name} coil by turn-area, so that hum cancels`);
  });
}

function forTargets(analysis: Analysis, own: OwnPickup, quick: QuickEstimates): readonly Refactoring[] {
  const { pickup } = own.analysed;
  const wound = pickup.coils.filter(({ turns, counted }) => turns ?? counted);
  const all = wound.every((coil) =>
    own.coils.some((each) => each.coil === coil && isPlanned(coil, each.block, pickup)),
  );
  if (!all) return [];
  return remembered(quick, analysis.bench).flatMap(({ words, proposals }) => {
    const same = proposals.every(({ coil, turns }) => turns === coil.turns?.value.si);
    return same ? [] : written(analysis, proposals, `Wind for the target ${words}`);
  });
}

function written(analysis: Analysis, proposals: readonly TurnsProposal[], what: string): readonly Refactoring[] {
  const edits = locateEdits(
    analysis,
    present(proposals.map(({ coil, turns }) => coil.turns && replaceNumber(coil.turns.place, grouped(turns)))),
  );
  if (!edits || edits.length < proposals.length || edits.length === 0) return [];
  const turns = proposals
    .map(({ coil, turns: count, windowFilled, fits }) => {
      const filled = windowFilled === undefined ? '' : `, ${printNumber(100 * windowFilled, 0)} % of the window`;
      return `${coil.name} ${grouped(count)} turns (${fits ? 'fits' : 'does not fit'}${filled})`;
    })
    .join(', ');
  return [{ title: `${what}: ${turns}`, edits }];
}

interface Reached {
  readonly words: string;
  readonly proposals: readonly TurnsProposal[];
}

const known = new WeakMap<QuickEstimates, readonly Reached[]>();

/** Actions are asked for at every move of the cursor; the answer changes with the pickup alone. */
function remembered(quick: QuickEstimates, bench: Bench | undefined): readonly Reached[] {
  const before = known.get(quick);
  if (before) return before;
  const { resistance, inductance, resonance } = quick.netlist.pickup.target ?? {};
  const reached = (words: string, target: Parameters<typeof turnsForTarget>[2]): readonly Reached[] => {
    const proposals = turnsForTarget(quick, bench, target);
    return proposals && proposals.length > 0 ? [{ words, proposals }] : [];
  };
  const made = [
    ...(resistance
      ? reached(`resistance of ${resistance.value.written}`, { resistance20COhm: resistance.value.si })
      : []),
    ...(inductance ? reached(`inductance of ${inductance.value.written}`, { inductanceH: inductance.value.si }) : []),
    ...(resonance
      ? reached(`resonance of ${resonance.value.frequency.written} ${resonance.value.load}`, {
          resonanceHz: resonance.value.frequency.si,
          loaded: resonance.value.load === 'loaded',
        })
      : []),
  ];
  known.set(quick, made);
  return made;
}

const grouped = (turns: number): string => String(turns).replace(/\B(?=(\d{3})+$)/g, '_');
