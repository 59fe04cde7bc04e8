/** A lead as it is written: which end of which coil it is, what it is joined to, and what a meter shows there. */
import { leadColour } from '../../../grammar/values/lead-name.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import { leadReadings, probePoints } from '../estimates/lead-readings.ts';
import { COIL_ENDS } from '../model/coil.ts';
import {
  endNode,
  GROUND,
  HOT,
  leadNode,
  looseNetlist,
  type Node,
  type PickupNetlist,
  partNode,
} from '../model/netlist.ts';
import { list } from '../words/text.ts';
import { pickupParts } from './drawn-parts.ts';
import type { EstimateRow } from './estimate-rows.ts';
import { meterWords } from './missing-readings.ts';
import type { RichText } from './rich-text.ts';
import { nameItem, type SyntaxAt } from './syntax-at.ts';

/** Nothing where no lead, coil's end or metal part of a pickup of this file stands there. */
export function writtenLead(analysis: Analysis, at: SyntaxAt): RichText {
  const analysed = analysis.pickups.find(({ pickup }) => pickup.place.chunk === at.placed.chunk);
  const node = analysed && nodeAt(analysed.netlist, at);
  if (!analysed || node === undefined) return [];
  const rows = leadRows(analysis, analysed, node);
  return rows.length === 0 ? [] : [{ kind: 'values', rows }];
}

/** What the item names in the circuit. A coil's own lead that is soldered to something is known to that coil alone. */
function nodeAt({ resolve }: PickupNetlist, { placed, blocks, fact, item }: SyntaxAt): Node | undefined {
  const block = blocks.at(-1);
  if (!fact || !block || (item?.kind !== 'word' && item?.kind !== 'path')) return undefined;
  const index = fact.items.indexOf(item);
  if (block.keyword.text === 'coil') {
    const end = COIL_ENDS.find((each) => each === fact.items[0]?.text);
    const isOwn = fact.items.some(({ text }, other) => text === 'to' && other > index);
    if (end && index > 0 && isOwn) return endNode(nameItem(block).text, end);
  }
  if (!LEADS_STAND_IN.has(block.keyword.text) || (index === 0 && block.keyword.text !== 'readings')) return undefined;
  const parts = item.kind === 'path' ? item.parts.map(({ text }) => text) : [item.text];
  return resolve({ parts, text: item.text, place: { chunk: placed.chunk, span: item.span } });
}

const LEADS_STAND_IN: ReadonlySet<string> = new Set(['pickup', 'coil', 'hookup', 'readings']);

function leadRows(analysis: Analysis, analysed: PickupAnalysis, node: Node): readonly EstimateRow[] {
  const { netlist, pickup } = analysed;
  const loose = looseNetlist(pickup);
  const labels = new Map(pickupParts(analysed).map(({ id, label }) => [id, label]));
  const labelOf = (each: Node) => (each === HOT || each === GROUND ? each : labels.get(each));
  const beside = (of: PickupNetlist, not: ReadonlySet<Node>): readonly string[] =>
    (of.nets[of.netOf(node) ?? -1]?.nodes ?? []).flatMap((each) => (not.has(each) ? [] : (labelOf(each) ?? [])));
  // A lead is named above already; an end of a coil is said with the lead that it leaves by.
  const is = beside(loose, new Set(node.startsWith(leadNode('')) ? [node, SHIELD] : [SHIELD]));
  const joined = beside(netlist, new Set([node, SHIELD, ...(loose.nets[loose.netOf(node) ?? -1]?.nodes ?? [])]));
  const isUntraced = is.length === 0 && netlist.windings.some(({ ends }) => ends === 'unknown');
  const letters = node.startsWith(leadNode('')) ? leadColour(node.slice(leadNode('').length))?.code : undefined;
  return [
    ...(letters === undefined ? [] : [{ name: 'colour', value: letters, restsOn: 'IEC 60757' }]),
    ...(is.length > 0 ? [{ name: 'is', value: list(is), restsOn: '' }] : []),
    ...(isUntraced ? [{ name: 'is', value: 'of a coil that is not traced yet', restsOn: '' }] : []),
    { name: 'joined to', value: joined.length > 0 ? list(joined) : 'nothing', restsOn: '' },
    ...(isUntraced ? [] : meterRows(analysis, analysed, node, loose)),
  ];
}

/** The drain wire is told as the lead that it is. */
const SHIELD = partNode('shield');

/** Joined, to ground; loose, to every lead that is not open against it. */
function meterRows(
  { bench }: Analysis,
  { netlist, pickup }: PickupAnalysis,
  node: Node,
  loose: PickupNetlist,
): readonly EstimateRow[] {
  const quick = quickOf(bench)(pickup);
  const [net, looseNet] = [netlist.netOf(node), loose.netOf(node)];
  const nameOn = (of: PickupNetlist, at: number | undefined) => probePoints(of).find((each) => each.net === at)?.name;
  const [own, ground] = [nameOn(netlist, net), nameOn(netlist, netlist.ground)];
  const isGround = net !== undefined && net === netlist.ground;
  const toGround = leadReadings(quick, bench).find(
    ({ leads }) => own !== ground && leads.some((each) => each === own) && leads.some((each) => each === ground),
  );
  const ownLoose = nameOn(loose, looseNet);
  const apart = leadReadings(quick, bench, loose).flatMap((reading): readonly EstimateRow[] => {
    const [a, b] = reading.leads;
    const other = a === ownLoose ? b : b === ownLoose ? a : undefined;
    if (other === undefined || reading.resistanceOhm === null || reading.resistanceOhm.value === 0) return [];
    return [
      {
        name: `loose, meter to ${other}`,
        value: meterWords(reading),
        restsOn: reading.resistanceOhm.restsOn.join('; '),
      },
    ];
  });
  return [
    ...(!isGround && toGround
      ? [
          {
            name: 'joined, meter to ground',
            value: meterWords(toGround),
            restsOn: toGround.resistanceOhm?.restsOn.join('; ') ?? '',
          },
        ]
      : []),
    ...apart,
  ];
}
