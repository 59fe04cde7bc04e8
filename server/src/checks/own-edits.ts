/**
 * `like` brings lines from another pickup. A remedy for one pickup must not change the other: what it would change there is
 * stated anew here, by the rule that a fact stated in a pickup replaces all facts of that word that `like` brings.
 */
import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { BlockNode, Chunk, FactNode } from '../../../grammar/src/syntax-tree.ts';
import type { Pickup } from '../model/pickup.ts';
import { insertFirstLines } from './edits.ts';
import type { Edit } from './finding.ts';

/** The same change with nothing but this pickup's own text touched; `undefined` where it cannot be said so. */
export function ownEdits(edits: readonly Edit[], pickup: Pickup): readonly Edit[] | undefined {
  const own = pickup.place.chunk;
  const lent = (edit: Edit) => edit.place.chunk !== own && pickupBlock(edit.place.chunk) !== undefined;
  const chunks = [...new Set(edits.filter(lent).map(({ place }) => place.chunk))];
  if (chunks.length === 0) return edits;
  const restated = chunks.map((chunk) =>
    restate(
      chunk,
      edits.filter(({ place }) => place.chunk === chunk),
      own,
    ),
  );
  if (restated.some((each) => each === undefined)) return undefined;
  return [...edits.filter((edit) => !lent(edit)), ...restated.flatMap((each) => each ?? [])];
}

const pickupBlock = ({ content }: Chunk): BlockNode | undefined =>
  content?.kind === 'block' && content.keyword.text === 'pickup' ? content : undefined;

/** Applies the edits to the other pickup's text, and states here every fact whose lines came out different. */
function restate(lender: Chunk, edits: readonly Edit[], own: Chunk): readonly Edit[] | undefined {
  const [before, here] = [pickupBlock(lender), pickupBlock(own)];
  const after = readFileTree(applied(lender.text, edits)).chunks[0]?.chunk;
  const changed = after && pickupBlock(after);
  if (!before || !here || !changed || changed.body.length === 0) return undefined;
  const facts = differing(before, lender.text, changed, after.text);
  const inner = innerBlocks(changed).map((block) => {
    const was = sameBlock(before, block);
    const lines = was ? differing(was, lender.text, block, after.text) : undefined;
    return lines && { block, lines };
  });
  if (!facts || inner.some((each) => each === undefined)) return undefined;
  const told = inner.flatMap((each) => (each && each.lines.length > 0 ? [each] : []));
  const anew = told.filter(({ block }) => sameBlock(here, block) === undefined);
  const blocks = anew.map(({ block, lines }) => {
    const head = after.text.slice(block.span.start, block.like?.span.start ?? block.open?.start ?? block.span.start);
    return `${head.trim()} {\n${lines.map((line) => `    ${line}\n`).join('')}  }`;
  });
  const insert = ({ span }: BlockNode, lines: readonly string[]) =>
    lines.length > 0 ? [insertFirstLines({ chunk: own, span }, lines)] : [];
  return [
    ...insert(here, [...facts, ...blocks]),
    ...told.flatMap(({ block, lines }) => {
      const target = sameBlock(here, block);
      return target ? insert(target, lines) : [];
    }),
  ];
}

function applied(text: string, edits: readonly Edit[]): string {
  return edits
    .map(({ place: { span }, newText }, order) => ({ ...span, newText, order }))
    .sort((a, b) => b.start - a.start || b.order - a.order)
    .reduce((result, { start, end, newText }) => result.slice(0, start) + newText + result.slice(end), text);
}

/** Lines of every word whose lines are not the same; `undefined` where none of that word is left, which cannot be stated. */
function differing(was: BlockNode, wasText: string, is: BlockNode, isText: string): readonly string[] | undefined {
  const before = linesByWord(was, wasText);
  const after = linesByWord(is, isText);
  const words = [...new Set([...before.keys(), ...after.keys()])];
  const changed = words.filter((word) => (before.get(word) ?? []).join('\n') !== (after.get(word) ?? []).join('\n'));
  if (changed.some((word) => !after.has(word))) return undefined;
  return changed.flatMap((word) => after.get(word) ?? []);
}

function linesByWord({ body }: BlockNode, text: string): ReadonlyMap<string, readonly string[]> {
  const lines = new Map<string, readonly string[]>();
  for (const fact of body) {
    if (fact.kind !== 'fact') continue;
    const word = wordOf(fact);
    lines.set(word, [...(lines.get(word) ?? []), text.slice(fact.span.start, fact.span.end)]);
  }
  return lines;
}

const wordOf = ({ items }: FactNode): string => items[0]?.text ?? '';

const innerBlocks = ({ body }: BlockNode): readonly BlockNode[] =>
  body.flatMap((child) => (child.kind === 'block' ? [child] : []));

const sameBlock = (outer: BlockNode, { keyword, head }: BlockNode): BlockNode | undefined =>
  innerBlocks(outer).find(
    (each) => each.keyword.text === keyword.text && (each.head[0]?.text ?? '') === (head[0]?.text ?? ''),
  );
