import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { blocksOf, inFile } from './syntax-at.ts';

export interface FoldingRange {
  readonly kind: 'block' | 'comment' | 'use';
  readonly span: Span;
}

/** Blocks, runs of comments that stand on lines of their own, and runs of `use`. */
export function foldingRanges(analysis: Analysis): readonly FoldingRange[] {
  const { tree, text } = analysis;
  const ranges: FoldingRange[] = [];
  const uses: Span[] = [];
  const comments: Span[] = [];
  for (const placed of tree.chunks) {
    if (placed.chunk.content?.kind === 'use') uses.push(inFile(placed, placed.chunk.content.span));
    for (const { block } of blocksOf(placed.chunk)) ranges.push({ kind: 'block', span: inFile(placed, block.span) });
    for (const comment of placed.chunk.comments) {
      const span = inFile(placed, comment.span);
      if (standsAlone(text, span.start)) comments.push(span);
    }
  }
  ranges.push(...runs(text, uses).map((span) => ({ kind: 'use' as const, span })));
  ranges.push(...runs(text, comments).map((span) => ({ kind: 'comment' as const, span })));
  return ranges.sort((a, b) => a.span.start - b.span.start);
}

/** Neighbours with nothing but one line end and blanks between them become one. */
function runs(text: string, spans: readonly Span[]): readonly Span[] {
  const merged: Span[] = [];
  for (const span of spans) {
    const last = merged.at(-1);
    const isNext = last !== undefined && /^[ \t]*(?:\r\n|\r|\n)?[ \t]*$/.test(text.slice(last.end, span.start));
    if (isNext) merged[merged.length - 1] = { start: last.start, end: span.end };
    else merged.push(span);
  }
  return merged;
}

function standsAlone(text: string, start: number): boolean {
  let at = start - 1;
  while (at >= 0 && (text[at] === ' ' || text[at] === '\t')) at -= 1;
  return at < 0 || text[at] === '\n' || text[at] === '\r' || text[at] === '\uFEFF';
}
