import { expectedAt } from '../../../grammar/src/expect.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { aboutBlockKind } from './hover.ts';
import type { RichText } from './rich-text.ts';
import { chunkAt } from './syntax-at.ts';

export interface Signature {
  /** The line's pattern. */
  readonly label: string;
  readonly about: RichText;
  /** The parts of the pattern, as places in the label. */
  readonly parameters: readonly Span[];
  /** The part that comes next. */
  readonly active: number | undefined;
}

/** The pattern of the line that the cursor is in, and which part of it is next. */
export function signatureHelp(analysis: Analysis, offset: number): Signature | undefined {
  const placed = chunkAt(analysis.tree, offset);
  if (placed === undefined) return undefined;
  const { pattern, fact, blocks } = expectedAt(placed.chunk, offset - placed.offset);
  if (pattern === undefined || pattern.parts.length === 0) return undefined;
  const { schema } = fact ?? {};
  return {
    label: pattern.text,
    about: schema
      ? [
          { kind: 'paragraph', text: schema.meaning },
          { kind: 'spec', text: schema.example },
        ]
      : aboutBlockKind(blocks.at(-1)?.keyword.text ?? ''),
    parameters: pattern.parts.map(({ span }) => span),
    active: pattern.active,
  };
}
