/** The joints of a pickup in words: hot first, then links, ground, what goes to ground by itself, what is joined to nothing. */
import { leadLetters } from '../../../../grammar/values/lead-name.ts';
import { CHASSIS, GROUND, HOT, type Node, type PickupNetlist } from '../../model/netlist.ts';
import type { Language, PlainText } from '../../words/languages/language.ts';
import { type HtmlNode, h, phrase, rowHead, table, typed } from '../html.ts';
import { leadNodes } from './swatch.ts';

export function jointTable(netlist: PickupNetlist, t: Language): HtmlNode {
  return table({
    className: 'stack',
    caption: t('What is soldered together'),
    columns: [t('joint'), t('leads and ends'), [t('done'), 'tick']],
    rows: joints(netlist, t).map(({ name, parts }) => [
      rowHead(h('b', {}, t(name))),
      h('td', {}, ...parts.map((part) => h('span', { class: 'lead' }, ...part))),
      h('td', { class: 'tick' }),
    ]),
  });
}

/** `hot VT · link GY + TQ · ground PK + bare`: letters alone, for a line of text. */
export function jointNodes(netlist: PickupNetlist, t: Language): readonly HtmlNode[] {
  const told = joints(netlist, t).filter(({ name }) => name !== 'open');
  return told.flatMap(({ name, letters }, index) => [
    index > 0 ? ' · ' : '',
    h('b', {}, `${t(name)} `),
    typed(letters.join(' + ')),
  ]);
}

interface JointRow {
  readonly name: JointName;
  readonly parts: readonly (readonly HtmlNode[])[];
  /** Leads and metal by their letters; ends of coils only where no lead brings them out. */
  readonly letters: readonly string[];
  readonly rank: number;
}

function joints(netlist: PickupNetlist, t: Language): readonly JointRow[] {
  return netlist.nets
    .flatMap(({ index, nodes }): readonly JointRow[] => {
      const parts = nodes.flatMap((node) => partNodes(netlist, node, t));
      if (parts.length === 0) return [];
      const out = nodes.filter((node) => /^(lead|part):(?!shield$)/.test(node)).map(nameOf);
      const ends = nodes.filter((node) => node.startsWith('coil:')).map((node) => endName(nameOf(node), t));
      const name = jointName(netlist, index, nodes);
      return [
        {
          name,
          parts,
          letters: out.length > 0 ? out.map((each) => t.word(leadLetters(each))) : ends,
          rank: RANKS.indexOf(name),
        },
      ];
    })
    .sort((a, b) => a.rank - b.rank);
}

const nameOf = (node: Node): string => node.slice(node.indexOf(':') + 1);

/** `screw start` */
function endName(name: string, t: Language): string {
  const [coil = '', end = ''] = name.split('.');
  return `${coil} ${t.word(end)}`;
}

const RANKS = [
  'hot',
  'link',
  'ground',
  'shield, to ground by itself',
  'taped off',
  'open',
] as const satisfies readonly PlainText[];
type JointName = (typeof RANKS)[number];

function jointName(netlist: PickupNetlist, net: number, nodes: readonly Node[]): JointName {
  if (net === netlist.hot) return 'hot';
  if (net === netlist.ground) return 'ground';
  if (net === netlist.chassis) return 'shield, to ground by itself';
  if (netlist.free.has(net)) return 'taped off';
  return nodes.length > 1 ? 'link' : 'open';
}

function partNodes(netlist: PickupNetlist, node: Node, t: Language): readonly (readonly HtmlNode[])[] {
  if (node === HOT || node === GROUND || node === CHASSIS) return [];
  const at = node.indexOf(':');
  const [kind, name] = [node.slice(0, at), node.slice(at + 1)];
  if (kind === 'lead') return [leadNodes(name, netlist.leads.get(name)?.what === 'shield' ? 'shield' : 'lead', t)];
  if (kind === 'part') return name === 'shield' ? [] : [leadNodes(name, 'metal', t)];
  // The lead that brings a tap out stands in the same net under its own name.
  if (kind !== 'coil') return [];
  const [coil = '', end = ''] = name.split('.');
  // A kick tells which pair is the coil's, not which of the two is the inner end.
  const isTraced = netlist.windings.find((each) => each.coil.name === coil)?.ends !== 'from a kick';
  if (!isTraced) return [phrase(t, '{0} coil, end untraced', typed(coil))];
  const own = netlist.pickup.coils.find((each) => each.name === coil)?.[end === 'start' ? 'start' : 'finish']?.value
    .own;
  return [[typed(endName(name, t)), ...(own ? [' (', typed(own.value), ')'] : [])]];
}
