/** What a verified remedy changes of the leads, so that a mistake can be drawn as a crossing in the layout of its remedy. */
import type { Analysis, PickupAnalysis } from '../../analysis/analysis-types.ts';
import type { Finding, Remedy } from '../../checks/finding.ts';
import { COIL_ENDS, type Coil, type CoilEnd } from '../../model/coil.ts';
import { endNode, looseNetlist, type Node, type OutgoingLead, type PickupNetlist } from '../../model/netlist.ts';
import type { Pickup } from '../../model/pickup.ts';

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
    // What a reading contradicts is a statement, not yet a joint.
    if (finding.code.startsWith('reading/')) continue;
    for (const remedy of analysis.verifiedFixes(finding)) {
      const remedied = remedy.kind === 'build' ? apply(remedy, analysis, pickup.name) : undefined;
      if (remedied === undefined || !sameButLeads(pickup, remedied.pickup)) continue;
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
  if (mistaken.size === 0) return mistakenNets(asIs, remedied);
  return sameHookup(asIs, remedied) ? mistaken : new Map();
}

/** Ends that have taken each other's place in the hookup, or that are joined to nothing though they should be. */
function mistakenNets(asIs: PickupNetlist, remedied: PickupNetlist): ReadonlyMap<string, MistakenEnd> {
  const ends = remedied.pickup.coils.flatMap(({ name }) => COIL_ENDS.map((end) => `${name}.${end}`));
  const [now, right] = [joints(asIs), joints(remedied)];
  const wanted = asText(right);
  if (asText(now) === wanted) return new Map();
  for (const exchange of exchanges(remedied.pickup.coils, ends)) {
    const other = (end: string) => exchange.get(end) ?? end;
    if (asText(now.map((joint) => joint.map(other))) !== wanted) continue;
    return new Map([...exchange].map(([end, net]) => [end, { net }]));
  }
  const alone = (all: typeof now) => new Set(all.flatMap((joint) => (joint.length === 1 ? joint : [])));
  const [aloneNow, aloneThen] = [alone(now), alone(right)];
  const forgotten = ends.filter((end) => aloneNow.has(end) && !aloneThen.has(end));
  const without = (all: typeof now) => asText(all.map((joint) => joint.filter((each) => !forgotten.includes(each))));
  // A change that is neither an exchange nor a forgotten joint cannot be drawn as a crossing or a gap.
  if (forgotten.length === 0 || without(now) !== without(right)) return new Map();
  return new Map(forgotten.map((end) => [end, { net: 'nowhere' }]));
}

/** Whether the conductors are joined alike, whatever is soldered to them inside. */
function sameHookup(asIs: PickupNetlist, remedied: PickupNetlist): boolean {
  const outside = ({ nets }: PickupNetlist) =>
    asText(nets.map(({ nodes }) => nodes.filter((node) => !node.startsWith('coil:'))));
  return outside(asIs) === outside(remedied);
}

/** What may have changed places: start and finish of one coil or of several, else any two ends. */
function* exchanges(coils: readonly Coil[], ends: readonly string[]): Generator<ReadonlyMap<string, string>> {
  const few = coils.slice(0, MOST_COILS);
  for (let set = 1; set < 2 ** few.length; set += 1) {
    const pairs = few.filter((_, index) => Math.floor(set / 2 ** index) % 2 === 1);
    yield new Map(
      pairs.flatMap(({ name }): [string, string][] => [
        [`${name}.start`, `${name}.finish`],
        [`${name}.finish`, `${name}.start`],
      ]),
    );
  }
  for (const [index, a] of ends.entries()) {
    for (const b of ends.slice(index + 1, MOST_COILS * 2)) {
      yield new Map([
        [a, b],
        [b, a],
      ]);
    }
  }
}

/** Pickups with more coils than this are drawn as they are. */
const MOST_COILS = 4;

/** The nets by coil ends, each lead counting as the end it belongs to, so that two netlists can be compared. */
function joints(netlist: PickupNetlist): readonly (readonly string[])[] {
  const endOf = new Map<Node, string>();
  for (const { name } of netlist.pickup.coils) {
    for (const end of COIL_ENDS) {
      endOf.set(endNode(name, end), `${name}.${end}`);
      const lead = conductorOf(netlist, name, end);
      if (lead !== undefined) endOf.set(lead.node, `${name}.${end}`);
    }
  }
  return netlist.nets.map(({ nodes }) => [...new Set(nodes.map((node) => endOf.get(node) ?? node))]);
}

function asText(all: readonly (readonly string[])[]): string {
  return all
    .filter((joint) => joint.length > 0)
    .map((joint) => [...joint].sort().join(' '))
    .sort()
    .join('\n');
}

/** The lead by which an end leaves the pickup. */
export function conductorOf(netlist: PickupNetlist, coil: string, end: CoilEnd): OutgoingLead | undefined {
  const stated = [...netlist.leads.values()].find((lead) =>
    lead.ends.some((each) => each.coil.name === coil && each.end === end),
  );
  if (stated !== undefined) return stated;
  const winding = netlist.windings.find((each) => each.coil.name === coil);
  if (winding?.ends !== 'from a kick') return undefined;
  // As the leads lie on the bench: once they are joined, a net no longer tells them apart.
  const loose = looseNetlist(netlist.pickup);
  const net = loose.windings.find((each) => each.coil.name === coil)?.[end];
  const lead = [...loose.leads.values()].find((each) => each.what === 'conductor' && loose.netOf(each.node) === net);
  return lead === undefined ? undefined : netlist.leads.get(lead.name);
}

/** Coils and magnet as before: only then is the difference one of leads. */
function sameButLeads(before: Pickup, after: Pickup): boolean {
  const [bar, otherBar] = [before.barMagnet?.value, after.barMagnet?.value];
  if (bar?.pole !== otherBar?.pole || bar?.towardCoil.value !== otherBar?.towardCoil.value) return false;
  if (before.coils.length !== after.coils.length) return false;
  return before.coils.every((coil, index) => {
    const other = after.coils[index];
    return (
      coil.name === other?.name &&
      coil.wound?.value === other.wound?.value &&
      coil.polarity?.value === other.polarity?.value &&
      coil.bobbin?.name === other.bobbin?.name
    );
  });
}

const apply = (remedy: Remedy, analysis: Analysis, pickup: string): PickupAnalysis | undefined =>
  analysis.edited(remedy.edits)?.pickups.find((each) => each.pickup.name === pickup);
