/**
 * What a wired rig does in a state of its switches. Terminals are made one by what is soldered and by the closed contacts
 * (union-find); what sounds are the elements in the two-connected block of an imagined edge from hot to ground (`blocks.ts`), folded by
 * series and parallel steps (`folded.ts`). No wiring is compared with a known one. Exact: no quantities, no tolerance.
 */
import { blocksOf } from './blocks.ts';
import { type Folded, foldBetween, sameText } from './folded.ts';
import {
  closedBetween,
  closedIn,
  GROUND,
  HOT,
  type Nets,
  type Rig,
  type Step,
  type SwitchState,
  type Travel,
} from './rig.ts';
import { TerminalSets } from './terminal-sets.ts';

/** A coil that does not sound: how it is closed, and what it hangs on; ground is named before hot, hot before an inner net. */
export interface DeadCoil {
  readonly closed: 'shorted' | 'looped' | 'open';
  readonly on: 'ground' | 'hot' | 'link' | 'none';
}

export interface StateMeaning {
  /** `open`: no coil drives hot; `shorted`: hot is ground. */
  readonly fault: 'open' | 'shorted' | undefined;
  /** `undefined` with a fault, and where what sounds is neither series nor parallel. */
  readonly network: Folded | undefined;
  /** What states are compared by: equal texts sound alike. */
  readonly text: string;
  /** Names of what sounds, coils and parts; a bridge's too. */
  readonly sounding: readonly string[];
  /** Worked out when first asked for. */
  readonly dead: ReadonlyMap<string, DeadCoil>;
  /** Stands for all terminals that are one in this state; `undefined` for a terminal that is not there. */
  netOf(terminal: string): number | undefined;
}

/** The rig with its terminals by number; what is soldered outside may be another than the rig's own. */
export interface NumberedRig {
  readonly rig: Rig;
  readonly terminals: readonly string[];
  readonly indexOf: ReadonlyMap<string, number>;
  /** Hot, ground and the ends of the elements. */
  readonly ends: readonly number[];
  numbered(nets: Nets): NumberedNets;
}

export function numberedRig(rig: Rig): NumberedRig {
  const names = [
    HOT,
    GROUND,
    ...rig.switches.flatMap(({ slot, contacts }) => contacts.lugs.map((lug) => `${slot}.${lug}`)),
    ...rig.elements.flatMap(({ ends }) => ends),
    ...rig.fixed.flat(),
    ...rig.links.flat(),
  ];
  const terminals = [...new Set(names)];
  const indexOf = new Map(terminals.map((name, index) => [name, index]));
  const numbered = (nets: Nets) => nets.map((net) => net.flatMap((name) => indexOf.get(name) ?? []));
  const ends = numbered([[HOT, GROUND], ...rig.elements.map((element) => element.ends)]).flat();
  return { rig, terminals, indexOf, ends, numbered };
}

/** In a state of the switches, by what the rig says is soldered. */
export const meaningIn = (numbered: NumberedRig, state: SwitchState): StateMeaning =>
  meaningOf(numbered, [...numbered.rig.links, ...closedIn(numbered.rig, state)]);

/** What happens to hot in the middle of a step. */
export const hotBetween = (numbered: NumberedRig, step: Step, travel: Travel): 'held' | 'open' | 'shorted' =>
  meaningOf(numbered, [...numbered.rig.links, ...closedBetween(numbered.rig, step, travel)]).fault ?? 'held';

/** By all that is one besides the joints that nobody moves. */
function meaningOf(numbered: NumberedRig, nets: Nets): StateMeaning {
  const { rig, indexOf } = numbered;
  const sets = setsOf(numbered, [numbered.numbered([...rig.fixed, ...nets])]);
  const graph = graphOf(numbered, sets);
  const { isSounding, ...heard } = heardOf(graph);
  const netOf = (terminal: string) => {
    const index = indexOf.get(terminal);
    return index === undefined ? undefined : sets.rootOf(index);
  };
  const sounding = rig.elements.flatMap(({ name }, index) => (isSounding(index) ? [name] : []));
  let dead: StateMeaning['dead'] | undefined;
  return {
    ...heard,
    sounding,
    netOf,
    get dead() {
      dead ??= deadCoils(graph, isSounding);
      return dead;
    },
  };
}

/**
 * What a state is compared by, for terminals that are one by number; for many wirings of one rig. It follows from which ends of elements
 * are one, so that of most wirings it is known already.
 */
export function textsBy(numbered: NumberedRig): (sets: TerminalSets) => string {
  const known = new Map<string, string>();
  return (sets) => {
    const roots = numbered.ends.map((end) => sets.rootOf(end));
    const key = String.fromCharCode(...roots.map((root) => roots.indexOf(root)));
    const text = known.get(key) ?? heardOf(graphOf(numbered, sets)).text;
    known.set(key, text);
    return text;
  };
}

export type NumberedNets = readonly (readonly number[])[];

export function setsOf({ terminals }: NumberedRig, joints: readonly NumberedNets[]): TerminalSets {
  const sets = new TerminalSets(terminals.length);
  for (const nets of joints) for (const group of nets) sets.joinAll(group);
  return sets;
}

interface Graph {
  readonly elements: Rig['elements'];
  readonly hot: number;
  readonly ground: number;
  readonly edges: readonly { readonly a: number; readonly b: number }[];
  /** Of each edge; the last is the imagined one. */
  readonly blocks: readonly number[];
}

function graphOf({ rig, indexOf }: NumberedRig, sets: TerminalSets): Graph {
  const at = (terminal: string) => sets.rootOf(indexOf.get(terminal) ?? 0);
  const [hot, ground] = [at(HOT), at(GROUND)];
  const edges = rig.elements.map(({ ends: [high, low] }) => ({ a: at(high), b: at(low) }));
  return { elements: rig.elements, hot, ground, edges, blocks: blocksOf([...edges, { a: hot, b: ground }]) };
}

interface Heard extends Pick<StateMeaning, 'fault' | 'network' | 'text'> {
  isSounding(element: number): boolean;
}

function heardOf({ elements, edges, hot, ground, blocks }: Graph): Heard {
  const silent = (fault: 'open' | 'shorted') => ({
    fault,
    network: undefined,
    text: SILENT[fault],
    isSounding: () => false,
  });
  if (hot === ground) return silent('shorted');
  const live = blocks.at(-1);
  const isSounding = (element: number) => blocks[element] === live;
  if (!elements.some(({ isCoil }, index) => isCoil && isSounding(index))) return silent('open');
  const folding = edges.flatMap(({ a, b }, index) => {
    const name = elements[index]?.name;
    return name !== undefined && isSounding(index)
      ? [{ a, b, folded: { kind: 'element', name, turned: false } as const }]
      : [];
  });
  const network = foldBetween(hot, ground, folding);
  const text = network ? textOf(network, elements) : netsText({ elements, edges, hot, ground, isSounding });
  return { fault: undefined, network, text, isSounding };
}

/** What is neither series nor parallel, by its nets: which ends meet on each, whatever the net is called. */
function netsText({
  elements,
  edges,
  hot,
  ground,
  isSounding,
}: Omit<Graph, 'blocks'> & Pick<Heard, 'isSounding'>): string {
  const ends = new Map<number, string[]>([
    [hot, ['hot']],
    [ground, ['ground']],
  ]);
  edges.forEach(({ a, b }, index) => {
    const element = elements[index];
    if (!element || !isSounding(index)) return;
    const [high, low] = element.isCoil ? ['+', '-'] : ['~', '~'];
    ends.set(a, [...(ends.get(a) ?? []), `${high}${element.name}`]);
    ends.set(b, [...(ends.get(b) ?? []), `${low}${element.name}`]);
  });
  const nets = [...ends.values()].map((net) => net.sort().join(' '));
  return `${NEITHER}: ${nets.sort().join(', ')}`;
}

const SILENT = { open: 'silent (open)', shorted: 'silent (shorted)' } as const;
const NEITHER = 'bridge';

/** What a network is compared by. */
export function textOf(network: Folded, elements: readonly RigElementNames[]): string {
  const byName = new Map(elements.map((element) => [element.name, element]));
  return sameText(network, (name, isTurned) => {
    const element = byName.get(name);
    return element?.isCoil ? `${isTurned ? '-' : '+'}${name}` : `~${element?.alike ?? name}`;
  });
}

type RigElementNames = Pick<Rig['elements'][number], 'name' | 'isCoil' | 'alike'>;

function deadCoils(
  { elements, edges, blocks, hot, ground }: Graph,
  isSounding: Heard['isSounding'],
): StateMeaning['dead'] {
  const silent = edges.flatMap((edge, index) => (isSounding(index) ? [] : [{ ...edge, index }]));
  const nodes = edges.flatMap(({ a, b }) => [a, b]);
  const hung = new TerminalSets(Math.max(hot, ground, ...nodes) + 1);
  for (const { a, b } of silent) hung.join(a, b);
  const inner = new Set(edges.flatMap(({ a, b }, index) => (isSounding(index) ? [a, b] : [])));
  const hangsOn = (node: number): DeadCoil['on'] => {
    const reaches = (other: number) => hung.rootOf(other) === hung.rootOf(node);
    if (reaches(ground)) return 'ground';
    if (reaches(hot)) return 'hot';
    return [...inner].some(reaches) ? 'link' : 'none';
  };
  const blockSizes = new Map<number, number>();
  for (const { index } of silent) {
    const block = blocks[index] ?? -1;
    blockSizes.set(block, (blockSizes.get(block) ?? 0) + 1);
  }
  return new Map(
    silent.flatMap(({ a, b, index }): readonly (readonly [string, DeadCoil])[] => {
      const element = elements[index];
      if (!element?.isCoil) return [];
      const isRing = (blockSizes.get(blocks[index] ?? -1) ?? 0) > 1;
      return [[element.name, { closed: a === b ? 'shorted' : isRing ? 'looped' : 'open', on: hangsOn(a) }]];
    }),
  );
}

/** Lugs, by terminal, that nothing is soldered to. */
export function unusedLugs({ switches, links, fixed }: Rig): readonly string[] {
  const used = new Set([...links, ...fixed].flatMap((net) => (net.length > 1 ? net : [])));
  return switches.flatMap(({ slot, contacts }) =>
    contacts.lugs.map((lug) => `${slot}.${lug}`).filter((terminal) => !used.has(terminal)),
  );
}
