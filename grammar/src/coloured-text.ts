/** A text cut into runs by what each is, for whoever shows a spec outside an editor. */
import { readFileTree } from './read-file.ts';
import type { Span } from './span.ts';
import type { BlockNode, Chunk, FactNode, Item } from './syntax-tree.ts';

export type Colour = 'keyword' | 'name' | 'number' | 'string' | 'comment';

export interface Run {
  readonly text: string;
  /** Absent for what stands in the colour of plain text. */
  readonly colour?: Colour;
}

/** The runs put together are the text. */
export function colouredRuns(text: string): readonly Run[] {
  const runs: Run[] = [];
  let at = 0;
  for (const { offset, chunk } of readFileTree(text).chunks) {
    for (const { span, colour } of colouredSpans(chunk)) {
      const [start, end] = [offset + span.start, offset + span.end];
      if (start < at || end <= start) continue;
      if (start > at) runs.push({ text: text.slice(at, start) });
      runs.push({ text: text.slice(start, end), colour });
      at = end;
    }
  }
  return at < text.length ? [...runs, { text: text.slice(at) }] : runs;
}

interface ColouredSpan {
  readonly span: Span;
  readonly colour: Colour;
}

function colouredSpans({ content, comments }: Chunk): readonly ColouredSpan[] {
  const inContent = content?.kind === 'block' ? ofBlock(content) : content ? ofUse(content.span, content.path) : [];
  return [...inContent, ...comments.map(({ span }) => ({ span, colour: 'comment' as const }))].sort(
    (a, b) => a.span.start - b.span.start,
  );
}

const USE_LENGTH = 'use'.length;

function ofUse({ start }: Span, path: Item | undefined): readonly ColouredSpan[] {
  return [{ span: { start, end: start + USE_LENGTH }, colour: 'keyword' }, ...(path ? ofItem(path) : [])];
}

function ofBlock({ keyword, head, like, body }: BlockNode): readonly ColouredSpan[] {
  return [
    { span: keyword.span, colour: 'keyword' },
    ...head.flatMap((item) => (item.kind === 'word' ? [{ span: item.span, colour: 'name' as const }] : ofItem(item))),
    ...(like ? ofLike(like) : []),
    ...body.flatMap((line) => (line.kind === 'block' ? ofBlock(line) : ofFact(line))),
  ];
}

function ofLike({ word, span: { start }, name }: NonNullable<BlockNode['like']>): readonly ColouredSpan[] {
  const own: ColouredSpan = { span: { start, end: start + word.length }, colour: 'keyword' };
  return name ? [own, { span: name.span, colour: 'name' }] : [own];
}

function ofFact({ items: [first, ...rest] }: FactNode): readonly ColouredSpan[] {
  const word: readonly ColouredSpan[] =
    first?.kind === 'word' ? [{ span: first.span, colour: 'keyword' }] : first ? ofItem(first) : [];
  return [...word, ...rest.flatMap(ofItem)];
}

function ofItem({ kind, span }: Item): readonly ColouredSpan[] {
  if (kind === 'number' || kind === 'date' || kind === 'code') return [{ span, colour: 'number' }];
  return kind === 'string' ? [{ span, colour: 'string' }] : [];
}
