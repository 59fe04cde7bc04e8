import type { Span } from '../../../grammar/src/span.ts';
import type { Item } from '../../../grammar/src/syntax-tree.ts';
import { unitOf } from '../../../grammar/values/unit-table.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Reference } from '../model/model.ts';
import { namesIn } from './name-at.ts';
import { blocksOf, inFile } from './syntax-at.ts';

export type TokenKind = Reference['kind'] | 'unit';

export interface SemanticToken {
  readonly kind: TokenKind;
  readonly span: Span;
  readonly declares: boolean;
}

/**
 * What only the analysis knows, in the whole file or within a span: which words are names and of what, and which are units. Keywords, numbers, strings and
 * comments have their colours from the grammar already.
 */
export function semanticTokens(analysis: Analysis, within?: Span): readonly SemanticToken[] {
  const isWithin = (span: Span): boolean =>
    within === undefined || (span.end >= within.start && span.start <= within.end);
  const names = namesIn(analysis).filter(({ at }) => isWithin(at));
  const tokens: SemanticToken[] = names.map(({ reference, at }) => ({
    kind: reference.kind,
    span: { start: at.start, end: at.end },
    declares: reference.declares,
  }));
  for (const placed of analysis.tree.chunks) {
    if (!isWithin({ start: placed.offset, end: placed.offset + placed.chunk.text.length })) continue;
    for (const { block } of blocksOf(placed.chunk)) {
      for (const line of block.body) {
        if (line.kind !== 'fact') continue;
        for (const unit of unitsOf(line.items))
          tokens.push({ kind: 'unit', span: inFile(placed, unit.span), declares: false });
      }
    }
  }
  return withoutOverlaps(tokens, analysis.text);
}

function unitsOf(items: readonly Item[]): readonly Item[] {
  return items.filter((item, index) => {
    if (item.kind !== 'word' || items[index - 1]?.kind !== 'number') return false;
    return unitOf(item.text) !== undefined;
  });
}

/** Editors take tokens in order, none over another, none over a line's end. */
function withoutOverlaps(tokens: SemanticToken[], text: string): readonly SemanticToken[] {
  tokens.sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  const kept: SemanticToken[] = [];
  for (const token of tokens) {
    const isFree = (kept.at(-1)?.span.end ?? 0) <= token.span.start && token.span.end > token.span.start;
    if (isFree && !/[\r\n]/.test(text.slice(token.span.start, token.span.end))) kept.push(token);
  }
  return kept;
}
