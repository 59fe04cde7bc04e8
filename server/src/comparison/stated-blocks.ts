/** The blocks of a state with all their facts, those taken over by `like` included. */
import { schemas } from '../../../grammar/src/schema/index.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, FactNode, FileTree, Item } from '../../../grammar/src/syntax-tree.ts';
import { factMeaning, factText, itemsText } from './fact-meaning.ts';

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
  readonly meaning: readonly string[];
  readonly text: string;
  readonly uri: string;
  /** In the file's offsets. */
  readonly span: Span;
  /** Taken over by `like`, not written in the block itself. */
  readonly inherited: boolean;
}

/** The blocks of the first file, and of the files it uses those that it names, directly or through others; the bench always. */
export function statedBlocks(files: readonly StateFile[]): readonly StatedBlock[] {
  const all = files.flatMap(({ uri, tree }, index) =>
    tree.chunks.flatMap(({ offset, chunk }): readonly Written[] =>
      chunk.content?.kind === 'block' ? [{ node: chunk.content, uri, offset, main: index === 0 }] : [],
    ),
  );
  const byName = new Map<string, Written>();
  for (const written of all) {
    const key = nameKey(written.node);
    if (key !== undefined && !byName.has(key)) byName.set(key, written);
  }
  const named = reached(all);
  const stated = all.filter((each) => named.has(each)).map((each) => expand(each, byName, new Set()));
  return distinct(stated);
}

interface Written {
  readonly node: BlockNode;
  readonly uri: string;
  readonly offset: number;
  readonly main: boolean;
}

function reached(all: readonly Written[]): ReadonlySet<Written> {
  const byWord = new Map<string, Written[]>();
  for (const written of all) {
    const name = nameOf(written.node);
    if (name !== undefined) byWord.set(name, [...(byWord.get(name) ?? []), written]);
  }
  const found = new Set(all.filter(({ main, node }) => main || node.keyword.text === 'bench'));
  for (const written of found) {
    for (const word of wordsOf(written.node)) for (const named of byWord.get(word) ?? []) found.add(named);
  }
  return found;
}

function wordsOf(node: BlockNode | FactNode): readonly string[] {
  if (node.kind === 'fact') return node.items.flatMap((item) => (item.kind === 'word' ? [item.text] : []));
  return [...(node.like?.name ? [node.like.name.text] : []), ...node.body.flatMap(wordsOf)];
}

function expand(written: Written, scope: ReadonlyMap<string, Written>, visiting: ReadonlySet<BlockNode>): StatedBlock {
  const { node } = written;
  const within = new Set([...visiting, node]);
  const base = node.like?.name ? scope.get(`${node.keyword.text} ${node.like.name.text}`) : undefined;
  const taken = base && !within.has(base.node) ? expand(base, scope, within) : undefined;
  const own = node.body.flatMap((child) => (child.kind === 'fact' ? [statedFact(child, written)] : []));
  const inner = node.body.flatMap((child) => (child.kind === 'block' ? [{ ...written, node: child }] : []));
  // A coil may be like another coil of its pickup, inherited ones included.
  const siblings = new Map(inner.map((each) => [nameKey(each.node) ?? '', each]));
  const block: StatedBlock = {
    keyword: node.keyword.text,
    label: labelOf(node),
    name: nameOf(node),
    facts: [...titleFact(node, written), ...own],
    blocks: distinct(inner.map((each) => expand(each, siblings, within))),
  };
  return taken === undefined ? block : merged(block, designOf(taken));
}

/** What `like` takes over: the design, never the history. */
function designOf(block: StatedBlock): StatedBlock {
  const schema = schemas.get(block.keyword);
  const history = new Set(
    Object.values(schema?.facts ?? {}).flatMap(({ history, word }) => (history === true && word ? [word] : [])),
  );
  return {
    ...block,
    facts: block.facts
      .filter(({ word }) => !history.has(word) && word !== TITLE)
      .map((fact) => ({ ...fact, inherited: true })),
    blocks: block.blocks.filter(({ keyword }) => schemas.get(keyword)?.history !== true).map(designOf),
  };
}

/** A fact stated in the block replaces all of that word, and those that it stands instead of. */
function merged(own: StatedBlock, taken: StatedBlock): StatedBlock {
  const schema = schemas.get(own.keyword);
  const replaced = new Set(own.facts.map(({ word }) => word));
  for (const { word, insteadOf } of Object.values(schema?.facts ?? {})) {
    if (word !== undefined && replaced.has(word)) for (const other of insteadOf ?? []) replaced.add(other);
  }
  const inner = new Map(taken.blocks.map((each) => [each.label, each]));
  for (const each of own.blocks) {
    const same = inner.get(each.label);
    inner.set(each.label, same ? merged(each, same) : each);
  }
  const stated = own.facts.filter(({ meaning }) => meaning.join(' ') !== 'tap none');
  return {
    ...own,
    facts: [...stated, ...taken.facts.filter(({ word }) => !replaced.has(word))],
    blocks: [...inner.values()],
  };
}

function statedFact(fact: FactNode, { uri, offset }: Written): StatedFact {
  const meaning = factMeaning(fact.items);
  const span = { start: offset + fact.span.start, end: offset + fact.span.end };
  return { word: meaning[0] ?? '', meaning, text: factText(fact), uri, span, inherited: false };
}

/** A title may change without the block becoming another one, so it counts as a fact of the block. */
const TITLE = 'title';

function titleFact(node: BlockNode, { uri, offset }: Written): readonly StatedFact[] {
  if (nameOf(node) === undefined) return [];
  return node.head.slice(1).flatMap((item): readonly StatedFact[] => {
    const span = { start: offset + item.span.start, end: offset + item.span.end };
    const meaning = [TITLE, ...factMeaning([item])];
    return [{ word: TITLE, meaning, text: `${TITLE} ${item.text}`, uri, span, inherited: false }];
  });
}

function labelOf(node: BlockNode): string {
  const name = nameOf(node);
  const head: readonly Item[] = name === undefined ? node.head : node.head.slice(0, 1);
  return [node.keyword.text, itemsText(head)].join(' ').trim();
}

function nameOf(node: BlockNode): string | undefined {
  const first = node.head[0];
  const named = schemas.get(node.keyword.text)?.names !== undefined;
  return named && first !== undefined && (first.kind === 'word' || first.kind === 'number') ? first.text : undefined;
}

function nameKey(node: BlockNode): string | undefined {
  const name = nameOf(node);
  return name === undefined ? undefined : `${node.keyword.text} ${name}`;
}

/** Two blocks of one label are told apart by a count; all but the first are findings of their own. */
function distinct(blocks: readonly StatedBlock[]): readonly StatedBlock[] {
  const seen = new Map<string, number>();
  return blocks.map((block) => {
    const count = (seen.get(block.label) ?? 0) + 1;
    seen.set(block.label, count);
    return count === 1 ? block : { ...block, label: `${block.label} (${count})` };
  });
}
