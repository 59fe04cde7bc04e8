import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { CHASSIS, GROUND, HOT, type Node, type PickupNetlist } from '../model/netlist.ts';
import { ENGLISH, type Language, type PlainText } from '../words/languages/language.ts';

/** One row of the table of joints: what is soldered together, and what the joint is for. */
export interface JointRow {
  readonly joint: string;
  readonly leads: readonly string[];
}

/** The nets of a pickup in words: hot first, then the links, ground, and what is joined to nothing. */
export function jointRows({ netlist }: PickupAnalysis, t = ENGLISH): readonly JointRow[] {
  const rows = netlist.nets.flatMap((net) => {
    const leads = net.nodes.flatMap((node) => nodeName(netlist, node, t) ?? []);
    if (leads.length === 0) return [];
    const joint = jointName(netlist, net.index, leads.length);
    return [{ joint, leads, rank: RANKS.indexOf(joint) }];
  });
  return rows.sort((a, b) => a.rank - b.rank).map(({ joint, leads }) => ({ joint: t(joint), leads }));
}

const RANKS = [
  'hot',
  'link',
  'ground',
  'shield, to ground by itself',
  'free',
  'open',
] as const satisfies readonly PlainText[];

function jointName(netlist: PickupNetlist, net: number, leads: number): (typeof RANKS)[number] {
  if (net === netlist.hot) return 'hot';
  if (net === netlist.ground) return 'ground';
  if (net === netlist.chassis) return 'shield, to ground by itself';
  if (netlist.free.has(net)) return 'free';
  return leads > 1 ? 'link' : 'open';
}

function nodeName(netlist: PickupNetlist, node: Node, t: Language): string | undefined {
  if (node === HOT || node === GROUND || node === CHASSIS) return undefined;
  const [kind, name = ''] = split(node);
  if (kind === 'coil') {
    const [coil = '', end = ''] = name.split('.');
    const own = netlist.pickup.coils.find((each) => each.name === coil)?.[end === 'start' ? 'start' : 'finish']?.value
      .own;
    return `${coil} ${t.word(end)}${own ? ` (${t.word(own.value)})` : ''}`;
  }
  if (kind === 'foil') return t('foil of the {0} coil', name);
  // The lead that a tap is brought out by stands in the same net under its own name.
  return kind === 'tap' ? undefined : t.word(name);
}

function split(node: Node): readonly [string, string] {
  const at = node.indexOf(':');
  return [node.slice(0, at), node.slice(at + 1)];
}
