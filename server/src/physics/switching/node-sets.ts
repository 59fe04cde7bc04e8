/** Which nodes are one, each set as the bits of its nodes: quick to copy and to ask, since thousands of wirings are tried. */
export class NodeSets {
  private readonly bits: Int32Array;

  /** Of so many nodes, `MOST_NODES` at most, each by itself; or a copy. */
  constructor(of: number | NodeSets) {
    this.bits = typeof of === 'number' ? Int32Array.from({ length: of }, (_, node) => 1 << node) : of.bits.slice();
  }

  join(a: number, b: number): void {
    const joined = this.of(a) | this.of(b);
    for (let left = joined; left !== 0; left &= left - 1) this.bits[highest(left & -left)] = joined;
  }

  joinAll(nodes: number): void {
    for (let left = nodes; left !== 0; left &= left - 1) this.join(highest(nodes), highest(left & -left));
  }

  /** All that is one with the node, as bits. */
  of(node: number): number {
    return this.bits[node] as number;
  }

  /** All that is one with any of these. */
  around(nodes: number): number {
    let all = 0;
    for (let left = nodes; left !== 0; left &= ~all) all |= this.of(highest(left));
    return all;
  }

  /** How many sets these are in. */
  count(nodes: number): number {
    let count = 0;
    for (let left = nodes; left !== 0; left &= ~this.of(highest(left))) count++;
    return count;
  }
}

/** As many as a word has bits. */
export const MOST_NODES = 32;

export const bitsOf = (nodes: readonly number[]): number => nodes.reduce((bits, node) => bits | (1 << node), 0);

/** How many nets have a part in a set, all as bits. */
export function netsIn(nets: readonly number[], set: number): number {
  let count = 0;
  for (const net of nets) if (net & set) count++;
  return count;
}

const highest = (bits: number): number => 31 - Math.clz32(bits);
