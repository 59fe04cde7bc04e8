/** The lines of a block in the order of the language reference. */
import type { BlockSchema } from '../../../grammar/src/schema/block-schema.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, FactNode, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Edit } from '../checks/finding.ts';
import { lineEnd, ownComments } from './own-comments.ts';
import { isSameMeaning } from './same-meaning.ts';
import { factSchemaOf, schemaOf } from './schema-at.ts';
import { isOnHead, nameItem, syntaxAt } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';

/** In the first line of a block whose lines stand in another order, and only where nothing that was told is told otherwise. */
export function sortings(analysis: Analysis, span: Span): readonly Refactoring[] {
  const at = syntaxAt(analysis.tree, span.start);
  const block = at?.blocks.at(-1);
  if (!at || !block || at.placed.chunk.problems.length > 0 || !isOnHead(at.placed, block, span)) return [];
  const edit = sorted(at.placed, block);
  const edits = edit && locateEdits(analysis, [edit]);
  if (!edit || !edits || !isSameMeaning(analysis, analysis.edited([edit]))) return [];
  const { keyword } = block;
  const name = nameItem(block);
  const called = name === keyword ? keyword.text : `${keyword.text} ${name.text}`;
  return [{ title: `Sort the lines of ${called} into the order of the language reference`, edits }];
}

/**
 * Lines change places with lines and inner blocks with inner blocks, each with the comments above and behind it; alike ones stay in
 * their order, and empty lines where they are. Nothing where they stand so, or where two share a line.
 */
function sorted({ chunk }: PlacedChunk, block: BlockNode): Edit | undefined {
  const schema = schemaOf(block);
  const pieces = schema && block.open && piecesOf(chunk.text, block.open.end, block.body);
  const [first, last] = [pieces?.[0], pieces?.at(-1)];
  if (!schema || !pieces || !first || !last) return undefined;
  const rank = (piece: Piece): number => rankIn(schema, block, piece.node);
  const waiting = {
    fact: pieces.filter(({ node }) => node.kind === 'fact').sort((a, b) => rank(a) - rank(b)),
    block: pieces.filter(({ node }) => node.kind === 'block').sort((a, b) => rank(a) - rank(b)),
  };
  let [newText, at] = ['', first.start];
  for (const place of pieces) {
    const next = waiting[place.node.kind].shift() ?? place;
    newText += chunk.text.slice(at, place.start) + chunk.text.slice(next.start, next.end);
    at = place.end;
  }
  const span = { start: first.start, end: last.end };
  return newText === chunk.text.slice(span.start, span.end) ? undefined : { place: { chunk, span }, newText };
}

function rankIn(schema: BlockSchema, block: BlockNode, node: FactNode | BlockNode): number {
  if (node.kind === 'block') return schema.blocks.indexOf(node.keyword.text);
  const fact = factSchemaOf(block, node);
  return fact ? Object.values(schema.facts).indexOf(fact) : Object.keys(schema.facts).length;
}

/** A line or an inner block, from the first of the comments right above it to the end of its last line. */
interface Piece extends Span {
  readonly node: FactNode | BlockNode;
}

function piecesOf(text: string, from: number, body: BlockNode['body']): readonly Piece[] | undefined {
  const pieces: Piece[] = [];
  let end = lineEnd(text, from);
  for (const node of body) {
    if (node.span.start <= end) return undefined;
    const above = text.slice(end, node.span.start);
    const own = ownComments(above);
    if (!BLANK_OR_COMMENTS.test(above.slice(0, above.length - own.length))) return undefined;
    end = lineEnd(text, node.span.end);
    if (!/^[ \t]*(?:#.*)?$/.test(text.slice(node.span.end, end))) return undefined;
    pieces.push({ start: node.span.start - own.length, end, node });
  }
  return pieces;
}

/** Behind the end of a line. */
const BLANK_OR_COMMENTS = /^(?:(?:\r\n|\r|\n)[ \t]*(?:#[^\r\n]*)?)*$/;
