/**
 * The two-connected blocks of a graph with several edges between two nodes: by Tarjan's depth-first search. Two edges lie in one block
 * where some ring goes through both. What sounds are the edges in the block of an imagined edge from hot to ground: by Menger's theorem
 * those whose two ends reach hot and ground on paths that share no node.
 */

export interface Edge {
  readonly a: number;
  readonly b: number;
}

/** The number of its block for each edge; an edge that begins where it ends is a block of its own. Nodes are whole numbers from 0. */
export function blocksOf(edges: readonly Edge[]): readonly number[] {
  const at: number[][] = [];
  edges.forEach(({ a, b }, index) => {
    for (const node of a === b ? [a] : [a, b]) {
      const list = at[node];
      if (list) list.push(index);
      else at[node] = [index];
    }
  });
  const block: number[] = edges.map(() => NONE);
  const seen: number[] = [];
  const low: number[] = [];
  const open: number[] = [];
  let nodes = 0;
  let blocks = 0;

  const visit = (node: number, through: number): void => {
    const here = nodes++;
    seen[node] = here;
    let lowest = here;
    for (const index of at[node] ?? []) {
      const edge = edges[index];
      if (!edge || index === through || block[index] !== NONE) continue;
      if (edge.a === edge.b) {
        block[index] = blocks++;
        continue;
      }
      const other = edge.a === node ? edge.b : edge.a;
      const before = seen[other];
      if (before !== undefined) {
        if (before < here) {
          open.push(index);
          lowest = Math.min(lowest, before);
        }
        continue;
      }
      const mark = open.length;
      open.push(index);
      visit(other, index);
      const reached = low[other] ?? here;
      lowest = Math.min(lowest, reached);
      if (reached < here) continue;
      for (const member of open.splice(mark)) block[member] = blocks;
      blocks += 1;
    }
    low[node] = lowest;
  };
  for (const { a } of edges) if (seen[a] === undefined) visit(a, NONE);
  return block;
}

const NONE = -1;
