/** What a verified remedy changes of the leads, so that a mistake can be drawn as a crossing in the layout of its remedy. */
import { createAnalyser, editedTexts } from '../../analysis.ts';
import type { Analysis, PickupAnalysis } from '../../analysis-types.ts';
import type { Finding, Remedy } from '../../checks/finding.ts';
import { COIL_ENDS, type Coil, type CoilEnd } from '../../model/coil.ts';
import { endNode, type Node, type OutgoingLead, type PickupNetlist } from '../../model/netlist.ts';

export interface Mistake {
  readonly finding: Finding;
  readonly remedy: Remedy;
  /** The pickup as the remedy leaves it. */
  readonly remedied: PickupAnalysis;
  /** By coil end, `slug.start`: the ends whose conductor or whose place in the hookup it has taken. */
  readonly ends: ReadonlyMap<string, MistakenEnd>;
}

export interface MistakenEnd {
  readonly joint?: string;
  readonly net?: string;
}

/** The first finding of the pickup with a verified remedy that moves leads; `undefined` where there is none. */
export function mistakeOf(analysis: Analysis, { pickup, netlist, findings }: PickupAnalysis): Mistake | undefined {
  for (const finding of findings) {
    if (finding.severity !== 'error' && finding.severity !== 'warning') continue;
    for (const remedy of analysis.verifiedFixes(finding)) {
      const remedied = remedy.kind === 'build' ? apply(remedy, analysis, pickup.name) : undefined;
      if (remedied === undefined || !sameCoils(pickup.coils, remedied.pickup.coils)) continue;
      const ends = mistakenEnds(netlist, remedied.netlist);
      if (ends.size > 0) return { finding, remedy, remedied, ends };
    }
  }
  return undefined;
}

/** Ends whose joints differ between the pickup as it is and as it should be. */
export function mistakenEnds(asIs: PickupNetlist, remedied: PickupNetlist): ReadonlyMap<string, MistakenEnd> {
  const ends = remedied.pickup.coils.flatMap((coil) => COIL_ENDS.map((end) => ({ coil: coil.name, end })));
  const mistaken = new Map<string, MistakenEnd>();
  for (const { coil, end } of ends) {
    const [conductor, right] = [conductorOf(asIs, coil, end), conductorOf(remedied, coil, end)];
    if (conductor?.name === right?.name) continue;
    const owner = ends.find(
      (other) => conductor !== undefined && conductorOf(remedied, other.coil, other.end)?.name === conductor.name,
    );
    if (owner !== undefined) mistaken.set(`${coil}.${end}`, { joint: `${owner.coil}.${owner.end}` });
  }
  // Leads that changed places at the joints are told there; the nets then differ only by what hangs on them.
  if (mistaken.size > 0) return mistaken;
  const changed = ends.filter(
    (each) => companions(asIs, each.coil, each.end) !== companions(remedied, each.coil, each.end),
  );
  for (const { coil, end } of changed) {
    const now = companions(asIs, coil, end);
    const owner = changed.find((other) => companions(remedied, other.coil, other.end) === now);
    mistaken.set(`${coil}.${end}`, {
      net: now === '' || owner === undefined ? 'nowhere' : `${owner.coil}.${owner.end}`,
    });
  }
  return [...mistaken.values()].some(({ net }) => net === 'nowhere') && mistaken.size > 2 ? new Map() : mistaken;
}

/** The lead by which an end leaves the pickup. */
export function conductorOf(netlist: PickupNetlist, coil: string, end: CoilEnd): OutgoingLead | undefined {
  const stated = [...netlist.leads.values()].find((lead) =>
    lead.ends.some((each) => each.coil.name === coil && each.end === end),
  );
  if (stated !== undefined) return stated;
  const winding = netlist.windings.find((each) => each.coil.name === coil);
  if (winding?.ends !== 'from a kick') return undefined;
  const net = winding[end];
  return [...netlist.leads.values()].find(
    (lead) =>
      lead.what === 'conductor' && lead.ends.length === 0 && net !== undefined && netlist.netOf(lead.node) === net,
  );
}

/** What else is joined to an end: its net without the end itself and its own lead. */
function companions(netlist: PickupNetlist, coil: string, end: CoilEnd): string {
  const own = new Set<Node>([endNode(coil, end)]);
  const lead = conductorOf(netlist, coil, end);
  if (lead !== undefined) own.add(lead.node);
  const net = netlist.netOf(endNode(coil, end));
  const nodes = net === undefined ? [] : (netlist.nets[net]?.nodes ?? []);
  return nodes
    .filter((node) => !own.has(node))
    .sort()
    .join(' ');
}

/** Coils wound and magnetised as before: only then is the difference one of leads. */
function sameCoils(before: readonly Coil[], after: readonly Coil[]): boolean {
  return (
    before.length === after.length &&
    before.every((coil, index) => {
      const other = after[index];
      return (
        coil.name === other?.name &&
        coil.wound?.value === other.wound?.value &&
        coil.polarity?.value === other.polarity?.value &&
        coil.bobbin?.name === other.bobbin?.name
      );
    })
  );
}

function apply(remedy: Remedy, analysis: Analysis, pickup: string): PickupAnalysis | undefined {
  const texts = editedTexts(remedy, analysis);
  if (texts === undefined) return undefined;
  const remedied = createAnalyser().analyse(analysis.uri, {
    isInside: () => true,
    content: (uri) => {
      const text = texts.get(uri) ?? analysis.textOf(uri);
      return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
    },
  });
  return remedied.pickups.find((each) => each.pickup.name === pickup);
}
