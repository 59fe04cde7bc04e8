/**
 * `like` brings lines from another pickup. A remedy for one pickup must not change the other: what it would change there is
 * stated anew here, by the rule that a fact stated in a pickup replaces what `like` brings of it.
 */
import { editedText } from '../../../grammar/src/edited-text.ts';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { type AnyBlock, blockOf, sameBlock } from '../model/merged-block.ts';
import type { Pickup } from '../model/pickup.ts';
import { insertFirstLines } from './edits.ts';
import type { Edit } from './finding.ts';

/** The same change with nothing but this pickup's own text touched; `undefined` where it cannot be said so. */
export function ownEdits(edits: readonly Edit[], pickup: Pickup): readonly Edit[] | undefined {
  const own = pickup.place.chunk;
  const lent = (edit: Edit) => edit.place.chunk !== own && pickupBlock(edit.place.chunk) !== undefined;
  const chunks = [...new Set(edits.filter(lent).map(({ place }) => place.chunk))];
  const here = pickupBlock(own);
  if (chunks.length === 0 || !here) return edits;
  const restated = chunks.map((chunk) => {
    const facts = changedFacts(chunk, edits);
    return facts?.every(({ after }) => after.length > 0)
      ? stateAnew(
          here,
          facts.map(({ at, after }) => ({ at, lines: after })),
        )
      : undefined;
  });
  if (restated.some((each) => each === undefined)) return undefined;
  return [...edits.filter((edit) => !lent(edit)), ...restated.flatMap((each) => each ?? [])];
}

/** A fact of a pickup or of a block in it whose lines come out different. */
export interface ChangedFact {
  readonly at: AnyBlock;
  readonly field: string;
  readonly before: readonly string[];
  readonly after: readonly string[];
}

/** What edits change in the pickup that a piece of text declares; `undefined` where it declares none afterwards. */
export function changedFacts(chunk: Chunk, edits: readonly Edit[]): readonly ChangedFact[] | undefined {
  const [before, after] = [pickupBlock(chunk), pickupBlock(editedChunk(chunk, edits))];
  if (!before || !after || after.node.body.length === 0) return undefined;
  const inner = after.blocks.flatMap((block) => differing(sameBlock(before, block), block));
  return [...differing(before, after), ...inner];
}

export function editedChunk(chunk: Chunk, edits: readonly Edit[]): Chunk {
  const own = edits.filter(({ place }) => place.chunk === chunk);
  const text = editedText(
    chunk.text,
    own.map(({ place: { span }, newText }) => ({ ...span, newText })),
  );
  return (text === undefined ? undefined : readFileTree(text).chunks[0]?.chunk) ?? chunk;
}

export function pickupBlock(chunk: Chunk): AnyBlock | undefined {
  const { content } = chunk;
  return content?.kind === 'block' && content.keyword.text === 'pickup' ? blockOf(content, chunk) : undefined;
}

function differing(before: AnyBlock | undefined, after: AnyBlock): readonly ChangedFact[] {
  if (!before) return [];
  return Object.keys(after.schema.facts).flatMap((field): readonly ChangedFact[] => {
    const [was, is] = [linesOf(before, field), linesOf(after, field)];
    return was.join('\n') === is.join('\n') ? [] : [{ at: after, field, before: was, after: is }];
  });
}

const linesOf = ({ facts }: AnyBlock, field: string): readonly string[] =>
  (facts[field] ?? []).map(({ place: { chunk, span } }) => chunk.text.slice(span.start, span.end));

/** Lines in a pickup's own text: in its block or in the one inside it of the same name, which is made where there is none. */
export function stateAnew(
  here: AnyBlock,
  facts: readonly { readonly at: AnyBlock; readonly lines: readonly string[] }[],
): readonly Edit[] {
  const lines = new Map<AnyBlock, readonly string[]>();
  for (const { at, lines: more } of facts) lines.set(at, [...(lines.get(at) ?? []), ...more]);
  const targets = [...lines].map(([at, stated]) => ({
    at,
    stated,
    target: at.keyword === here.keyword ? here : sameBlock(here, at),
  }));
  const own = targets.flatMap(({ stated, target }) => (target === here ? stated : []));
  const blocks = targets.flatMap(({ at, stated, target }) => (target ? [] : [blockText(at, stated)]));
  const insert = ({ extent }: AnyBlock, stated: readonly string[]) =>
    stated.length > 0 ? [insertFirstLines(extent, stated)] : [];
  return [
    ...insert(here, [...own, ...blocks]),
    ...targets.flatMap(({ stated, target }) => (target && target !== here ? insert(target, stated) : [])),
  ];
}

const blockText = ({ keyword, name }: AnyBlock, lines: readonly string[]): string =>
  `${[keyword, name].filter(Boolean).join(' ')} {\n${lines.map((line) => `    ${line}\n`).join('')}  }`;
