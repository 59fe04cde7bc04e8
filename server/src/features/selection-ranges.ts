import type { Span } from '../../../grammar/src/span.ts';
import type { Item } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { inFile, syntaxAt } from './syntax-at.ts';

/** What a growing selection takes in step by step: a word, its path or text, the line, what is inside the braces, the block, the file. */
export function selectionRanges(analysis: Analysis, offset: number): readonly Span[] {
  const at = syntaxAt(analysis.tree, offset);
  const spans: Span[] = [];
  if (at) {
    const { item, fact, blocks, placed } = at;
    const inner = [
      ...(item ? [...partsOf(item, at.at), item.span] : []),
      ...(fact ? [fact.span] : []),
      ...[...blocks]
        .reverse()
        .flatMap(({ open, close, span }) => [...(open && close ? [{ start: open.end, end: close.start }] : []), span]),
      ...(placed.chunk.content ? [placed.chunk.content.span] : []),
    ];
    spans.push(...inner.map((span) => inFile(placed, span)));
  }
  spans.push({ start: 0, end: analysis.text.length });
  return growing(spans, offset);
}

/** One part of a path, and a text without its quotes. */
function partsOf(item: Item, at: number): readonly Span[] {
  if (item.kind === 'path') return item.parts.flatMap(({ span }) => (span.start <= at && at <= span.end ? [span] : []));
  const { start, end } = item.span;
  return item.kind === 'string' && end - start >= 2 ? [{ start: start + 1, end: end - 1 }] : [];
}

/** Those that hold the offset, each larger than the one before. */
function growing(spans: readonly Span[], offset: number): readonly Span[] {
  const kept: Span[] = [];
  for (const span of spans) {
    if (span.start > offset || offset > span.end) continue;
    const last = kept.at(-1);
    if (!last || (span.start <= last.start && last.end <= span.end && span.end - span.start > last.end - last.start))
      kept.push(span);
  }
  return kept;
}
