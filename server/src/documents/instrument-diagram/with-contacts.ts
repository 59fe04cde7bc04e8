import type { Position, Slot } from '../../model/instrument.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import type { Language } from '../../words/languages/language.ts';
import { netLabel, pickupBlock, throughOwn, unknownBlock } from './coil-blocks.ts';
import { masters, ohms, ownControls } from './control-pictures.ts';
import { factsOf } from './facts.ts';
import type { Exit, NodePicture, PickupBlock, Schematic } from './schematic-picture.ts';
import { type Shop, soundingIn } from './shop.ts';
import type { Contact } from './switching.ts';

export function withContacts(shop: Shop, contacts: readonly Contact[], live: Position | undefined): Schematic {
  const { instrument, t } = shop;
  const keys = instrument.positions.map(({ key }) => key.value);
  const sounding = soundingIn(shop, live);
  const liveKey = live?.key.value;
  const pickups = instrument.slots.map((slot): PickupBlock => {
    const quick = slot.pickup && shop.quickOf(slot.pickup);
    if (quick === undefined) return unknownBlock(slot, t);
    const { netlist } = quick;
    const pictureOf = (node: string, isLive: boolean): NodePicture => {
      const net = Number(node);
      const exits: Exit[] = contacts
        .filter((contact) => contact.slot === slot.name && contact.net === net)
        .sort((a, b) => Number(a.to === 'bus') - Number(b.to === 'bus') || (a.throughOhm ?? 0) - (b.throughOhm ?? 0))
        .map((contact) => {
          const closedNow = liveKey !== undefined && contact.closedIn.includes(liveKey);
          return {
            to: contact.to,
            live: closedNow && isLive,
            through: contact.throughOhm === undefined ? undefined : ohms(contact.throughOhm, t),
            contact: {
              title: contactTitle(slot, netlist, contact, t),
              closed: keys.map((key) => contact.closedIn.includes(key)),
              closedNow,
            },
          };
        });
      if (net === netlist.ground) exits.push({ to: 'earth', live: isLive });
      return { label: netLabel(netlist, net, t), exits };
    };
    const block = pickupBlock(slot, quick, sounding, (_, net, end) => String(net ?? end), pictureOf, t);
    return throughOwn(block, ownControls(shop, slot, netlist, sounding), String(netlist.hot));
  });
  return {
    facts: live && factsOf(shop, live),
    keys,
    liveKey,
    pickups,
    controls: masters(shop),
    sounds: sounding.size > 0,
  };
}

function contactTitle(slot: Slot, netlist: PickupNetlist, { net, to, closedIn }: Contact, t: Language): string {
  const what =
    net === netlist.hot
      ? t('hot')
      : netLabel(netlist, net, t)
          .map(({ text }) => text)
          .join('');
  return t(
    to === 'bus' ? '{0} to the output: closed in position {1}' : '{0} to ground: closed in position {1}',
    `${slot.name} ${what}`,
    closedIn.join(', '),
  );
}
