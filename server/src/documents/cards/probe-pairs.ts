/** Every pair of points that probes can touch, with what a meter reads before and after the leads are joined. */

import { type QuickEstimates, resistanceOf } from '../../estimates/quick.ts';
import type { Bench } from '../../model/bench.ts';
import { COIL_ENDS } from '../../model/coil.ts';
import { endNode, looseNetlist, type Node, type PickupNetlist, partNode } from '../../model/netlist.ts';
import type { ReadingOf } from '../../model/readings.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { inRoom, passOhm } from './numbers.ts';
import type { Touched } from './swatch.ts';

export interface ProbePoint {
  readonly name: string;
  readonly what: Touched;
  readonly node: Node;
}

export type Expected =
  | { readonly kind: 'open' }
  | { readonly kind: 'joined' }
  | { readonly kind: 'unknown' }
  | { readonly kind: 'resistance'; readonly ohm: Estimate; readonly passOhm: number };

export interface ProbePair {
  readonly points: readonly [ProbePoint, ProbePoint];
  readonly before: Expected;
  /** What was read there in `readings apart`, at its own temperature. */
  readonly readBefore: ReadingOf<'resistance'>['value'] | undefined;
  readonly after: Expected;
}

export interface LooseAndJoined {
  /** As it lies on the bench, no lead joined to another. */
  readonly loose: PickupNetlist;
  /** Its leads joined; what goes to the instrument's ground by itself is still apart. */
  readonly joined: PickupNetlist;
}

export function looseAndJoined({ netlist }: QuickEstimates): LooseAndJoined {
  return {
    loose: looseNetlist(netlist.pickup),
    joined: { ...netlist, chassis: netlist.ground },
  };
}

export function probePairs(
  quick: QuickEstimates,
  { loose, joined }: LooseAndJoined,
  bench: Bench | undefined,
  roomC: number,
): readonly ProbePair[] {
  const points = probePoints(loose);
  const expected = (netlist: PickupNetlist, a: ProbePoint, b: ProbePoint): Expected => {
    if (isUntraced(loose, a) || isUntraced(loose, b)) return { kind: 'unknown' };
    const at20C = resistanceOf(netlist, quick.windings, netlist.netOf(a.node), netlist.netOf(b.node));
    if (at20C === null) return { kind: 'open' };
    if (at20C === undefined) return { kind: 'unknown' };
    if (at20C.value === 0) return { kind: 'joined' };
    const ohm = inRoom(at20C, roomC);
    return { kind: 'resistance', ohm, passOhm: passOhm(ohm, bench) };
  };
  return points.flatMap((a, index) =>
    points.slice(index + 1).map((b) => ({
      points: [a, b] as const,
      before: expected(loose, a, b),
      readBefore: readApart(loose, a, b),
      after: expected(joined, a, b),
    })),
  );
}

/** The newest reading of two points that was taken before any joint was made. */
function readApart(loose: PickupNetlist, a: ProbePoint, b: ProbePoint): ProbePair['readBefore'] {
  const lines = loose.pickup.readings.filter(({ apart, found }) => apart && !found).flatMap((block) => block.lines);
  return lines.findLast((line): line is ReadingOf<'resistance'> => {
    if (line.kind !== 'resistance') return false;
    const read = [loose.resolve(line.probes.red), loose.resolve(line.probes.black)];
    return read.includes(a.node) && read.includes(b.node);
  })?.value;
}

/** Leads, metal parts, and ends of coils that no lead brings out. */
export function probePoints(loose: PickupNetlist): readonly ProbePoint[] {
  const leads = [...loose.leads.values()].map(
    ({ name, node, what }): ProbePoint => ({ name, node, what: what === 'shield' ? 'shield' : 'lead' }),
  );
  const ends = loose.windings.flatMap(({ coil, ends: known, unseen, ...winding }) =>
    known === 'unknown' || unseen
      ? []
      : COIL_ENDS.flatMap((end): readonly ProbePoint[] => {
          const net = winding[end];
          const nodes = net === undefined ? [] : (loose.nets[net]?.nodes ?? []);
          const isOut = nodes.some((node) => node.startsWith('lead:') || node.startsWith('part:'));
          return net === undefined || isOut
            ? []
            : [{ name: `${coil.name} ${end}`, node: endNode(coil.name, end), what: 'coil end' }];
        }),
  );
  const metal = loose.metal.flatMap(({ fitting, name }): readonly ProbePoint[] =>
    fitting === 'shield' ? [] : [{ name, node: partNode(fitting.part), what: 'metal' }],
  );
  return [...leads, ...ends, ...metal];
}

/** A conductor that nothing places, while a coil's ends are still to be found: it may be either of them. */
function isUntraced(loose: PickupNetlist, { node }: ProbePoint): boolean {
  if (!loose.windings.some(({ ends }) => ends === 'unknown')) return false;
  const net = loose.netOf(node);
  const nodes = net === undefined ? [] : (loose.nets[net]?.nodes ?? []);
  return node.startsWith('lead:') && !nodes.some((each) => each.startsWith('coil:') || each.startsWith('part:'));
}
