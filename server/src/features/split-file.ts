/** A file of several pickups becomes one file for each; what they share goes into a file of its own. */

import { editedText } from '../../../grammar/src/edited-text.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { resolveUse } from '../analysis/use-graph.ts';
import { list } from '../words/text.ts';
import { useTarget } from './document-links.ts';
import { lineEnd, ownComments } from './own-comments.ts';
import { toldOf } from './same-meaning.ts';
import { chunkAt, inFile, isOnHead } from './syntax-at.ts';
import type { Refactoring, TextEdit } from './text-edits.ts';
import { removalOf, textOfBlock, type WholeBlock, wholeBlock } from './whole-block.ts';

export interface Split extends Refactoring {
  /** The files that come into being, with their texts. */
  readonly newFiles: ReadonlyMap<string, string>;
}

/**
 * In the first line of a pickup of a file that holds several: each goes into a file of its own name, with the `use` lines that it needs;
 * parts and bench that they need go into one beside them. The file itself keeps what is left, instruments above all, and uses the new
 * ones, so that whoever uses it finds all as before. Nothing where findings or numbers would be others afterwards. `taken`: paths of
 * files that are there already.
 */
export function splits(analysis: Analysis, span: Span, taken: readonly string[]): readonly Split[] {
  const placed = chunkAt(analysis.tree, span.start);
  const block = placed?.chunk.content;
  if (placed === undefined || block?.kind !== 'block' || block.keyword.text !== 'pickup') return [];
  if (!isOnHead(placed, block, span)) return [];
  if (analysis.pickups.length < 2 || analysis.pending.length > 0) return [];
  const files = newFilesOf(analysis);
  const paths = new Set(taken.map((path) => path.toLowerCase()));
  if (files.length === 0 || files.some(({ path }) => paths.has(path.toLowerCase()))) return [];
  const texts = new Map<string, string>();
  for (const file of files) {
    const uri = resolveUse(analysis.uri, file.path);
    const text = textOfFile(analysis, file, files);
    if (uri === undefined || text === undefined || texts.has(uri)) return [];
    texts.set(uri, text);
  }
  const edits = ownEdits(analysis, files);
  const own = editedText(
    analysis.text,
    (edits ?? []).map(({ at, newText }) => ({ ...at, newText })),
  );
  if (edits === undefined || own === undefined || !isSame(analysis, new Map([...texts, [analysis.uri, own]])))
    return [];
  return [{ title: `Split this file: ${list(files.map(({ path }) => path))}`, edits, newFiles: texts }];
}

interface NewFile {
  readonly path: string;
  readonly blocks: readonly WholeBlock[];
}

function newFilesOf(analysis: Analysis): readonly NewFile[] {
  const stem = decodeURIComponent(analysis.uri.split('/').at(-1) ?? '').replace(/\.pickup$/, '');
  const moving: NewFile[] = [];
  const shared = new Set<Chunk>();
  for (const placed of analysis.tree.chunks) {
    const { content } = placed.chunk;
    if (content?.kind !== 'block') continue;
    if (content.keyword.text === 'bench') shared.add(placed.chunk);
    if (content.keyword.text !== 'pickup') continue;
    const whole = wholeBlock(analysis, placed);
    if (whole?.name === undefined) return [];
    // The one that the file is named after stays in it.
    if (whole.name.toLowerCase() !== stem.toLowerCase()) moving.push({ path: `${whole.name}.pickup`, blocks: [whole] });
  }
  const pickups = new Set(moving.flatMap(({ blocks }) => blocks.map(({ chunk }) => chunk)));
  // Two sets that grow while they are walked: parts need parts.
  for (const chunk of pickups) for (const each of ownTargets(analysis, chunk)) if (!isPickup(each)) shared.add(each);
  for (const chunk of shared) for (const each of ownTargets(analysis, chunk)) shared.add(each);
  const parts = analysis.tree.chunks.filter(({ chunk }) => shared.has(chunk));
  const blocks = parts.flatMap((each) => wholeBlock(analysis, each) ?? []);
  if (blocks.length < parts.length) return [];
  return blocks.length === 0 ? moving : [{ path: `${stem}-parts.pickup`, blocks }, ...moving];
}

const isPickup = ({ content }: Chunk): boolean => content?.kind === 'block' && content.keyword.text === 'pickup';

/** What the names in a piece of the file stand for at the top of this or another one; names inside of blocks are nobody's need. */
function targetsOf(analysis: Analysis, chunk: Chunk): ReadonlySet<Chunk> {
  const found = analysis.model.references().flatMap(({ place, target, declares }) => {
    if (place.chunk !== chunk || declares || target === undefined || target.chunk === chunk) return [];
    const { content } = target.chunk;
    const isOnTop = content?.kind === 'block' && target.span.end <= (content.open?.start ?? content.span.end);
    return isOnTop ? [target.chunk] : [];
  });
  return new Set(found);
}

const uriOf = (analysis: Analysis, chunk: Chunk): string | undefined =>
  analysis.locate({ chunk, span: { start: 0, end: 0 } })?.uri;

const ownTargets = (analysis: Analysis, chunk: Chunk): readonly Chunk[] =>
  [...targetsOf(analysis, chunk)].filter((each) => uriOf(analysis, each) === analysis.uri);

/** `undefined` where it needs something that stays. */
function textOfFile(analysis: Analysis, file: NewFile, files: readonly NewFile[]): string | undefined {
  const beside = new Set<string>();
  const elsewhere = new Set<string>();
  const needs = (chunk: Chunk): boolean => {
    const uri = uriOf(analysis, chunk);
    if (uri !== analysis.uri) {
      if (uri !== undefined) elsewhere.add(uri);
      return true;
    }
    const home = files.find(({ blocks }) => blocks.some((each) => each.chunk === chunk));
    if (home !== undefined && home !== file) beside.add(home.path);
    return home !== undefined;
  };
  const targets = file.blocks.flatMap(({ chunk }) => [...targetsOf(analysis, chunk)]);
  const bench = analysis.bench === undefined ? [] : [analysis.bench.place.chunk];
  if (![...targets, ...bench].every(needs)) return undefined;
  const uses = [...usesFor(analysis, elsewhere), ...beside].map((path) => `use "${path.replace(/[\\"]/g, '\\$&')}"\n`);
  const blocks = file.blocks.map((each) => textOfBlock(analysis, each));
  return `${uses.join('')}${uses.length === 0 ? '' : '\n'}${blocks.join('\n\n')}\n`;
}

/** The paths of those `use` lines of the file that take these files in, each as the first that does. */
function usesFor(analysis: Analysis, uris: ReadonlySet<string>): readonly string[] {
  const left = new Set(uris);
  const paths: string[] = [];
  for (const use of usesIn(analysis)) {
    const target = use.path && useTarget(analysis, use);
    const reached = target === undefined ? [] : analysis.reach(target).filter((uri) => left.delete(uri));
    if (use.path && reached.length > 0) paths.push(use.path.value);
  }
  return paths;
}

const usesIn = ({ tree }: Analysis) =>
  tree.chunks.flatMap(({ chunk: { content } }) => (content?.kind === 'use' ? [content] : []));

/** The file without what has gone, with a `use` line for each new file behind those that it has. */
function ownEdits(analysis: Analysis, files: readonly NewFile[]): readonly TextEdit[] | undefined {
  const { uri, text, tree } = analysis;
  const removals = files.flatMap(({ blocks }) => blocks.map((each) => removalOf(analysis, each)));
  const lines = files.map(({ path }) => `use "${path}"`).join('\n');
  const last = tree.chunks.findLast(({ chunk: { content } }) => content?.kind === 'use');
  if (last !== undefined) {
    const at = lineEnd(text, endOf(last));
    return [{ at: { uri, start: at, end: at }, newText: `\n${lines}` }, ...removals];
  }
  const first = tree.chunks.find(({ chunk: { content } }) => content?.kind === 'block');
  if (first?.chunk.content === undefined) return undefined;
  const start = inFile(first, first.chunk.content.span).start;
  const at = start - ownComments(text.slice(0, start)).length;
  const gone = removals.find((each) => each.at.start === at);
  if (gone === undefined) return [{ at: { uri, start: at, end: at }, newText: `${lines}\n\n` }, ...removals];
  return removals.map((each) => (each === gone ? { ...each, newText: `${lines}\n\n` } : each));
}

const endOf = (placed: PlacedChunk): number =>
  placed.chunk.content === undefined ? placed.offset : inFile(placed, placed.chunk.content.span).end;

/** All findings and all numbers as before, wherever they are told now. */
function isSame(before: Analysis, texts: ReadonlyMap<string, string>): boolean {
  const after = [...texts.keys()].map((uri) => before.withTexts(texts, uri));
  const told = (all: readonly Analysis[]) =>
    all
      .flatMap((each) => toldOf(each))
      .sort()
      .join('\n');
  const numbers = (all: readonly Analysis[]) => all.flatMap(numbersOf).sort().join('\n');
  return told([before]) === told(after) && numbers([before]) === numbers(after);
}

const numbersOf = ({ pickups }: Analysis): readonly string[] =>
  pickups.map(({ pickup, quick }) => {
    const coils = [...quick.coils].map(([name, { turns, resistance20COhm }]) => [name, turns, resistance20COhm]);
    return JSON.stringify([pickup.name, quick.resistance20COhm, coils]);
  });
