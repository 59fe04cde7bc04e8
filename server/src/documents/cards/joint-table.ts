/** The joints of a pickup in words: hot first, then links, ground, what goes to ground by itself, what is joined to nothing. */
import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import { CHASSIS, GROUND, HOT, type Node, type PickupNetlist } from '../../model/netlist.ts';
import { type HtmlNode, h, rowHead, table, typed } from '../html.ts';
import { leadNodes } from './swatch.ts';

export function jointTable(netlist: PickupNetlist): HtmlNode {
  return table({
    className: 'stack',
    caption: 'What is soldered together',
    columns: ['joint', 'leads and ends', ['done', 'tick']],
    rows: joints(netlist).map(({ name, parts }) => [
      rowHead(h('b', {}, name)),
      h('td', {}, ...parts.map((part) => h('span', { class: 'lead' }, ...part))),
      h('td', { class: 'tick' }),
    ]),
  });
}

/** `hot VT · link GY + TQ · ground PK + bare`: letters alone, for a line of text. */
export function jointNodes(netlist: PickupNetlist): readonly HtmlNode[] {
  const told = joints(netlist).filter(({ name }) => name !== 'open');
  return told.flatMap(({ name, letters }, index) => [
    index > 0 ? ' · ' : '',
    h('b', {}, `${name} `),
    typed(letters.join(' + ')),
  ]);
}

interface JointRow {
  readonly name: string;
  readonly parts: readonly (readonly HtmlNode[])[];
  /** Leads and metal by their letters; ends of coils only where no lead brings them out. */
  readonly letters: readonly string[];
  readonly rank: number;
}

function joints(netlist: PickupNetlist): readonly JointRow[] {
  return netlist.nets
    .flatMap(({ index, nodes }): readonly JointRow[] => {
      const parts = nodes.flatMap((node) => partNodes(netlist, node));
      if (parts.length === 0) return [];
      const out = nodes.filter((node) => /^(lead|part):(?!shield$)/.test(node)).map(nameOf);
      const ends = nodes.filter((node) => node.startsWith('coil:')).map((node) => nameOf(node).replace('.', ' '));
      const name = jointName(netlist, index, nodes);
      return [{ name, parts, letters: out.length > 0 ? out.map(leadLetters) : ends, rank: RANKS.indexOf(name) }];
    })
    .sort((a, b) => a.rank - b.rank);
}

const nameOf = (node: Node): string => node.slice(node.indexOf(':') + 1);

const RANKS: readonly string[] = ['hot', 'link', 'ground', 'shield, to ground by itself', 'taped off', 'open'];

function jointName(netlist: PickupNetlist, net: number, nodes: readonly Node[]): string {
  if (net === netlist.hot) return 'hot';
  if (net === netlist.ground) return 'ground';
  if (net === netlist.chassis) return 'shield, to ground by itself';
  if (netlist.free.has(net)) return 'taped off';
  return nodes.length > 1 ? 'link' : 'open';
}

function partNodes(netlist: PickupNetlist, node: Node): readonly (readonly HtmlNode[])[] {
  if (node === HOT || node === GROUND || node === CHASSIS) return [];
  const at = node.indexOf(':');
  const [kind, name] = [node.slice(0, at), node.slice(at + 1)];
  if (kind === 'lead') return [leadNodes(name, netlist.leads.get(name)?.what === 'shield' ? 'shield' : 'lead')];
  if (kind === 'part') return name === 'shield' ? [] : [leadNodes(name, 'metal')];
  // The lead that brings a tap out stands in the same net under its own name.
  if (kind !== 'coil') return [];
  const [coil = '', end = ''] = name.split('.');
  // A kick tells which pair is the coil's, not which of the two is the inner end.
  const isTraced = netlist.windings.find((each) => each.coil.name === coil)?.ends !== 'from a kick';
  if (!isTraced) return [[typed(coil), ' coil, end untraced']];
  const own = netlist.pickup.coils.find((each) => each.name === coil)?.[end === 'start' ? 'start' : 'finish']?.value
    .own;
  return [[typed(`${coil} ${end}`), ...(own ? [' (', typed(own.value), ')'] : [])]];
}
