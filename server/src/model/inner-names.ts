/**
 * The names that are declared inside one block at the top: coils and leads of a pickup, slots of an instrument. Where each is
 * declared, every line that names it, and the names that nothing declares or two things have.
 */
import { type NameInLine, namesInLine } from '../../../grammar/src/names-in-line.ts';
import type { language } from '../../../grammar/src/schema/index.ts';
import type { NameKind } from '../../../grammar/src/schema/shape.ts';
import type { Span } from '../../../grammar/src/span.ts';
import type { Chunk } from '../../../grammar/src/syntax-tree.ts';
import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { AnyBlock } from './merged-block.ts';
import type { ModelProblem, Reference } from './model.ts';
import type { Place } from './place.ts';
import { unknownAmong } from './unknown-name.ts';

export interface PlacedName extends NameInLine {
  readonly place: Place;
  /** The line that holds it. */
  readonly line: Place;
  /** The block that holds the line. */
  readonly block: AnyBlock;
}

/**
 * Every name that the lines of a block hold, and of the blocks in it; their own names and whom they are like too. A line that
 * two coils share, one being like the other, is one line.
 */
export const namesInBlock = onceFor((block: AnyBlock): readonly PlacedName[] => {
  const seen = new Map<Chunk, Set<number>>();
  return allNames(block).filter(({ place: { chunk, span } }) => {
    const starts = seen.get(chunk) ?? new Set();
    seen.set(chunk, starts);
    if (starts.has(span.start)) return false;
    starts.add(span.start);
    return true;
  });
});

function allNames(block: AnyBlock): readonly PlacedName[] {
  const found: PlacedName[] = [];
  const add = ({ kind, parts, span, isPath, role }: NameInLine, line: Place): void => {
    found.push({ kind, parts, span, isPath, role, place: { chunk: line.chunk, span }, line, block });
  };
  for (const field in block.schema.facts) {
    const shape = block.schema.facts[field]?.shape;
    if (shape)
      for (const { value, place } of block.facts[field] ?? [])
        for (const name of namesInLine(shape, value)) add(name, place);
  }
  for (const inner of block.blocks) {
    for (const name of headNames(inner)) add(name, inner.place);
    found.push(...allNames(inner));
  }
  return found;
}

function headNames({ schema, name, namePlace, node }: AnyBlock): readonly NameInLine[] {
  const kind = schema.names;
  if (kind === undefined) return [];
  const called = (role: NameInLine['role'], value: string, span: Span): NameInLine => ({
    kind,
    role,
    parts: [{ value, span }],
    span,
    isPath: false,
  });
  const like = node.like?.name;
  return [called('declares', name ?? '', namePlace.span), ...(like ? [called('uses', like.text, like.span)] : [])];
}

const INNER_KINDS = ['coil', 'lead', 'slot'] as const satisfies readonly NameKind[];
type InnerKind = (typeof INNER_KINDS)[number];

export interface InnerNames {
  readonly references: readonly Reference[];
  readonly problems: readonly ModelProblem[];
}

/**
 * `former`: the pickup as it was, of which this one is a later state; its coils may be taken away. `lent`: the names of the block that this
 * one is made from: what has a name there is meant by it here, too, also where its lines are written anew.
 */
export const innerNames = onceFor(
  (
    names: readonly PlacedName[],
    former: AnyBlock | 'not known' | undefined,
    lent: readonly Reference[] | undefined,
  ): InnerNames => {
    const lender = new Map(lent?.map(({ kind, name, target }) => [`${kind} ${name}`, target]));
    const declared = new Map<InnerKind, Map<string, PlacedName>>(INNER_KINDS.map((kind) => [kind, new Map()]));
    const problems: ModelProblem[] = [];
    const references: Reference[] = [];
    const note = (kind: InnerKind, name: string, place: Place, declares: boolean) => {
      const key = kind === 'lead' ? canonicalLeadName(name) : name;
      const own = declared.get(kind)?.get(key)?.place;
      const target = own && (lender.get(`${kind} ${key}`) ?? own);
      // A lead that nothing brings out is told by the check that knows what it may be.
      if (target || kind !== 'lead')
        references.push({ place, kind, name: key, target, declares: declares && target === own });
      return target;
    };
    for (const each of names) {
      const kind = innerKind(each.kind);
      if (!kind || each.role !== 'declares') continue;
      const text = each.parts[0]?.value ?? '';
      const known = declared.get(kind);
      const key = kind === 'lead' ? canonicalLeadName(text) : text;
      const before = known?.get(key);
      if (before && kind !== 'lead') problems.push(duplicate(kind, text, each, before));
      if (!before) known?.set(key, each);
      note(kind, text, each.place, true);
    }
    const coils = declared.get('coil');
    for (const each of names) {
      const [first, second] = each.parts;
      const kind = innerKind(each.kind);
      if (!kind || !first || each.role !== 'uses') continue;
      const isCoil = each.isPath && kind === 'lead' && (second !== undefined || coils?.has(first.value));
      const meant = isCoil ? 'coil' : kind;
      const place = { chunk: each.place.chunk, span: first.span };
      if (isTakenAway(each)) {
        if (former === 'not known') continue;
        const before = former?.blocks.find(({ keyword, name }) => keyword === 'coil' && name === first.value);
        references.push({ place, kind: 'coil', name: first.value, target: before?.namePlace, declares: false });
        if (!before) problems.push(nothingToTakeAway(first.value, place, former));
        continue;
      }
      const target = note(meant, first.value, place, false);
      const known = kind === 'slot' ? declared.get('slot')?.get(first.value) : undefined;
      const isOther = known && slotWanted(each) !== 'terminal' && slotDeclared(known) !== slotWanted(each);
      if ((!target || isOther) && isToTell(each, kind))
        problems.push(
          kind === 'coil'
            ? unknownCoil(first.value, place, [...(declared.get(kind)?.keys() ?? [])])
            : unknownSlot(first.value, place, each, [...(declared.get('slot')?.values() ?? [])]),
        );
    }
    return { references, problems };
  },
);

const innerKind = (kind: NameKind): InnerKind | undefined => INNER_KINDS.find((each) => each === kind);

/** Readings as found speak of a pickup that may have had other coils; whom a coil is like has been told where it was merged. */
const isToTell = ({ block, span }: PlacedName, kind: InnerKind): boolean =>
  kind !== 'lead' &&
  !(block.schema.history && block.words.includes('found')) &&
  !block.blocks.some(({ node }) => node.like?.name?.span === span);

const isTakenAway = ({ block, line }: PlacedName): boolean =>
  (block.facts['takenAway' satisfies keyof typeof language.pickup.facts] ?? []).some(({ place }) => place === line);

function nothingToTakeAway(name: string, place: Place, former: AnyBlock | undefined): ModelProblem {
  if (!former)
    return {
      code: 'name/unknown',
      message: `Nothing brings a coil called ${name} that could be taken away: this pickup reworks no other.`,
      place,
    };
  const names = former.blocks.flatMap((block) => (block.keyword === 'coil' ? (block.name ?? []) : []));
  const owner = former.name ?? 'The pickup that it reworks';
  return unknownAmong(names, name, place, `${owner} has no coil called ${name}: ${coilsWords(names)}.`);
}

const has = (names: readonly string[]) => `it has ${names.join(', ')}`;
const coilsWords = (names: readonly string[]) => (names.length ? has(names) : 'it has no coils');

export const unknownCoil = (name: string, place: Place, names: readonly string[]): ModelProblem =>
  unknownAmong(names, name, place, `This pickup has no coil called ${name}: ${coilsWords(names)}.`);

/** Pickups, switches and controls of an instrument share their names; what a line can mean is one kind of them, or any. */
function unknownSlot(name: string, place: Place, use: PlacedName, declared: readonly PlacedName[]): ModelProblem {
  const wanted = slotWanted(use);
  const names = declared.flatMap((each) =>
    wanted === 'terminal' || slotDeclared(each) === wanted ? (each.parts[0]?.value ?? []) : [],
  );
  const message = `${SLOT_UNKNOWN[wanted](name)} in this instrument${names.length ? `: ${has(names)}` : ''}.`;
  return unknownAmong(names, name, place, message);
}

type SlotKind = 'pickup' | 'switch' | 'control';

const SLOT_UNKNOWN: Readonly<Record<SlotKind | 'terminal', (name: string) => string>> = {
  pickup: (name) => `No pickup is fitted as ${name}`,
  switch: (name) => `No switch is called ${name}`,
  control: (name) => `No control is called ${name}`,
  terminal: (name) => `Nothing is called ${name}`,
};

function slotWanted({ block, isPath }: PlacedName): SlotKind | 'terminal' {
  if (block.keyword === 'wiring') return 'terminal';
  if (block.keyword === 'instrument') return 'control';
  return block.keyword === 'selector' && !isPath ? 'switch' : 'pickup';
}

function slotDeclared({ block, line }: PlacedName): SlotKind {
  if (block.keyword === 'controls') return 'control';
  const switches = block.facts['switches' satisfies keyof typeof language.instrument.facts] ?? [];
  return switches.some(({ place }) => place === line) ? 'switch' : 'pickup';
}

const THINGS = { coil: 'coils of this pickup', slot: 'parts of this instrument' } as const;

const duplicate = (kind: keyof typeof THINGS, name: string, second: PlacedName, first: PlacedName): ModelProblem => ({
  code: 'name/duplicate',
  message: `Two ${THINGS[kind]} are called ${name}; a name belongs to one of them.`,
  action: 'Rename one of them.',
  place: second.line,
  related: [{ message: `the first ${name}`, place: first.line }],
});
