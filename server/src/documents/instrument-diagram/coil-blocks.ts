import { colourOf, colourWords } from '../../../../grammar/values/iec60757.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { opposite, poleOf } from '../../model/coil.ts';
import type { Slot } from '../../model/instrument.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import { printCount, printValue } from '../../quantities/print.ts';
import type { Run } from '../labels.ts';
import { coilPath } from '../wiring-diagram/coil-path.ts';
import type { CoilBlock, PickupBlock } from './schematic-picture.ts';

export function coilBlocks(
  slot: Slot,
  quick: QuickEstimates,
  sounding: ReadonlySet<string>,
  nodeOf: (coil: string, net: number | undefined, end: string) => string,
): readonly CoilBlock[] {
  const { netlist } = quick;
  return [...coilPath(netlist, quick.signs)].reverse().map(({ coil, entered, nearGround }): CoilBlock => {
    const winding = netlist.windings.find((each) => each.coil === coil);
    const bottomEnd = entered ?? nearGround ?? 'start';
    const topEnd = opposite(bottomEnd);
    const turns = quick.windings.get(coil)?.turns;
    const pole = quick.signs.find((each) => each.coil === coil)?.pole;
    return {
      id: `${slot.name}.${coil.name}`,
      name: `${coil.name} coil`,
      turns: turns === undefined ? 'turns unknown' : `${printCount(turns.value)} turns`,
      polarity: pole && poleOf(pole.sign),
      startAt: winding?.ends === 'stated' ? (bottomEnd === 'start' ? 'bottom' : 'top') : undefined,
      live: sounding.has(`${slot.name}.${coil.name}`),
      top: nodeOf(coil.name, winding?.[topEnd], `${coil.name}.${topEnd}`),
      bottom: nodeOf(coil.name, winding?.[bottomEnd], `${coil.name}.${bottomEnd}`),
    };
  });
}

export const unknownBlock = (slot: Slot): PickupBlock => ({
  slot: slot.name,
  resistance: '',
  unknown: `${slot.pickupName.value} is not known`,
  coils: [],
  nodes: new Map(),
});

export function resistanceText({ resistance20COhm }: QuickEstimates): string {
  if (resistance20COhm === null) return 'open';
  if (resistance20COhm === undefined) return 'kΩ unknown';
  return printValue({ value: resistance20COhm.value, sd: resistance20COhm.sd, dimension: 'resistance' });
}

/** `VT violet`; several leads by their letters, and what they make: `GY + TQ link`. */
export function netLabel(netlist: PickupNetlist, net: number): readonly Run[] {
  const leads = (netlist.nets[net]?.nodes ?? []).flatMap((node) =>
    node.startsWith('lead:') ? [node.slice('lead:'.length)] : [],
  );
  const colours = leads.map((lead) => ({ lead, colour: colourOf(lead.replaceAll(' and ', '-and-')) }));
  const link = net !== netlist.hot && net !== netlist.ground;
  const [only] = colours;
  if (only !== undefined && colours.length === 1) {
    return [
      { text: only.colour?.code ?? only.lead, bold: true },
      { text: only.colour === undefined ? '' : ` ${colourWords(only.colour)}` },
    ];
  }
  const letters = colours.map(({ lead, colour }) => colour?.code ?? lead).join(' + ');
  if (letters === '') return link ? [{ text: 'link' }] : [];
  return [{ text: letters, bold: true }, { text: link ? ' link' : '' }];
}
