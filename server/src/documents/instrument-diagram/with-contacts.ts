import type { Position, Slot } from '../../model/instrument.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import { coilBlocks, netLabel, resistanceText, unknownBlock } from './coil-blocks.ts';
import { masters, ohms, ownControls } from './control-pictures.ts';
import { factsOf } from './facts.ts';
import type { ControlPicture, Exit, NodePicture, PickupBlock, Schematic } from './schematic-picture.ts';
import { type Shop, soundingIn } from './shop.ts';
import type { Contact } from './switching.ts';

export function withContacts(shop: Shop, contacts: readonly Contact[], live: Position | undefined): Schematic {
  const { instrument } = shop;
  const keys = instrument.positions.map(({ key }) => key.value);
  const sounding = soundingIn(shop, live);
  const liveKey = live?.key.value;
  const pickups = instrument.slots.map((slot): PickupBlock => {
    const quick = slot.pickup && shop.quickOf(slot.pickup);
    if (quick === undefined) return unknownBlock(slot);
    const { netlist } = quick;
    const nodeOf = (net: number | undefined, end: string) => (net === undefined ? end : String(net));
    const coils = coilBlocks(slot, quick, sounding, (_, net, end) => nodeOf(net, end));
    const touchesLive = (node: string) =>
      coils.some((coil) => coil.live && (coil.top === node || coil.bottom === node));
    const nodes = new Map<string, NodePicture>();
    const own = ownControls(shop, slot, netlist, sounding);
    for (const node of new Set(coils.flatMap(({ top, bottom }) => [top, bottom]))) {
      const net = Number(node);
      const exits: Exit[] = contacts
        .filter((contact) => contact.slot === slot.name && contact.net === net)
        .sort((a, b) => Number(a.to === 'bus') - Number(b.to === 'bus') || (a.throughOhm ?? 0) - (b.throughOhm ?? 0))
        .map((contact) => {
          const closedNow = liveKey !== undefined && contact.closedIn.includes(liveKey);
          return {
            to: contact.to,
            live: closedNow && touchesLive(node),
            ...(contact.throughOhm === undefined ? {} : { through: ohms(contact.throughOhm) }),
            contact: {
              title: contactTitle(slot, netlist, contact),
              closed: keys.map((key) => contact.closedIn.includes(key)),
              closedNow,
            },
          };
        });
      if (net === netlist.ground) exits.push({ to: 'earth', live: touchesLive(node) });
      nodes.set(node, { label: netLabel(netlist, net), exits });
    }
    if (own === undefined) return { slot: slot.name, resistance: resistanceText(quick), coils, nodes };
    return throughOwn({ slot: slot.name, resistance: resistanceText(quick), coils, nodes }, own, String(netlist.hot));
  });
  return {
    facts: live && factsOf(shop, live),
    keys,
    liveKey,
    pickups,
    controls: masters(instrument),
    sounds: sounding.size > 0,
  };
}

/** The hot node feeds the pickup's own controls; what left it leaves their end. */
function throughOwn(
  block: PickupBlock,
  own: { controls: readonly ControlPicture[]; live: boolean },
  hot: string,
): PickupBlock {
  const node = block.nodes.get(hot);
  if (node === undefined) return block;
  const after = `${hot} after`;
  const nodes = new Map(block.nodes);
  nodes.set(hot, { label: node.label, exits: [] });
  nodes.set(after, { label: [], exits: node.exits });
  return { ...block, nodes, own: { controls: own.controls, from: hot, to: after, live: own.live } };
}

function contactTitle(slot: Slot, netlist: PickupNetlist, { net, to, closedIn }: Contact): string {
  const what =
    net === netlist.hot
      ? 'hot'
      : netLabel(netlist, net)
          .map(({ text }) => text)
          .join('');
  return `${slot.name} ${what} to ${to === 'bus' ? 'the output' : 'ground'}: closed in position ${closedIn.join(', ')}`;
}
