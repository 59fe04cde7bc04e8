/**
 * From a top-level block's tree to the thing it declares. A block is read again only when its own tree changes or when a name
 * that it looked up now stands for something else: each reading remembers its look-ups.
 */
import { nearest } from '../../../grammar/src/nearest.ts';
import type { language } from '../../../grammar/src/schema/index.ts';
import type { SyntaxProblem } from '../../../grammar/src/syntax-problem.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { fittedNames } from './fitted-names.ts';
import { instrumentFrom } from './from-instrument.ts';
import { pickupFrom } from './from-pickup.ts';
import { benchFrom, bobbinFrom, magnetFrom, spoolFrom, wireFrom } from './from-shop.ts';
import { switchFrom } from './from-switch.ts';
import { innerNames, namesInBlock, unknownCoil } from './inner-names.ts';
import { type AnyBlock, blockOf, type MergedBlock, mergedWith, mergeSiblings } from './merged-block.ts';
import type { ModelProblem, Reference } from './model.ts';
import type { Pickup } from './pickup.ts';
import type { Place } from './place.ts';
import { type Resolver, SHOP_KINDS, type ShopKind, type Things } from './resolver.ts';
import type { CurveAt } from './sweep.ts';
import { unknownName } from './unknown-name.ts';

export type { ShopKind } from './resolver.ts';

/** Names that a file may use: its own and those of the files it uses. */
export interface Scope {
  chunkOf(kind: ShopKind, name: string): Chunk | undefined;
  names(kind: ShopKind): readonly string[];
  /** The curve at a path, counted from the file. */
  curve(path: string): CurveAt;
  /** False where a used file is missing or not read yet: a name may have come from there. */
  readonly complete: boolean;
}

export type Declared = { readonly [K in keyof Things]: { readonly kind: K; readonly thing: Things[K] } }[keyof Things];

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
  /** Curves by their paths. */
  readonly curves: ReadonlyMap<string, CurveAt>;
}

export interface ModelReader {
  read(chunk: Chunk): ChunkModel;
}

export interface ModelMemory {
  get(chunk: Chunk): Remembered | undefined;
  set(chunk: Chunk, remembered: Remembered): void;
}

/** What a state reads that is only looked at, as with a remedy made, leaves what the text itself was read as in place. */
export function overlaid(below: ModelMemory): ModelMemory {
  const own = new Map<Chunk, Remembered>();
  return {
    get: (chunk) => own.get(chunk) ?? below.get(chunk),
    set: (chunk, remembered) => {
      own.set(chunk, remembered);
    },
  };
}

/** Reads chunks within one state of the files. `memory` outlives it. */
export function modelReader(memory: ModelMemory, scopeOf: (chunk: Chunk) => Scope): ModelReader {
  const done = new Map<Chunk, ChunkModel>();
  const reading: Chunk[] = [];
  const circular = new Set<Chunk>();
  const cycleProblems = new Map<Chunk, ModelProblem>();

  const read = (chunk: Chunk): ChunkModel => {
    const finished = done.get(chunk);
    if (finished) return finished;
    readParents(chunk);
    const remembered = memory.get(chunk);
    reading.push(chunk);
    try {
      const model = remembered && stillHolds(remembered, chunk) ? remembered.model : readAnew(chunk);
      done.set(chunk, model);
      return model;
    } finally {
      reading.pop();
    }
  };

  /** A long line of blocks made from one another is read from its far end, so that its length asks for no stack. */
  const readParents = (chunk: Chunk): void => {
    const parent = parentChunk(chunk, scopeOf(chunk));
    // Asked for with every piece of a file at each keystroke, of which hardly one has any.
    if (!parent || done.has(parent)) return;
    const line = new Set([chunk]);
    for (let next: Chunk | undefined = parent; next && !done.has(next); next = parentChunk(next, scopeOf(next))) {
      if (line.has(next) || reading.includes(next)) return;
      line.add(next);
    }
    for (const parent of [...line].slice(1).reverse()) read(parent);
  };

  const stillHolds = ({ lookUps, curves }: Remembered, chunk: Chunk): boolean => {
    const scope = scopeOf(chunk);
    for (const [path, before] of curves) if (!isSameCurve(scope.curve(path), before)) return false;
    for (const before of lookUps) {
      const found = scope.chunkOf(before.kind, before.name);
      if (found !== before.chunk) return false;
      const isSame = found
        ? !reading.includes(found) && read(found) === before.model
        : toldOf(scope, before.kind, before.name) === before.told;
      if (!isSame) return false;
    }
    return true;
  };

  const readAnew = (chunk: Chunk): ChunkModel => {
    const raw = declaringBlock(chunk);
    if (!raw) return emptyModel(chunk);
    const scope = scopeOf(chunk);
    const lookUps: LookUp[] = [];
    const problems: ModelProblem[] = [];
    const references: Reference[] = [];

    const lookUp = (kind: ShopKind, name: string, place: Place): ChunkModel | undefined => {
      const found = scope.chunkOf(kind, name);
      const told = found ? undefined : toldOf(scope, kind, name);
      const isTooDeep = reading.length > DEEPEST_READING;
      if (isTooDeep) problems.push(tooDeep(place));
      const model = found && !isTooDeep && !reading.includes(found) ? read(found) : undefined;
      lookUps.push({ kind, name, chunk: found, model, told });
      references.push({ place, kind, name, target: model?.block?.namePlace ?? undefined, declares: false });
      if (!found && told !== undefined) {
        const message = `No ${kind} called ${name} is declared here or in the files that this one uses.`;
        problems.push(unknownName(message, place, told));
      }
      return model;
    };

    const kind = SHOP_KINDS.find((each) => each === raw.keyword);
    if (kind && raw.name)
      references.push({ place: raw.namePlace, kind, name: raw.name, target: raw.namePlace, declares: true });
    const parent = parentOf(raw, kind, lookUp);
    const merged = mergeSiblings(parent?.block ? mergedWith(raw, parent.block) : raw, (fault, inner, name) =>
      problems.push(siblingProblem(fault, inner, name)),
    );
    const names = namesInBlock(merged);
    const things = new Map<string, ChunkModel | undefined>();
    for (const { kind, parts, place, role } of names) {
      const shop = SHOP_KINDS.find((each) => each === kind);
      const name = parts[0]?.value;
      if (shop && name !== undefined && role === 'uses') things.set(`${shop} ${name}`, lookUp(shop, name, place));
    }
    const curves = new Map<string, CurveAt>();
    const resolver: Resolver = {
      curve: ({ value }) => {
        const found = scope.curve(value);
        curves.set(value, found);
        return found;
      },
      thing: (kind, name) => thingOf(name && things.get(`${kind} ${name.value}`), kind),
      former: raw.node.like?.word === 'reworks' ? thingOf(parent, 'pickup') : undefined,
      report: (problem) => problems.push(problem),
    };
    const declared = declaredBy(merged, resolver);
    const former = raw.node.like?.word === 'reworks' ? (parent?.block ?? 'not known') : undefined;
    const inner = innerNames(names, former, parent?.references);
    references.push(...inner.references, ...fittedNames(names, (name) => things.get(`pickup ${name}`)?.references));
    problems.push(...inner.problems);
    if (declared?.kind === 'pickup') problems.push(...unknownCoilsRead(declared.thing));
    const cycle = cycleProblems.get(chunk);
    if (cycle) problems.push(cycle);
    const model = { chunk, block: merged, declared, syntax: ownProblems(raw), problems, references };
    if (!circular.has(chunk)) memory.set(chunk, { model, lookUps, curves });
    return model;
  };

  /** The one that a block is made from; a circle is told once, by the block of it that was read first. */
  const parentOf = (
    raw: AnyBlock,
    kind: ShopKind | undefined,
    lookUp: (kind: ShopKind, name: string, place: Place) => ChunkModel | undefined,
  ): ChunkModel | undefined => {
    const like = raw.node.like?.name;
    if (!like || !kind) return undefined;
    const { chunk } = raw.place;
    const place = { chunk, span: like.span };
    const target = scopeOf(chunk).chunkOf(kind, like.text);
    const from = target ? reading.indexOf(target) : -1;
    if (target && from >= 0) {
      const members = reading.slice(from);
      for (const member of members) circular.add(member);
      cycleProblems.set(target, cycleProblem(members));
    }
    return lookUp(kind, like.text, place);
  };

  return { read };
}

function declaringBlock(chunk: Chunk): AnyBlock | undefined {
  const block = chunk.content?.kind === 'block' ? blockOf(chunk.content, chunk) : undefined;
  return block?.schema.topLevel ? block : undefined;
}

/** Problems of a piece's lines that do not match the schema, whatever stands in other pieces. */
export function syntaxOf(chunk: Chunk): readonly SyntaxProblem[] {
  const block = declaringBlock(chunk);
  return block ? ownProblems(block) : [];
}

/** What was read of a file is remembered by its text. */
const isSameCurve = (now: CurveAt, before: CurveAt): boolean =>
  now === before ||
  (now.kind === before.kind && now.kind !== 'curve' && JSON.stringify(now) === JSON.stringify(before));

function thingOf<K extends keyof Things>(model: ChunkModel | undefined, kind: K): Things[K] | undefined {
  const declared = model?.declared;
  return declared?.kind === kind ? (declared.thing as Things[K]) : undefined;
}

type Language = typeof language;
type TopLevel = { [K in keyof Language]: Language[K]['topLevel'] extends true ? K : never }[keyof Language];

/** One reader for each kind of block that may stand at the top. */
const READERS: {
  readonly [K in TopLevel]: (block: MergedBlock<Language[K]>, resolver: Resolver) => Things[K];
} = {
  bench: benchFrom,
  wire: wireFrom,
  spool: spoolFrom,
  bobbin: bobbinFrom,
  magnet: magnetFrom,
  switch: switchFrom,
  pickup: pickupFrom,
  instrument: instrumentFrom,
};

function declaredBy(block: AnyBlock, resolver: Resolver): Declared | undefined {
  if (block.schema.names !== undefined && block.name === undefined) return undefined;
  const kind = block.keyword as TopLevel;
  // The block was matched by the schema of its own keyword.
  const read = READERS[kind] as unknown as (block: AnyBlock, resolver: Resolver) => Things[TopLevel];
  return { kind, thing: read(block, resolver) } as Declared;
}

/** A reading of one point alone is a coil's. */
function unknownCoilsRead({ coils, readings }: Pickup): readonly ModelProblem[] {
  const names = coils.map(({ name }) => name);
  const read = readings.flatMap(({ found, lines }) => (found ? [] : lines));
  return read.flatMap((line) =>
    line.kind === 'coil resistance' && line.coil.parts.length === 1 && !names.includes(line.coil.text)
      ? [unknownCoil(line.coil.text, line.coil.place, names)]
      : [],
  );
}

function parentChunk({ content }: Chunk, scope: Scope): Chunk | undefined {
  const kind = content?.kind === 'block' ? SHOP_KINDS.find((each) => each === content.keyword.text) : undefined;
  const name = content?.kind === 'block' ? content.like?.name?.text : undefined;
  return kind === undefined || name === undefined ? undefined : scope.chunkOf(kind, name);
}

/** Blocks that stand in each other's reading. Lines of `like` are no part of it; a circle of as many is none that a shop has. */
const DEEPEST_READING = 200;

const tooDeep = (place: Place): ModelProblem => ({
  code: 'analysis/incomplete',
  message: `Blocks that rest on each other in a circle are read ${DEEPEST_READING} deep; what this name brings is not analysed.`,
  action: 'Open the circle: let one of these blocks stand by itself.',
  place,
});

/** Of a piece that declares nothing, or could not be read. */
export const emptyModel = (chunk: Chunk): ChunkModel => ({
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

function cycleProblem(members: readonly Chunk[]): ModelProblem {
  const places = members.flatMap((chunk) => {
    const { content } = chunk;
    if (content?.kind !== 'block') return [];
    const name = content.head.find((item) => item.kind === 'word')?.text ?? '';
    return [{ name, place: firstLine(chunk), like: content.like && { chunk, span: content.like.span } }];
  });
  const [first, ...others] = places;
  const names = places.map(({ name }) => name);
  return {
    code: 'name/cycle',
    message:
      names.length > 1
        ? `${names.join(' and ')} are each made from the other, so neither has facts of its own to start from.`
        : `${names[0] ?? 'This block'} is made from itself, so it has no facts to start from.`,
    action: 'Take `like` out of one of them.',
    place: first?.place ?? { chunk: members[0] ?? EMPTY_CHUNK, span: { start: 0, end: 0 } },
    related: others.map(({ name, place }) => ({ message: `${name} is part of the circle`, place })),
    fixes: places.flatMap(({ name, like }) =>
      like
        ? [
            {
              title: `Take \`like\` out of ${name}`,
              edits: [{ place: withSpaceBefore(like), newText: '' }],
              unsure: true,
            },
          ]
        : [],
    ),
  };
}

const withSpaceBefore = ({ chunk, span: { start, end } }: Place): Place => ({
  chunk,
  span: { start: chunk.text.slice(0, start).trimEnd().length, end },
});

const EMPTY_CHUNK: Chunk = { text: '', content: undefined, comments: [], problems: [] };

/** Where a piece of text is pointed at: its first line. */
export function firstLine(chunk: Chunk): Place {
  const { content } = chunk;
  if (content?.kind !== 'block') return { chunk, span: content?.span ?? { start: 0, end: 0 } };
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
        message: `No ${inner.keyword} called ${name.value} is beside this one.`,
        place: name.place,
      }
    : {
        code: 'name/cycle',
        message: `${inner.name ?? 'This block'} is made from itself by way of ${name.value}.`,
        place: inner.place,
      };
}
