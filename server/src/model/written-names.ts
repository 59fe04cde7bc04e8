/** The names that a file writes, nothing looked up: what an index of a whole shop keeps of it. */
import { buildChunk } from '../../../grammar/src/build-tree.ts';
import { cut } from '../../../grammar/src/cut.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { namesInBlock } from './inner-names.ts';
import { blockOf } from './merged-block.ts';
import type { Reference } from './model.ts';
import { SHOP_KINDS } from './resolver.ts';
import { unreadSpans } from './unread-spans.ts';

export interface WrittenNames {
  /** Paths as written, each with the place of its quoted text. */
  readonly uses: readonly { readonly path: string; readonly span: Span }[];
  /** Things of the shop and coils. */
  readonly declared: readonly { readonly kind: Reference['kind']; readonly name: string; readonly span: Span }[];
  /** Pickups of which one here is a later state. */
  readonly reworked: readonly string[];
  /** Every name that stands in it, leads by their one spelling too; where a line does not read, every word of it. */
  readonly mentioned: ReadonlySet<string>;
}

/** Reads a text piece by piece; whoever has something else to do goes on when it is done. */
export function* writtenNames(text: string): Generator<undefined, WrittenNames> {
  const uses: WrittenNames['uses'][number][] = [];
  const declared: WrittenNames['declared'][number][] = [];
  const reworked: string[] = [];
  const mentioned = new Set<string>();
  const starts = cut(text);
  for (const [index, offset] of starts.entries()) {
    const chunk = buildChunk(text.slice(offset, starts[index + 1]));
    const inFile = ({ start, end }: Span): Span => ({ start: offset + start, end: offset + end });
    for (const { start, end } of unreadSpans(chunk))
      for (const [word] of chunk.text.slice(start, end).matchAll(WORDS)) mentioned.add(word);
    const { content } = chunk;
    if (content?.kind === 'use' && content.path)
      uses.push({ path: content.path.value, span: inFile(content.path.span) });
    if (content?.kind === 'block') {
      const like = content.like;
      if (like?.name) mentioned.add(like.name.text);
      if (like?.name && like.word === 'reworks') reworked.push(like.name.text);
      for (const { kind, name, span } of declarationsIn(chunk)) declared.push({ kind, name, span: inFile(span) });
      for (const { kind, parts } of namesInBlock(blockOf(content, chunk)))
        for (const { value } of parts) {
          mentioned.add(value);
          if (kind === 'lead' || kind === 'slot') mentioned.add(canonicalLeadName(value));
        }
    }
    yield;
  }
  for (const { name } of declared) mentioned.add(name);
  return { uses, declared, reworked, mentioned };
}

const WORDS = /\p{L}[\p{L}\p{N}\p{M}_-]*/gu;

function declarationsIn(chunk: Chunk): WrittenNames['declared'] {
  const { content } = chunk;
  if (content?.kind !== 'block') return [];
  const block = blockOf(content, chunk);
  const kind = SHOP_KINDS.find((each) => each === block.keyword);
  const coils = namesInBlock(block).flatMap(({ kind: of, role, parts: [name] }) =>
    of === 'coil' && role === 'declares' && name ? [{ kind: of, name: name.value, span: name.span }] : [],
  );
  return kind && block.name !== undefined ? [{ kind, name: block.name, span: block.namePlace.span }, ...coils] : coils;
}
