import { type Network, netOf } from './network.ts';

/**
 * What an ohmmeter between two nodes reads, in Ω, with everything else left as it is: sources silent, capacitors open.
 * `null` is open: no path of conductors joins the two. Nodes that no component touches are open to everything but
 * themselves. Loops without any resistance have no unique currents and read as `null` too; a coil always has some.
 */
export function resistanceBetween(network: Network, a: string, b: string): number | null {
  if (a === b) return 0;
  const from = netOf(network, a);
  const to = netOf(network, b);
  if (from === undefined || to === undefined) return null;
  return betweenNets(network, from, to);
}

function betweenNets({ direct }: Network, from: number, to: number): number | null {
  const { islands, solver } = direct();
  if (from === to) return 0;
  if (islands[from] !== islands[to]) return null;
  const right = new Float64Array(solver.size);
  if (from > 0) right[from - 1] = 1;
  if (to > 0) right[to - 1] = -1;
  const re = new Float64Array(solver.size);
  if (!solver.solve(0, right, re, new Float64Array(solver.size))) return null;
  return (from > 0 ? (re[from - 1] ?? 0) : 0) - (to > 0 ? (re[to - 1] ?? 0) : 0);
}
