import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { printQuantity, printValue } from '../quantities/print.ts';
import { type OwnPickup, ownPickups } from './own-blocks.ts';
import { inFile, isOnHead } from './syntax-at.ts';
import type { Refactoring, TextEdit } from './text-edits.ts';
import { turnsActions } from './turns-actions.ts';

/** What the analysis computed and the writer may want in the file, for the block under the cursor. */
export function refactorings(analysis: Analysis, span: Span): readonly Refactoring[] {
  return ownPickups(analysis).flatMap((own) => {
    const at = inFile(own.placed, own.block.span);
    if (span.end < at.start || span.start > at.end) return [];
    // What concerns a block as a whole is offered in the line that names it, and not at every line of it.
    return [
      ...own.coils
        .filter(({ block }) => isOnHead(own.placed, block, span))
        .flatMap((coil) => writeTurns(analysis, own, coil)),
      ...turnsActions(analysis, own, span),
      ...(isOnHead(own.placed, own.block, span) ? writeTarget(analysis, own) : []),
    ];
  });
}

/** The turns that a reading gave become a stated fact, with their uncertainty. */
function writeTurns(
  analysis: Analysis,
  own: OwnPickup,
  { coil, block }: OwnPickup['coils'][number],
): readonly Refactoring[] {
  const turns = own.analysed.quick.coils.get(coil.name)?.turns;
  if (coil.turns !== undefined || coil.counted !== undefined || turns === undefined) return [];
  const written = printQuantity({ value: turns.value, sd: turns.sd, dimension: 'turns', style: 'plain' });
  const line = `turns ${written.replace(' turns', '').replace('+-', '±')}`;
  const edit = newLine(analysis, own, block, { line, behind: ['spool', 'wire', 'bobbin'] });
  return edit ? [{ title: `Write the inferred turns of the ${coil.name} coil: ${line}`, edits: [edit] }] : [];
}

/** The resistance that the build comes to becomes its target. */
function writeTarget(analysis: Analysis, own: OwnPickup): readonly Refactoring[] {
  const { pickup, quick } = own.analysed;
  const resistance = quick.resistance20COhm;
  if (pickup.target !== undefined || resistance === undefined || resistance === null) return [];
  const { value, sd } = resistance;
  const ohms = printValue({ value, sd, dimension: 'resistance', unit: 'kohm', style: 'plain' });
  const line = `target {\n    resistance ${ohms}\n  }`;
  const edit = newLine(analysis, own, own.block, { line, behind: [] });
  return edit ? [{ title: `Write the computed resistance as the target: ${ohms}`, edits: [edit] }] : [];
}

/** A line behind the first of these facts that the block states, else before its closing brace. */
function newLine(
  analysis: Analysis,
  { placed }: OwnPickup,
  block: BlockNode,
  { line, behind }: { readonly line: string; readonly behind: readonly string[] },
): TextEdit | undefined {
  const { uri } = analysis;
  const { text } = placed.chunk;
  for (const word of behind) {
    const fact = block.body.find((each) => each.kind === 'fact' && each.items[0]?.text === word);
    if (fact === undefined) continue;
    const end = inFile(placed, fact.span).end;
    const rest = /^[^\r\n]*/.exec(analysis.text.slice(end))?.[0] ?? '';
    // A block written on one line stays on it.
    if (/[;}]/.test(rest.replace(/#.*$/, ''))) return { at: { uri, start: end, end }, newText: `; ${line}` };
    const at = end + rest.length;
    return { at: { uri, start: at, end: at }, newText: `\n${indentOf(text, fact.span.start)}${line}` };
  }
  if (block.close === undefined) return undefined;
  const at = placed.offset + block.close.start;
  const indent = indentOf(text, block.span.start);
  const isOwnLine = /(?:^|[\r\n])[ \t]*$/.test(text.slice(0, block.close.start));
  return isOwnLine ? { at: { uri, start: at, end: at }, newText: `  ${line}\n${indent}` } : undefined;
}

function indentOf(text: string, at: number): string {
  const start = Math.max(text.lastIndexOf('\n', at - 1), text.lastIndexOf('\r', at - 1)) + 1;
  return /^[ \t]*/.exec(text.slice(start))?.[0] ?? '';
}
