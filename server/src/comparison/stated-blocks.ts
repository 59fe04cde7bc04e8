/** The blocks of a state with all their facts, those taken over by `like` included. */
import { lineMeaning, looseMeaning } from '../../../grammar/src/line-meaning.ts';
import { namesInLine } from '../../../grammar/src/names-in-line.ts';
import type { FactSchema } from '../../../grammar/src/schema/block-schema.ts';
import { type Span, shiftSpan } from '../../../grammar/src/span.ts';
import type { BlockNode, Chunk, FactNode, FileTree, Item } from '../../../grammar/src/syntax-tree.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { namesInBlock } from '../model/inner-names.ts';
import { type AnyBlock, blockOf, mergedWith, mergeSiblings, type PlacedFact } from '../model/merged-block.ts';

/** A file of a state, the one that is compared first, then those that it uses. */
export interface StateFile {
  readonly uri: string;
  readonly tree: FileTree;
}

export interface StatedBlock {
  readonly keyword: string;
  /** How a reader calls it: `coil screw`, `readings "after potting" 2026-03-12`. Unique among its siblings. */
  readonly label: string;
  /** The declared name, where the kind has names. */
  readonly name: string | undefined;
  readonly facts: readonly StatedFact[];
  readonly blocks: readonly StatedBlock[];
}

export interface StatedFact {
  readonly word: string;
  /** The schema's name of it; empty for a line that no fact of its block fits. */
  readonly field: string;
  readonly meaning: readonly string[];
  /** Leads and ends that the line names, each by one name; none in a reading, which only touches them. */
  readonly leads: readonly string[];
  readonly text: string;
  readonly uri: string;
  /** In the file's offsets. */
  readonly span: Span;
  /** Taken over by `like`, not written in the block itself. */
  readonly inherited: boolean;
}

interface Source {
  readonly uri: string;
  readonly offset: number;
  readonly isMain: boolean;
}

/**
 * The blocks of the first file, and of the files it uses those that it names, directly or through others; the bench always. Where
 * pickups are named, those alone and what they name: what they are made from is in them.
 */
export function statedBlocks(files: readonly StateFile[], pickups?: readonly string[]): readonly StatedBlock[] {
  const sources = new Map<Chunk, Source>();
  for (const [index, { uri, tree }] of files.entries())
    for (const { offset, chunk } of tree.chunks) sources.set(chunk, { uri, offset, isMain: index === 0 });
  const all = [...sources.keys()].flatMap((chunk) =>
    chunk.content?.kind === 'block' ? [blockOf(chunk.content, chunk)] : [],
  );
  const byName = new Map<string, AnyBlock>();
  for (const block of all) if (!byName.has(nameKey(block))) byName.set(nameKey(block), block);
  const isAsked = ({ place, keyword, name }: AnyBlock): boolean =>
    pickups === undefined
      ? sources.get(place.chunk)?.isMain === true
      : keyword === 'pickup' && name !== undefined && pickups.includes(name);
  const reached = new Set(all.filter((block) => isAsked(block) || block.keyword === 'bench'));
  for (const block of reached)
    for (const key of namesOf(block)) {
      const named = byName.get(key);
      if (named) reached.add(named);
    }
  const isShown = (block: AnyBlock): boolean =>
    reached.has(block) && (pickups === undefined || block.keyword !== 'pickup' || isAsked(block));
  return distinct(all.filter(isShown).map((block) => stated(merged(block, byName, []), sources)));
}

const nameKey = ({ keyword, name }: AnyBlock): string => `${keyword} ${name ?? ''}`;

/** What a block stands on, by kind and name. */
const namesOf = (block: AnyBlock): readonly string[] => [
  `${block.keyword} ${block.node.like?.name?.text ?? ''}`,
  ...namesInBlock(block).map(({ kind, parts }) => `${kind} ${parts[0]?.value ?? ''}`),
];

/** With what `like` or `reworks` brings; a circle ends where it began. */
function merged(block: AnyBlock, byName: ReadonlyMap<string, AnyBlock>, within: readonly AnyBlock[]): AnyBlock {
  const like = block.node.like?.name;
  const parent = like && byName.get(`${block.keyword} ${like.text}`);
  const path = [...within, block];
  const whole = parent && !path.includes(parent) ? mergedWith(block, merged(parent, byName, path)) : block;
  return mergeSiblings(whole, () => {});
}

function stated(block: AnyBlock, sources: ReadonlyMap<Chunk, Source>, own = block.place.chunk): StatedBlock {
  const { keyword, node, schema, extent } = block;
  const at = (chunk: Chunk, span: Span) => {
    const { uri = '', offset = 0 } = sources.get(chunk) ?? {};
    return { uri, span: shiftSpan(span, offset) };
  };
  const isOwn = ({ place: { chunk, span } }: PlacedFact<unknown>) =>
    chunk === own && chunk === extent.chunk && span.start >= extent.span.start && span.end <= extent.span.end;
  const facts = Object.entries(schema.facts).flatMap(([field, fact]) =>
    (block.facts[field] ?? []).map(
      (line): StatedFact => ({
        ...meaningOf(fact, line),
        field,
        leads: schema.history ? [] : leadsOf(fact, line),
        text: itemsText(line.line.items),
        ...at(line.place.chunk, line.place.span),
        inherited: !isOwn(line),
      }),
    ),
  );
  const loose = (word: string, items: readonly Item[], meaning: readonly string[], span: Span): StatedFact => ({
    word,
    field: '',
    meaning,
    leads: [],
    text: itemsText(items),
    ...at(extent.chunk, span),
    inherited: extent.chunk !== own,
  });
  const isFact = (child: FactNode | BlockNode): child is FactNode => child.kind === 'fact';
  const misfits = block.misfits.filter(isFact).map(({ items, span }) => {
    const meaning = looseMeaning(items);
    return loose(meaning[0] ?? '', items, meaning, span);
  });
  // A title may change without the block becoming another one, so it counts as a fact of the block.
  const title = (block.name === undefined ? [] : node.head.slice(1)).map((item) => {
    const fact = loose('title', [item], ['title', ...looseMeaning([item])], item.span);
    return { ...fact, text: `title ${fact.text}` };
  });
  const inner = [
    ...block.blocks,
    ...block.misfits.flatMap((child) => (isFact(child) ? [] : [blockOf(child, extent.chunk)])),
  ];
  return {
    keyword,
    label: labelOf(block),
    name: block.name,
    facts: [...title, ...[...facts, ...misfits].sort(asWritten)],
    blocks: distinct(inner.map((each) => stated(each, sources, own))),
  };
}

/** The block's own lines in their order, then those taken over in theirs. */
const asWritten = (a: StatedFact, b: StatedFact): number =>
  Number(a.inherited) - Number(b.inherited) || a.span.start - b.span.start;

/** One text a piece; the fact's word, or what a line without one begins with, is the first. */
function meaningOf({ word, shape }: FactSchema, { value }: PlacedFact<unknown>): Pick<StatedFact, 'word' | 'meaning'> {
  const pieces = lineMeaning(shape, value);
  const meaning = word === undefined ? pieces : [word, ...pieces];
  return { word: meaning[0] ?? '', meaning };
}

const leadsOf = ({ shape }: FactSchema, { value }: PlacedFact<unknown>): readonly string[] =>
  namesInLine(shape, value).flatMap(({ kind, parts }) =>
    kind === 'lead' ? [parts.map((part) => canonicalLeadName(part.value)).join('.')] : [],
  );

function labelOf({ keyword, node, name }: AnyBlock): string {
  return [keyword, itemsText(name === undefined ? node.head : node.head.slice(0, 1))].join(' ').trim();
}

/** Items as a reader sees them, on one line, comments left out. */
const itemsText = (items: readonly Item[]): string =>
  items
    .map(({ text }) => text)
    .join(' ')
    .replace(/ ,/g, ',')
    .replace(/\( /g, '(')
    .replace(/ \)/g, ')');

/** Two blocks of one label are told apart by a count; all but the first are findings of their own. */
function distinct(blocks: readonly StatedBlock[]): readonly StatedBlock[] {
  const seen = new Map<string, number>();
  return blocks.map((block) => {
    const count = (seen.get(block.label) ?? 0) + 1;
    seen.set(block.label, count);
    return count === 1 ? block : { ...block, label: `${block.label} (${count})` };
  });
}
