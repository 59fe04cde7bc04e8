import type { Position, Slot } from '../../model/instrument.ts';
import { JoinedNodes } from '../../model/joined-nodes.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import type { PlacedPart } from '../../model/selection.ts';
import { netLabel, pickupBlock, throughOwn, unknownBlock } from './coil-blocks.ts';
import { masters, ohms, ownControls } from './control-pictures.ts';
import { factsOf } from './facts.ts';
import type { Exit, PickupBlock, Schematic } from './schematic-picture.ts';
import { type Shop, soundingIn } from './shop.ts';
import { solderedBlocks } from './soldered-blocks.ts';
import { EARTH, joinPoints, OUT, placedParts, shortedCoils, spansOutput } from './switching.ts';

/** One position drawn by itself: its joints as they are soldered or switched, without contacts. */
export function onePosition(shop: Shop, position: Position): Schematic {
  const sounding = soundingIn(shop, position);
  const { selection } = position;
  const pickups =
    selection?.kind === 'nets' ? solderedBlocks(selection, shop, sounding) : asked(shop, position, sounding);
  return {
    facts: factsOf(shop, position),
    keys: [],
    liveKey: position.key.value,
    pickups: withoutLonelyRails(pickups),
    controls: masters(shop),
    sounds: sounding.size > 0,
  };
}

/** By what the selector asks for. */
function asked(shop: Shop, position: Position, sounding: ReadonlySet<string>): readonly PickupBlock[] {
  const { instrument } = shop;
  const placed = placedParts(position).map((each, index) => ({ ...each, index }));
  const joints: Joints = { shop, points: new JoinedNodes(), through: new Map(), sounding };
  for (const part of placed) joinPart(part, joints);
  return instrument.slots.map((slot) =>
    placedPickup(
      slot,
      placed.filter(({ part }) => part.slot === slot),
      joints,
    ),
  );
}

interface Joints {
  readonly shop: Shop;
  readonly points: JoinedNodes;
  /** Resistors to ground that stand in place of a split's short, by the point they leave from. */
  readonly through: Map<string, string>;
  readonly sounding: ReadonlySet<string>;
}

/** A pickup may stand in a position more than once, each time with another of its coils. */
type IndexedPart = PlacedPart<string> & { readonly index: number };

function placedPickup(slot: Slot, parts: readonly IndexedPart[], joints: Joints): PickupBlock {
  const { shop, points, sounding, through } = joints;
  const quick = slot.pickup && shop.quickOf(slot.pickup);
  if (quick === undefined) return unknownBlock(slot, shop.t);
  const { netlist } = quick;
  const netAt = new Map<string, number>();
  const nodeOf = (coil: string, net: number | undefined, end: string) => {
    const node = nodeAt({ slot, coil, net, end }, netlist, parts, points);
    if (net !== undefined && !netAt.has(node)) netAt.set(node, net);
    return node;
  };
  const block = pickupBlock(
    slot,
    quick,
    sounding,
    nodeOf,
    (node, isLive) => {
      const net = netAt.get(node);
      const label = net === undefined || parts.length === 0 ? [] : netLabel(netlist, net, shop.t);
      return { label, exits: [exitOf(node, isLive, through)] };
    },
    shop.t,
  );
  const [served] = parts;
  const own = ownControls(shop, slot, netlist, sounding);
  if (served === undefined || own === undefined) return block;
  const exit = exitOf(points.root(served.high), own.live, new Map());
  return throughOwn(block, own, points.root(ownPoint(served.index)), [exit]);
}

/** The point where a coil's end lies. */
function nodeAt(
  { slot, coil, net, end }: { slot: Slot; coil: string; net: number | undefined; end: string },
  netlist: PickupNetlist,
  parts: readonly IndexedPart[],
  points: JoinedNodes,
): string {
  const own = parts.find(({ part }) => part.kind === 'coil' && part.coil === coil) ?? parts[0];
  // A pickup that the position leaves out keeps the joints of its hookup.
  if (own === undefined) return net === undefined ? `${slot.name}.${coil} ${end}` : `${slot.name} ${net}`;
  const winding = netlist.windings.find((each) => each.coil.name === coil);
  const leftOff = own.part.kind === 'coil' && own.part.coil !== coil && lies(winding, netlist);
  return net === undefined || leftOff ? `${slot.name}.${coil} ${end}` : points.root(pointOf(own.index, net));
}

/** A coil that lies across the output cannot be shorted by a split: it is left off. */
const lies = (winding: PickupNetlist['windings'][number] | undefined, netlist: PickupNetlist): boolean =>
  winding?.start !== undefined && winding.finish !== undefined && spansOutput(winding.start, winding.finish, netlist);

function exitOf(node: string, live: boolean, through: Joints['through']): Exit {
  const resistor = through.get(node);
  if (node === OUT) return { to: 'bus', live };
  if (node === EARTH) return { to: 'earth', live };
  return resistor === undefined ? { to: { rail: node }, live } : { to: 'earth', live, through: resistor };
}

const pointOf = (part: number, net: number): string => `${part}:${net}`;
const ownPoint = (part: number): string => `own ${part}`;

function joinPart({ part, high, low, index }: IndexedPart, { shop, points, through }: Joints): void {
  const { pickup, name } = part.slot;
  if (pickup === undefined) return;
  const { netlist } = shop.quickOf(pickup);
  const hot = part.kind === 'tap' ? netlist.netOf(netlist.leads.get(part.lead)?.node ?? '') : netlist.hot;
  const own = shop.instrument.controls.some(({ forSlot }) => forSlot?.value === name);
  if (hot !== undefined) joinPoints(points, pointOf(index, hot), own ? ownPoint(index) : high);
  if (netlist.ground !== undefined) joinPoints(points, pointOf(index, netlist.ground), low);
  if (netlist.chassis !== undefined && netlist.chassis !== netlist.ground)
    joinPoints(points, pointOf(index, netlist.chassis), EARTH);
  const throughOhm = part.kind === 'coil' ? part.throughOhm?.value.si : undefined;
  for (const [a, b] of shortedCoils(part, netlist) ?? []) {
    const [one, other] = [pointOf(index, a), pointOf(index, b)];
    if (throughOhm === undefined) joinPoints(points, one, other);
    else if (points.root(one) === EARTH) through.set(points.root(other), ohms(throughOhm, shop.t));
    else if (points.root(other) === EARTH) through.set(points.root(one), ohms(throughOhm, shop.t));
  }
}

/** A point that stands in one row only leads nowhere. */
function withoutLonelyRails(pickups: readonly PickupBlock[]): readonly PickupBlock[] {
  const rows = new Map<string, number>();
  const railOf = ({ to }: Exit) => (typeof to === 'object' ? to.rail : undefined);
  for (const { nodes, coils, own } of pickups)
    for (const [node, { exits }] of nodes)
      for (const rail of exits.flatMap((exit) => railOf(exit) ?? [])) {
        const joined = coils.some(({ bottom }, index) => bottom === node && coils[index + 1]?.top === node);
        const ends = coils.filter(({ top, bottom }) => top === node || bottom === node).length;
        rows.set(rail, (rows.get(rail) ?? 0) + (own?.to === node ? 1 : joined ? ends - 1 : Math.max(ends, 1)));
      }
  return pickups.map((block) => ({
    ...block,
    nodes: new Map(
      [...block.nodes].map(([node, picture]) => [
        node,
        { ...picture, exits: picture.exits.filter((exit) => (rows.get(railOf(exit) ?? '') ?? 2) > 1) },
      ]),
    ),
  }));
}
