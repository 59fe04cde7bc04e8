/** Facts matched by the path of their block and what they are about; order and layout do not matter. */
import { alternativesOf, type BlockSchema } from '../../../grammar/src/schema/block-schema.ts';
import { schemas } from '../../../grammar/src/schema/index.ts';
import type { StatedBlock, StatedFact } from './stated-blocks.ts';

export type FactChange = {
  /** Labels of the blocks around it, outermost first, as they are called after the change where both states have them. */
  readonly path: readonly string[];
} & (
  | { readonly kind: 'fact added'; readonly after: WrittenFact }
  | { readonly kind: 'fact removed'; readonly before: WrittenFact }
  | { readonly kind: 'fact changed'; readonly before: WrittenFact; readonly after: WrittenFact }
  | { readonly kind: 'block added'; readonly facts: readonly WrittenFact[] }
  | { readonly kind: 'block removed'; readonly facts: readonly WrittenFact[] }
  | { readonly kind: 'renamed'; readonly from: string; readonly to: string }
);

export type WrittenFact = Pick<StatedFact, 'field' | 'leads' | 'text' | 'uri' | 'span'>;

export type Side = 'before' | 'after';

/** The lines of one state that a change is about. */
export function factsOf(change: FactChange, side: Side): readonly WrittenFact[] {
  switch (change.kind) {
    case 'fact changed':
      return [change[side]];
    case 'fact added':
      return side === 'after' ? [change.after] : [];
    case 'fact removed':
      return side === 'before' ? [change.before] : [];
    case 'block added':
      return side === 'after' ? change.facts : [];
    case 'block removed':
      return side === 'before' ? change.facts : [];
    case 'renamed':
      return [];
  }
}

/** What stands on either side of it, line by line; a block as a whole comes before its lines. Empty where one has nothing. */
export function sidesOf(change: FactChange): readonly (readonly [before: string, after: string])[] {
  if (change.kind === 'renamed') return [[change.from, change.to]];
  const texts = (side: Side): readonly string[] => factsOf(change, side).map(({ text }) => text);
  if (change.kind === 'block added') return ['the whole block', ...texts('after')].map((text) => ['', text]);
  if (change.kind === 'block removed') return ['the whole block', ...texts('before')].map((text) => [text, '']);
  return [[texts('before')[0] ?? '', texts('after')[0] ?? '']];
}

export interface FactComparison {
  readonly changes: readonly FactChange[];
  /** Names after the change by names before it, of pickups and instruments that were renamed. */
  readonly renamed: ReadonlyMap<string, string>;
}

export function compareFacts(before: readonly StatedBlock[], after: readonly StatedBlock[]): FactComparison {
  const found: Found[] = [];
  compareBlocks(before, after, [], found);
  const own = new Set(found.filter(({ inherited }) => !inherited).map(({ change }) => substance(change)));
  // What a block took over by `like` changed because the block it took it from did: told there, once.
  const changes = found.filter(({ inherited, change }) => !inherited || !own.has(substance(change)));
  const renamed = changes.flatMap(({ change }) =>
    change.kind === 'renamed' && change.path.length === 1 ? [[change.from, change.to] as const] : [],
  );
  return { changes: changes.map(({ change }) => change), renamed: new Map(renamed) };
}

interface Found {
  readonly change: FactChange;
  readonly inherited: boolean;
}

/** The change without where it shows: the written facts, told apart by where they are written. */
function substance(change: FactChange): string {
  if (change.kind === 'renamed') return `renamed ${change.path.join(' ')}`;
  const keys = (side: Side): string =>
    factsOf(change, side)
      .map(({ uri, span, text }) => `${uri} ${span.start} ${text}`)
      .join();
  return `${change.kind} ${keys('before')} > ${keys('after')}`;
}

function compareBlocks(
  before: readonly StatedBlock[],
  after: readonly StatedBlock[],
  path: readonly string[],
  found: Found[],
): void {
  const partnerOf = partners(before, after);
  const kept = new Set(partnerOf.values());
  for (const block of after) {
    const old = partnerOf.get(block);
    if (old === undefined) {
      const facts = allFacts(block);
      found.push({ change: { path: [...path, block.label], kind: 'block added', facts }, inherited: false });
      continue;
    }
    const here = [...path, block.label];
    if (old.name !== undefined && block.name !== undefined && old.name !== block.name) {
      found.push({ change: { path: here, kind: 'renamed', from: old.name, to: block.name }, inherited: false });
    }
    comparePairs(block.keyword, old.facts, block.facts, here, found);
    compareBlocks(old.blocks, block.blocks, here, found);
  }
  for (const block of before) {
    if (kept.has(block)) continue;
    const facts = allFacts(block);
    found.push({ change: { path: [...path, block.label], kind: 'block removed', facts }, inherited: false });
  }
}

/** Same label; or, where one block of a kind is left on each side, that one under another name. */
function partners(
  before: readonly StatedBlock[],
  after: readonly StatedBlock[],
): ReadonlyMap<StatedBlock, StatedBlock> {
  const byLabel = new Map(before.map((block) => [block.label, block]));
  const pairs = new Map<StatedBlock, StatedBlock>();
  for (const block of after) {
    const same = byLabel.get(block.label);
    if (same) pairs.set(block, same);
  }
  const taken = new Set(pairs.values());
  for (const keyword of new Set(after.map((block) => block.keyword))) {
    const left = before.filter((block) => block.keyword === keyword && block.name !== undefined && !taken.has(block));
    const come = after.filter((block) => block.keyword === keyword && block.name !== undefined && !pairs.has(block));
    const [old, block] = [left[0], come[0]];
    if (left.length === 1 && come.length === 1 && old && block) pairs.set(block, old);
  }
  return pairs;
}

function comparePairs(
  keyword: string,
  before: readonly StatedFact[],
  after: readonly StatedFact[],
  path: readonly string[],
  found: Found[],
): void {
  const gone = [...before];
  const come: StatedFact[] = [];
  for (const fact of after) {
    const same = gone.findIndex((each) => sameMeaning(each, fact));
    if (same === -1) come.push(fact);
    else gone.splice(same, 1);
  }
  for (const fact of come) {
    const old = bestMatch(fact, gone, schemas.get(keyword)?.facts ?? {});
    if (old === undefined) {
      found.push({ change: { path, kind: 'fact added', after: written(fact) }, inherited: fact.inherited });
      continue;
    }
    gone.splice(gone.indexOf(old), 1);
    found.push({
      change: { path, kind: 'fact changed', before: written(old), after: written(fact) },
      inherited: fact.inherited && old.inherited,
    });
  }
  for (const fact of gone) {
    found.push({ change: { path, kind: 'fact removed', before: written(fact) }, inherited: fact.inherited });
  }
}

/** The fact that became this one: of the same word, the one that shares most with it; else one that it stands instead of. */
function bestMatch(
  fact: StatedFact,
  gone: readonly StatedFact[],
  schema: BlockSchema['facts'],
): StatedFact | undefined {
  let best: StatedFact | undefined;
  let mostShared = 0;
  for (const each of gone) {
    if (each.word !== fact.word) continue;
    const shared = each.meaning.filter((piece) => fact.meaning.includes(piece)).length;
    if (shared > mostShared) [best, mostShared] = [each, shared];
  }
  const alternatives = alternativesOf(schema, fact.field);
  return best ?? gone.find(({ field }) => alternatives.includes(field));
}

const sameMeaning = (a: StatedFact, b: StatedFact): boolean =>
  a.meaning.length === b.meaning.length && a.meaning.every((piece, index) => piece === b.meaning[index]);

const written = ({ field, leads, text, uri, span }: StatedFact): WrittenFact => ({ field, leads, text, uri, span });

function allFacts(block: StatedBlock, prefix = ''): readonly WrittenFact[] {
  return [
    ...block.facts.map((fact) => ({ ...written(fact), text: `${prefix}${fact.text}` })),
    ...block.blocks.flatMap((inner) => allFacts(inner, `${prefix}${inner.label}: `)),
  ];
}
