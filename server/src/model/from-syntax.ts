/**
 * From a top-level block's tree to the thing it declares. A block is read again only when its own tree changes or when a name
 * that it looked up now stands for something else: each reading remembers its look-ups.
 */
import { nearest } from '../../../grammar/src/nearest.ts';
import { language, schemas } from '../../../grammar/src/schema/index.ts';
import type { SyntaxProblem } from '../../../grammar/src/syntax-problem.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import type { Bench } from './bench.ts';
import type { Bobbin } from './bobbin.ts';
import { instrumentFrom } from './from-instrument.ts';
import { pickupFrom } from './from-pickup.ts';
import { benchFrom, bobbinFrom, magnetFrom, spoolFrom, wireFrom } from './from-shop.ts';
import { innerNameProblems, instrumentNameProblems } from './inner-names.ts';
import type { Instrument } from './instrument.ts';
import type { Magnet } from './magnet.ts';
import { type AnyBlock, asBlock, mergeLike, mergeSiblings, readBlock } from './merged-block.ts';
import type { ModelProblem, Reference } from './model.ts';
import type { Pickup } from './pickup.ts';
import type { Place } from './place.ts';
import type { Resolver } from './resolver.ts';
import type { Spool, Wire } from './wire.ts';

export const SHOP_KINDS = ['wire', 'spool', 'bobbin', 'magnet', 'pickup', 'instrument'] as const;
export type ShopKind = (typeof SHOP_KINDS)[number];

/** Names that a file may use: its own and those of the files it uses. */
export interface Scope {
  chunkOf(kind: ShopKind, name: string): Chunk | undefined;
  names(kind: ShopKind): readonly string[];
  /** False where a used file is missing or not read yet: a name may have come from there. */
  readonly complete: boolean;
}

export type Declared =
  | { readonly kind: 'bench'; readonly thing: Bench }
  | { readonly kind: 'wire'; readonly thing: Wire }
  | { readonly kind: 'spool'; readonly thing: Spool }
  | { readonly kind: 'bobbin'; readonly thing: Bobbin }
  | { readonly kind: 'magnet'; readonly thing: Magnet }
  | { readonly kind: 'pickup'; readonly thing: Pickup }
  | { readonly kind: 'instrument'; readonly thing: Instrument };

export interface ChunkModel {
  readonly chunk: Chunk;
  /** With everything that `like` brings. */
  readonly block: AnyBlock | undefined;
  readonly declared: Declared | undefined;
  /** Problems of lines that do not match the schema; those of the text itself are the chunk's. */
  readonly syntax: readonly SyntaxProblem[];
  readonly problems: readonly ModelProblem[];
  readonly references: readonly Reference[];
}

interface LookUp {
  readonly kind: ShopKind;
  readonly name: string;
  readonly chunk: Chunk | undefined;
  readonly model: ChunkModel | undefined;
  /** What an unknown name was told: the nearest right one, or that nothing is told while files are missing. */
  readonly told: string | undefined;
}

interface Remembered {
  readonly model: ChunkModel;
  readonly lookUps: readonly LookUp[];
}

export interface ModelReader {
  read(chunk: Chunk): ChunkModel;
}

export type ModelMemory = WeakMap<Chunk, Remembered>;

/** Reads chunks within one state of the files. `memory` outlives it. */
export function modelReader(memory: ModelMemory, scopeOf: (chunk: Chunk) => Scope): ModelReader {
  const done = new Map<Chunk, ChunkModel>();
  const reading: Chunk[] = [];
  const circular = new Set<Chunk>();
  const cycleProblems = new Map<Chunk, ModelProblem>();

  const read = (chunk: Chunk): ChunkModel => {
    const finished = done.get(chunk);
    if (finished) return finished;
    const remembered = memory.get(chunk);
    reading.push(chunk);
    const model = remembered && stillHolds(remembered, chunk) ? remembered.model : readAnew(chunk);
    reading.pop();
    done.set(chunk, model);
    return model;
  };

  const stillHolds = ({ lookUps }: Remembered, chunk: Chunk): boolean => {
    const scope = scopeOf(chunk);
    return lookUps.every((before) => {
      const found = scope.chunkOf(before.kind, before.name);
      if (found !== before.chunk) return false;
      if (!found) return toldOf(scope, before.kind, before.name) === before.told;
      return !reading.includes(found) && read(found) === before.model;
    });
  };

  const readAnew = (chunk: Chunk): ChunkModel => {
    const { content } = chunk;
    const schema = content?.kind === 'block' ? schemas.get(content.keyword.text) : undefined;
    if (content?.kind !== 'block' || !schema?.topLevel) return emptyModel(chunk);
    const scope = scopeOf(chunk);
    const lookUps: LookUp[] = [];
    const problems: ModelProblem[] = [];
    const references: Reference[] = [];

    const lookUp = (kind: ShopKind, name: string, place: Place): ChunkModel | undefined => {
      const found = scope.chunkOf(kind, name);
      const told = found ? undefined : toldOf(scope, kind, name);
      const model = found && !reading.includes(found) ? read(found) : undefined;
      lookUps.push({ kind, name, chunk: found, model, told });
      references.push({ place, kind, name, target: model?.block?.namePlace ?? undefined, declares: false });
      if (!found && told !== undefined) problems.push(unknownName(kind, name, place, told));
      return model;
    };
    const resolver: Resolver = {
      wire: (name, place) => thingOf(lookUp('wire', name, place), 'wire'),
      spool: (name, place) => thingOf(lookUp('spool', name, place), 'spool'),
      bobbin: (name, place) => thingOf(lookUp('bobbin', name, place), 'bobbin'),
      magnet: (name, place) => thingOf(lookUp('magnet', name, place), 'magnet'),
      pickup: (name, place) => thingOf(lookUp('pickup', name, place), 'pickup'),
      note: (reference) => references.push(reference),
      report: (problem) => problems.push(problem),
    };

    const raw = readBlock(content, chunk, schema);
    const kind = SHOP_KINDS.find((each) => each === raw.keyword);
    if (kind && raw.name)
      references.push({ place: raw.namePlace, kind, name: raw.name, target: raw.namePlace, declares: true });
    const merged = mergeSiblings(withParent(raw, kind, lookUp), (fault, inner, name) =>
      problems.push(siblingProblem(fault, inner, name)),
    );
    const declared = declaredBy(merged, resolver);
    if (declared?.kind === 'pickup') problems.push(...innerNameProblems(declared.thing));
    if (declared?.kind === 'instrument') problems.push(...instrumentNameProblems(declared.thing));
    const cycle = cycleProblems.get(chunk);
    if (cycle) problems.push(cycle);
    const model = { chunk, block: merged, declared, syntax: ownProblems(raw), problems, references };
    if (!circular.has(chunk)) memory.set(chunk, { model, lookUps });
    return model;
  };

  /** The block with what the one that it is `like` brings; a circle is told once, by the block of it that was read first. */
  const withParent = (
    raw: AnyBlock,
    kind: ShopKind | undefined,
    lookUp: (kind: ShopKind, name: string, place: Place) => ChunkModel | undefined,
  ): AnyBlock => {
    const like = raw.node.like?.name;
    if (!like || !kind) return raw;
    const { chunk } = raw.place;
    const place = { chunk, span: like.span };
    const target = scopeOf(chunk).chunkOf(kind, like.text);
    const from = target ? reading.indexOf(target) : -1;
    if (target && from >= 0) {
      const members = reading.slice(from);
      for (const member of members) circular.add(member);
      cycleProblems.set(target, cycleProblem(members));
    }
    const parent = lookUp(kind, like.text, place)?.block;
    return parent ? mergeLike(raw, parent) : raw;
  };

  return { read };
}

type ThingOf = { readonly [D in Declared as D['kind']]: D['thing'] };

function thingOf<K extends Declared['kind']>(model: ChunkModel | undefined, kind: K): ThingOf[K] | undefined {
  const declared = model?.declared;
  return declared?.kind === kind ? (declared.thing as ThingOf[K]) : undefined;
}

function declaredBy(block: AnyBlock, resolver: Resolver): Declared | undefined {
  const bench = asBlock(block, language.bench);
  if (bench) return { kind: 'bench', thing: benchFrom(bench) };
  if (block.name === undefined) return undefined;
  const wire = asBlock(block, language.wire);
  if (wire) return { kind: 'wire', thing: wireFrom(wire) };
  const spool = asBlock(block, language.spool);
  if (spool) return { kind: 'spool', thing: spoolFrom(spool, resolver) };
  const bobbin = asBlock(block, language.bobbin);
  if (bobbin) return { kind: 'bobbin', thing: bobbinFrom(bobbin) };
  const magnet = asBlock(block, language.magnet);
  if (magnet) return { kind: 'magnet', thing: magnetFrom(magnet) };
  const pickup = asBlock(block, language.pickup);
  if (pickup) return { kind: 'pickup', thing: pickupFrom(pickup, resolver) };
  const instrument = asBlock(block, language.instrument);
  return instrument && { kind: 'instrument', thing: instrumentFrom(instrument, resolver) };
}

const emptyModel = (chunk: Chunk): ChunkModel => ({
  chunk,
  block: undefined,
  declared: undefined,
  syntax: [],
  problems: [],
  references: [],
});

const ownProblems = (block: AnyBlock): readonly SyntaxProblem[] => [
  ...block.problems,
  ...block.blocks.flatMap(ownProblems),
];

/** What is told of an unknown name: `undefined` while a used file is missing, else the nearest right name, or nothing. */
const toldOf = (scope: Scope, kind: ShopKind, name: string): string | undefined =>
  scope.complete ? (nearest(name, scope.names(kind)) ?? '') : undefined;

function unknownName(kind: ShopKind, name: string, place: Place, right: string): ModelProblem {
  return {
    code: 'name/unknown',
    message: `No ${kind} called ${name} is declared here or in the files that this one uses.`,
    place,
    related: [],
    fixes: right ? [{ title: `Change to \`${right}\``, edits: [{ place, newText: right }] }] : [],
  };
}

function cycleProblem(members: readonly Chunk[]): ModelProblem {
  const places = members.flatMap((chunk) => {
    const { content } = chunk;
    if (content?.kind !== 'block') return [];
    return [{ name: content.head.find((item) => item.kind === 'word')?.text ?? '', place: firstLine(chunk) }];
  });
  const [first, ...others] = places;
  const names = places.map(({ name }) => name);
  return {
    code: 'name/cycle',
    message:
      names.length > 1
        ? `${names.join(' and ')} are each made from the other, so neither has facts of its own to start from.`
        : `${names[0] ?? 'This block'} is made from itself, so it has no facts to start from.`,
    place: first?.place ?? { chunk: members[0] ?? EMPTY_CHUNK, span: { start: 0, end: 0 } },
    related: others.map(({ name, place }) => ({ message: `${name} is part of the circle`, place })),
    fixes: [],
  };
}

const EMPTY_CHUNK: Chunk = { text: '', content: undefined, comments: [], problems: [] };

function firstLine(chunk: Chunk): Place {
  const { content } = chunk;
  if (content?.kind !== 'block') return { chunk, span: { start: 0, end: 0 } };
  return {
    chunk,
    span: { start: content.span.start, end: content.open?.end ?? content.like?.span.end ?? content.keyword.span.end },
  };
}

function siblingProblem(
  fault: 'unknown' | 'cycle',
  inner: AnyBlock,
  name: { readonly value: string; readonly place: Place },
): ModelProblem {
  return fault === 'unknown'
    ? {
        code: 'name/unknown',
        message: `No ${inner.keyword} called ${name.value} stands beside this one.`,
        place: name.place,
        related: [],
        fixes: [],
      }
    : {
        code: 'name/cycle',
        message: `${inner.name ?? 'This block'} is made from itself by way of ${name.value}.`,
        place: inner.place,
        related: [],
        fixes: [],
      };
}
