import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { newestOf } from '../analysis/newest.ts';
import { titleOf } from '../words/parts.ts';

/** A pickup or an instrument that this file itself writes. */
export interface OwnSubject {
  readonly kind: 'pickup' | 'instrument';
  readonly name: string;
  readonly title: string;
  /** A former state of another pickup of the file. */
  readonly isRecord: boolean;
  readonly chunk: Chunk;
  /** Its block in the file. */
  readonly span: Span;
  /** Its block with the blank lines and comments that belong to it. */
  readonly around: Span;
}

/** In the order of the text. */
export function ownSubjects(analysis: Analysis): readonly OwnSubject[] {
  const things = [
    ...analysis.pickups.map(({ pickup }) => ({ kind: 'pickup' as const, thing: pickup })),
    ...analysis.instruments.map(({ instrument }) => ({ kind: 'instrument' as const, thing: instrument })),
  ];
  const newest = new Set(newestOf(analysis.pickups).map(({ pickup }) => pickup.name));
  return analysis.tree.chunks.flatMap(({ chunk, offset }): readonly OwnSubject[] => {
    const { content } = chunk;
    const found = things.find(({ thing }) => thing.place.chunk === chunk);
    if (found === undefined || content?.kind !== 'block') return [];
    const { kind, thing } = found;
    return [
      {
        kind,
        name: thing.name,
        title: titleOf(thing),
        isRecord: kind === 'pickup' && !newest.has(thing.name),
        chunk,
        span: { start: offset + content.span.start, end: offset + content.span.end },
        around: { start: offset, end: offset + chunk.text.length },
      },
    ];
  });
}
