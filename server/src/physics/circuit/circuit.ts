/**
 * A linear network as plain data. Components name the nodes they touch; each writes itself into the
 * equations, so a new kind of component is one new object and changes nothing else.
 *
 * The equations are those of modified nodal analysis (Ho, Ruehli, Brennan, "The modified nodal approach to
 * network analysis", IEEE Trans. Circuits and Systems 22, 1975): one unknown for the voltage of each net, and
 * the own unknowns (branch currents) that a component asks for. Everything made of R, L, M and C enters as
 * g + jω·b with constant g and b, so a component stamps itself once and serves every frequency, 0 Hz included.
 */
export interface Circuit {
  readonly components: readonly Component[];
}

/** The reference node. Every voltage is against it. */
export const ground = 'ground';

export interface Component {
  /** Unique in its circuit. */
  readonly name: string;
  /** The nodes it touches, in its own order. */
  readonly terminals: readonly string[];
  /** How many unknowns of its own it adds. The first is its inductor current, where it has one. */
  readonly ownUnknowns: number;
  /** Pairs of its terminals (positions in `terminals`) that it joins without any resistance. */
  readonly wires: readonly TerminalPair[];
  /** Pairs of its terminals between which it carries current. */
  readonly paths: readonly CurrentPath[];
  /** Names of the components whose first own unknown its stamp needs: the two coils of a mutual inductance. */
  readonly refersTo: readonly string[];
  /** Writes the component into the equations. */
  stamp(equations: Equations, at: Placement): void;
}

export type TerminalPair = readonly [number, number];

export interface CurrentPath {
  readonly between: TerminalPair;
  /** False for a capacitor, which is open at 0 Hz. */
  readonly direct: boolean;
}

/** Where a component's equations lie. An index of -1 is ground, which has no equation. */
export interface Placement {
  readonly terminals: readonly number[];
  readonly own: number;
  readonly referred: readonly number[];
}

/**
 * What a stamp writes to. The row of a net says that the currents leaving it into components sum to the
 * current a source puts into it.
 */
export interface Equations {
  /** Adds g + jω·b at (row, column). */
  add(row: number, column: number, g: number, b: number): void;
  /** The source called `name` puts `coefficient` times its value on the right-hand side of `row`. */
  source(name: string, row: number, coefficient: number): void;
}

export function circuit(components: readonly Component[]): Circuit {
  return { components };
}

/** Which nodes are one net, joined by ideal wires. Net 0 is ground; the others in order of appearance. */
export interface Nets {
  /** One name a net: the node of it that came first. */
  readonly names: readonly string[];
  /** Every node's net. */
  readonly ofNode: ReadonlyMap<string, number>;
}

export function netsOf(components: readonly Component[]): Nets {
  const nodes = new Map<string, number>([[ground, 0]]);
  for (const { terminals } of components)
    for (const node of terminals) if (!nodes.has(node)) nodes.set(node, nodes.size);
  const groups = disjointSets(nodes.size);
  for (const { terminals, wires } of components)
    for (const [a, b] of wires) groups.unite(nodeIndex(nodes, terminals[a]), nodeIndex(nodes, terminals[b]));
  const names: string[] = [];
  const netOfGroup = new Map<number, number>();
  const ofNode = new Map<string, number>();
  for (const [node, index] of nodes) {
    const group = groups.find(index);
    const net = netOfGroup.get(group) ?? names.push(node) - 1;
    netOfGroup.set(group, net);
    ofNode.set(node, net);
  }
  return { names, ofNode };
}

function nodeIndex(nodes: ReadonlyMap<string, number>, node: string | undefined): number {
  return (node === undefined ? undefined : nodes.get(node)) ?? 0;
}

export interface DisjointSets {
  find(item: number): number;
  unite(a: number, b: number): void;
}

/** Union-find with path halving; the smallest member stands for its set. */
export function disjointSets(size: number): DisjointSets {
  const parent = new Int32Array(size);
  for (let item = 0; item < size; item++) parent[item] = item;
  const up = (item: number) => parent[item] ?? item;
  const find = (item: number): number => {
    let at = item;
    while (up(at) !== at) {
      parent[at] = up(up(at));
      at = up(at);
    }
    return at;
  };
  const unite = (a: number, b: number) => {
    const first = find(a);
    const second = find(b);
    parent[Math.max(first, second)] = Math.min(first, second);
  };
  return { find, unite };
}
