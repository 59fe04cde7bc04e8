/** A part that is declared where it is used moves into a file of parts, where other specs find it. */
import type { Span } from '../../../grammar/src/span.ts';
import type { PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { resolveUse } from '../analysis/use-graph.ts';
import type { Edit } from '../checks/finding.ts';
import { list } from '../words/text.ts';
import { useTarget } from './document-links.ts';
import { relativePath } from './moved-files.ts';
import { lineEnd, ownComments } from './own-comments.ts';
import { isSameMeaning } from './same-meaning.ts';
import { chunkAt, inFile, isOnHead } from './syntax-at.ts';
import { locateEdits, type Refactoring } from './text-edits.ts';
import { removalOf, textOfBlock, type WholeBlock, wholeBlock } from './whole-block.ts';

const PARTS = ['wire', 'spool', 'bobbin', 'magnet'] as const;
type PartKind = (typeof PARTS)[number];

export interface Extraction extends Refactoring {
  /** Where the parts stand afterwards. */
  readonly target: string;
  readonly moved: readonly { readonly kind: PartKind; readonly name: string }[];
  /** The text of the target, where that is a new file. */
  readonly newFile?: string;
}

/**
 * In the first line of a part: into each file of parts that this one uses; where it uses none, into a new `parts.pickup` beside it.
 * What the part is made of goes along. Nothing where a name would mean another thing afterwards.
 */
export function extractions(analysis: Analysis, span: Span, otherSpecs: readonly string[]): readonly Extraction[] {
  const placed = chunkAt(analysis.tree, span.start);
  const part = placed && partOf(analysis, placed);
  if (!part || !isOnHead(placed, part.block, span)) return [];
  const needed = withWhatItNeeds(analysis, part);
  if (needed === undefined) return [];
  const { together, elsewhere } = needed;
  const isClear = together.every(
    ({ kind, name }) => analysis.namesInScope(kind).filter((each) => each.name === name).length === 1,
  );
  if (!isClear || analysis.pending.length > 0) return [];
  const uses = analysis.tree.chunks.flatMap(({ chunk: { content } }) => (content?.kind === 'use' ? [content] : []));
  // Only from where it is used: a file that holds nothing but parts is the place for them.
  const { pickups, instruments } = analysis.model;
  if (uses.length === 0 && pickups.length + instruments.length === 0) return [];
  if (uses.length === 0) return elsewhere.size === 0 ? intoNewFile(analysis, together, otherSpecs) : [];
  const targets = new Set(uses.flatMap((use) => useTarget(analysis, use) ?? []));
  return [...targets].flatMap((target) =>
    target !== analysis.uri && [...elsewhere].every((uri) => uri === target)
      ? intoFile(analysis, together, target)
      : [],
  );
}

interface Part extends WholeBlock {
  readonly kind: PartKind;
  readonly name: string;
}

function partOf(analysis: Analysis, placed: PlacedChunk): Part | undefined {
  const whole = wholeBlock(analysis, placed);
  const kind = PARTS.find((each) => each === whole?.kind);
  return whole?.name === undefined || kind === undefined ? undefined : { ...whole, kind, name: whole.name };
}

/** In the order of the file; `elsewhere`: files that hold what they need besides. `undefined` where one of them cannot be moved. */
function withWhatItNeeds(
  analysis: Analysis,
  part: Part,
): { readonly together: readonly Part[]; readonly elsewhere: ReadonlySet<string> } | undefined {
  const together = new Set([part.chunk]);
  const elsewhere = new Set<string>();
  // A set that grows while it is walked is walked to its end.
  for (const chunk of together)
    for (const { place, target, declares } of analysis.model.references()) {
      if (place.chunk !== chunk || declares || target === undefined) continue;
      const uri = analysis.locate(target)?.uri;
      if (uri === analysis.uri) together.add(target.chunk);
      else if (uri !== undefined) elsewhere.add(uri);
    }
  const placed = analysis.tree.chunks.filter(({ chunk }) => together.has(chunk));
  const parts = placed.flatMap((each) => partOf(analysis, each) ?? []);
  return parts.length === together.size ? { together: parts, elsewhere } : undefined;
}

/** Behind the last part of its kind, or behind the last part of all. */
function intoFile(analysis: Analysis, parts: readonly Part[], target: string): readonly Extraction[] {
  const text = analysis.textOf(target);
  const declared = (kind: PartKind | 'pickup' | 'instrument') =>
    analysis.namesInScope(kind).flatMap(({ place: { chunk } }) => {
      const end = chunk.content?.span.end ?? 0;
      const at = analysis.locate({ chunk, span: { start: end, end } });
      return at?.uri === target ? [{ chunk, end, start: at.start }] : [];
    });
  if (text === undefined || declared('pickup').length + declared('instrument').length > 0) return [];
  const alike = declared(parts.at(-1)?.kind ?? 'wire');
  const [last] = (alike.length > 0 ? alike : PARTS.flatMap(declared)).sort((a, b) => b.start - a.start);
  if (last === undefined) return [];
  const at = last.end + lineEnd(text, last.start) - last.start;
  const place = { chunk: last.chunk, span: { start: at, end: at } };
  const edits: readonly Edit[] = [
    { place, newText: parts.map((part) => `\n\n${textOfBlock(analysis, part)}`).join('') },
    ...parts.map((part) => removal(analysis, part)),
  ];
  const located = locateEdits(analysis, edits);
  const moved = new Set(parts.map(({ chunk }) => chunk));
  if (!located || !isSameMeaning(analysis, analysis.edited(edits), moved)) return [];
  return [
    { title: titleOf(parts, relativePath(analysis.uri, target) ?? target), edits: located, target, moved: parts },
  ];
}

function intoNewFile(analysis: Analysis, parts: readonly Part[], others: readonly string[]): readonly Extraction[] {
  const target = resolveUse(analysis.uri, NEW_FILE);
  const [first] = analysis.tree.chunks.filter(({ chunk }) => chunk.content?.kind === 'block');
  if (target === undefined || first?.chunk.content === undefined || others.includes(NEW_FILE)) return [];
  if (target === analysis.uri) return [];
  const start = inFile(first, first.chunk.content.span).start;
  const at = start - ownComments(analysis.text.slice(0, start)).length;
  const useLine = `use "${NEW_FILE}"\n\n`;
  const removals = parts.map((part): Edit => {
    const edit = removal(analysis, part);
    return part.at.start === at ? { ...edit, newText: useLine } : edit;
  });
  const span = { start: at - first.offset, end: at - first.offset };
  const edits = parts.some((part) => part.at.start === at)
    ? removals
    : [{ place: { chunk: first.chunk, span }, newText: useLine }, ...removals];
  const located = locateEdits(analysis, edits);
  if (!located) return [];
  const newFile = `${parts.map((part) => textOfBlock(analysis, part)).join('\n\n')}\n`;
  return [{ title: `${titleOf(parts, NEW_FILE)}, a new file`, edits: located, target, moved: parts, newFile }];
}

const NEW_FILE = 'parts.pickup';

const titleOf = (parts: readonly Part[], file: string): string =>
  `Move ${list(parts.map(({ kind, name }) => `${kind} ${name}`))} to ${file}`;

function removal(analysis: Analysis, part: Part): Edit {
  const { chunk } = part;
  const offset = analysis.tree.chunks.find((placed) => placed.chunk === chunk)?.offset ?? 0;
  const { at, newText } = removalOf(analysis, part);
  return { place: { chunk, span: { start: at.start - offset, end: at.end - offset } }, newText };
}
