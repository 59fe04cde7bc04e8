import type { Analysis, InstrumentAnalysis, PotSettings } from '../../analysis-types.ts';
import { AT_THE_METER, positionNetwork } from '../../estimates/position-network.ts';
import { FULL_UP, soundingCoils } from '../../estimates/positions.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { benchRoomC } from '../../model/bench.ts';
import type { Control, Instrument, Position, Slot } from '../../model/instrument.ts';
import type { PickupNetlist } from '../../model/netlist.ts';
import type { Pickup } from '../../model/pickup.ts';
import { colourOf, colourWords } from '../../quantities/iec60757.ts';
import { printCount, printNumber, printQuantity, printValue } from '../../quantities/print.ts';
import type { Dimension } from '../../quantities/unit-table.ts';
import type { Run } from '../labels.ts';
import { levelWords } from '../level-words.ts';
import { positionVerdict } from '../position-verdict.ts';
import { quickOfBench } from '../response-plot/from-model.ts';
import { frequencyText } from '../response-plot/response-plot.ts';
import { selectionWords } from '../selection-words.ts';
import { coilPath } from '../wiring-diagram/coil-path.ts';
import type {
  CoilBlock,
  ControlPicture,
  Exit,
  FactsPicture,
  InstrumentPicture,
  NodePicture,
  PickupBlock,
  Schematic,
} from './schematic-picture.ts';
import {
  type Contact,
  contactsOf,
  EARTH,
  OUT,
  type PlacedPart,
  Points,
  placedParts,
  shortedCoils,
  spansOutput,
} from './switching.ts';

export interface InstrumentOptions {
  readonly pots?: PotSettings;
  /** Key of the position that is emphasised; the first unless given. */
  readonly live?: string | undefined;
}

/**
 * The schematic of an instrument. Where contacts to the output and to ground make every position, one drawing shows the selector
 * whole; else each position is drawn by itself: the one asked for, or all.
 */
export function instrumentPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  { pots = FULL_UP, live }: InstrumentOptions = {},
): InstrumentPicture {
  const { instrument } = analysed;
  const quickOf = quickOfBench(analysis);
  const shop: Shop = { instrument, quickOf, analysed, pots };
  const contacts = contactsOf(instrument, ({ slot }) => slot.pickup && quickOf(slot.pickup).netlist);
  const asked = instrument.positions.find(({ key }) => key.value === live);
  const first = asked ?? instrument.positions[0];
  const sections =
    contacts !== undefined
      ? [withContacts(shop, contacts, first)]
      : (asked === undefined ? instrument.positions : [asked]).map((position) => onePosition(shop, position));
  const title = instrument.title ?? instrument.name;
  const position = contacts === undefined ? asked : first;
  return {
    id: `instrument-${instrument.name}`,
    title,
    subtitle: `instrument, ${position === undefined ? 'each selector position by itself' : `selector in position ${position.key.value}`}`,
    aside: ['', `${printNumber(benchRoomC(analysis.bench), 0)}\u202F°C · ${potWords(pots)}`],
    name: `Schematic of ${title}`,
    description: sections.map(spoken).join(' '),
    sections,
  };
}

interface Shop {
  readonly instrument: Instrument;
  readonly quickOf: (pickup: Pickup) => QuickEstimates;
  readonly analysed: InstrumentAnalysis;
  readonly pots: PotSettings;
}

function withContacts(shop: Shop, contacts: readonly Contact[], live: Position | undefined): Schematic {
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

function ownControls({ instrument }: Shop, { name }: Slot, { hot }: PickupNetlist, sounding: ReadonlySet<string>) {
  const controls = instrument.controls.filter(({ forSlot }) => forSlot?.value === name).map(controlPicture);
  const live = [...sounding].some((id) => id.startsWith(`${name}.`));
  return controls.length === 0 || hot === undefined ? undefined : { controls, live };
}

function onePosition(shop: Shop, position: Position): Schematic {
  const { instrument } = shop;
  const placed = placedParts(position);
  const sounding = soundingIn(shop, position);
  const points = new Points();
  const through = new Map<string, string>();
  placed.forEach((each, index) => {
    joinPart(each, index, shop, points, through);
  });
  const pickups = instrument.slots.map((slot): PickupBlock => {
    const quick = slot.pickup && shop.quickOf(slot.pickup);
    if (quick === undefined) return unknownBlock(slot);
    const mine = placed.flatMap((each, index) => (each.part.slot === slot ? [{ ...each, index }] : []));
    const partOf = (coil: string) => mine.find(({ part }) => part.kind === 'coil' && part.coil === coil) ?? mine[0];
    const leftOff = (coil: string, start: number | undefined, finish: number | undefined) => {
      const kept = partOf(coil)?.part;
      return (
        kept?.kind === 'coil' &&
        kept.coil !== coil &&
        start !== undefined &&
        finish !== undefined &&
        spansOutput(start, finish, quick.netlist)
      );
    };
    const nodeOf = (coil: string, net: number | undefined, end: string) => {
      const own = partOf(coil);
      const winding = quick.netlist.windings.find((each) => each.coil.name === coil);
      if (net === undefined || leftOff(coil, winding?.start, winding?.finish)) return `${slot.name}.${coil} ${end}`;
      // A pickup that the position leaves out keeps the joints of its hookup.
      if (own === undefined) return `${slot.name} ${net}`;
      return points.root(pointOf(own.index, net));
    };
    const netAt = new Map<string, number>();
    const coils = coilBlocks(slot, quick, sounding, (coil, net, end) => {
      const node = nodeOf(coil, net, end);
      if (net !== undefined && !netAt.has(node)) netAt.set(node, net);
      return node;
    });
    const touchesLive = (node: string) =>
      coils.some((coil) => coil.live && (coil.top === node || coil.bottom === node));
    // The leads at the first coil end of a point.
    const labelOf = (node: string) => {
      const net = netAt.get(node);
      return net === undefined || mine.length === 0 ? [] : netLabel(quick.netlist, net);
    };
    const nodes = new Map<string, NodePicture>();
    for (const node of new Set(coils.flatMap(({ top, bottom }) => [top, bottom]))) {
      const live = touchesLive(node);
      const resistor = through.get(node);
      const exits: Exit[] =
        node === OUT
          ? [{ to: 'bus', live }]
          : node === EARTH
            ? [{ to: 'earth', live }]
            : resistor !== undefined
              ? [{ to: 'earth', live, through: resistor }]
              : [{ to: { rail: node }, live }];
      nodes.set(node, { label: labelOf(node), exits });
    }
    const block: PickupBlock = { slot: slot.name, resistance: resistanceText(quick), coils, nodes };
    const own = ownControls(shop, slot, quick.netlist, sounding);
    const served = mine[0];
    if (own === undefined || served === undefined) return block;
    const target = points.root(served.high);
    const from = points.root(`own ${served.index}`);
    const exits: Exit[] = [
      { to: target === OUT ? 'bus' : target === EARTH ? 'earth' : { rail: target }, live: own.live },
    ];
    const all = new Map(nodes);
    const before = nodes.get(from);
    if (before === undefined) return block;
    all.set(from, { label: before.label, exits: [] });
    all.set(`${from} after`, { label: [], exits });
    return { ...block, nodes: all, own: { ...own, from, to: `${from} after` } };
  });
  return {
    facts: factsOf(shop, position),
    keys: [],
    liveKey: position.key.value,
    pickups: withoutLonelyRails(pickups),
    controls: masters(instrument),
    sounds: sounding.size > 0,
  };
}

const pointOf = (part: number, net: number): string => `${part}:${net}`;

function joinPart(
  { part, high, low }: PlacedPart,
  index: number,
  shop: Shop,
  points: Points,
  through: Map<string, string>,
): void {
  const { pickup, name } = part.slot;
  if (pickup === undefined) return;
  const { netlist } = shop.quickOf(pickup);
  const hot = part.kind === 'tap' ? netlist.netOf(netlist.leads.get(part.lead)?.node ?? '') : netlist.hot;
  const own = shop.instrument.controls.some(({ forSlot }) => forSlot?.value === name);
  if (hot !== undefined) points.unite(pointOf(index, hot), own ? `own ${index}` : high);
  if (netlist.ground !== undefined) points.unite(pointOf(index, netlist.ground), low);
  if (netlist.chassis !== undefined && netlist.chassis !== netlist.ground)
    points.unite(pointOf(index, netlist.chassis), EARTH);
  const throughOhm = part.kind === 'coil' ? part.throughOhm?.value.si : undefined;
  for (const [a, b] of shortedCoils(part, netlist) ?? []) {
    const [one, other] = [pointOf(index, a), pointOf(index, b)];
    if (throughOhm === undefined) points.unite(one, other);
    else if (points.root(one) === EARTH) through.set(points.root(other), ohms(throughOhm));
    else if (points.root(other) === EARTH) through.set(points.root(one), ohms(throughOhm));
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

function coilBlocks(
  slot: Slot,
  quick: QuickEstimates,
  sounding: ReadonlySet<string>,
  nodeOf: (coil: string, net: number | undefined, end: string) => string,
): readonly CoilBlock[] {
  const { netlist } = quick;
  return [...coilPath(netlist, quick.signs)].reverse().map(({ coil, entered, nearGround }): CoilBlock => {
    const winding = netlist.windings.find((each) => each.coil === coil);
    const bottomEnd = entered ?? nearGround ?? 'start';
    const topEnd = bottomEnd === 'start' ? 'finish' : 'start';
    const turns = quick.windings.get(coil)?.turns;
    const pole = quick.signs.find((each) => each.coil === coil)?.pole;
    return {
      id: `${slot.name}.${coil.name}`,
      name: `${coil.name} coil`,
      turns: turns === undefined ? 'turns unknown' : `${printCount(turns.value)} turns`,
      polarity: pole === undefined ? undefined : pole.sign > 0 ? 'north-up' : 'south-up',
      startAt: winding?.ends === 'stated' ? (bottomEnd === 'start' ? 'bottom' : 'top') : undefined,
      live: sounding.has(`${slot.name}.${coil.name}`),
      top: nodeOf(coil.name, winding?.[topEnd], `${coil.name}.${topEnd}`),
      bottom: nodeOf(coil.name, winding?.[bottomEnd], `${coil.name}.${bottomEnd}`),
    };
  });
}

function soundingIn({ instrument, quickOf }: Shop, position: Position | undefined): ReadonlySet<string> {
  const selection = position?.selection;
  if (selection === undefined) return new Set();
  const network = positionNetwork(instrument, selection, quickOf, AT_THE_METER);
  return new Set(soundingCoils(network, 0).map(({ placed }) => `${placed.slot.name}.${placed.segment.coil.name}`));
}

const unknownBlock = (slot: Slot): PickupBlock => ({
  slot: slot.name,
  resistance: '',
  unknown: `${slot.pickupName.value} is not known`,
  coils: [],
  nodes: new Map(),
});

const masters = ({ controls }: Instrument): readonly ControlPicture[] =>
  controls.filter(({ forSlot }) => forSlot === undefined).map(controlPicture);

function controlPicture(control: Control): ControlPicture {
  switch (control.kind) {
    case 'volume':
      return { kind: 'volume', track: `${ohms(control.track.si)} ${control.taper.replace('-', ' ')}` };
    case 'tone':
      return {
        kind: 'tone',
        track: `${ohms(control.track.si)} ${control.taper.replace('-', ' ')}`,
        capacitor: valueText(control.capacitor.si, 'capacitance'),
      };
    case 'bleed':
      return {
        kind: 'bleed',
        capacitor: valueText(control.capacitor.si, 'capacitance'),
        resistor: control.resistor && ohms(control.resistor.si),
        joined: control.joined,
      };
  }
}

const valueText = (value: number, dimension: Dimension): string => printValue({ value, dimension });
const ohms = (value: number): string => valueText(value, 'resistance');

function resistanceText({ resistance20COhm }: QuickEstimates): string {
  if (resistance20COhm === null) return 'open';
  if (resistance20COhm === undefined) return 'kΩ unknown';
  return printValue({ value: resistance20COhm.value, sd: resistance20COhm.sd, dimension: 'resistance' });
}

/** `VT violet`; several leads by their letters, and what they make: `GY + TQ link`. */
function netLabel(netlist: PickupNetlist, net: number): readonly Run[] {
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

function contactTitle(slot: Slot, netlist: PickupNetlist, { net, to, closedIn }: Contact): string {
  const what =
    net === netlist.hot
      ? 'hot'
      : netLabel(netlist, net)
          .map(({ text }) => text)
          .join('');
  return `${slot.name} ${what} to ${to === 'bus' ? 'the output' : 'ground'}: closed in position ${closedIn.join(', ')}`;
}

function factsOf({ analysed, pots }: Shop, position: Position): FactsPicture {
  const key = position.key.value;
  const title = position.title ?? (position.selection === undefined ? '' : selectionWords(position.selection));
  const estimates = analysed.positions(pots).find((each) => each.key === key);
  if (estimates === undefined) return { key, heading: `${key} · ${title}`, rows: [] };
  const { resistanceOhm, resonanceHz, humDb } = estimates;
  const verdict = positionVerdict(estimates, position.onPurpose !== undefined);
  const resistance =
    resistanceOhm === null
      ? 'open'
      : resistanceOhm === undefined
        ? 'unknown'
        : printQuantity({ value: resistanceOhm.value, sd: resistanceOhm.sd, dimension: 'resistance' });
  const hum = humDb && levelWords(humDb);
  return {
    key,
    heading: `${key} · ${title}`,
    rows: [
      { name: 'at the jack', value: resistance, number: true },
      ...(resonanceHz === undefined ? [] : [{ name: 'resonance', value: frequencyText(resonanceHz), number: true }]),
      { name: 'in words', value: verdict.sentences.map(({ text }) => text).join(' '), number: false },
      ...(hum === undefined
        ? []
        : [
            {
              name: 'hum, its strongest coil is 0',
              value: hum.orLower ? hum.number.replace(' or', '\u202FdB or') : `${hum.number}\u202FdB`,
              number: true,
            },
          ]),
    ],
  };
}

function potWords({ volume, tone }: PotSettings): string {
  const [v, t] = [printNumber(volume, 0), printNumber(tone, 0)];
  return v === t ? `pots at ${v}` : `volume ${v}, tone ${t}`;
}

function spoken({ facts, pickups }: Schematic): string {
  const live = pickups.flatMap(({ coils }) => coils.filter(({ live }) => live).map(({ id }) => id.replace('.', ' ')));
  const position = facts === undefined ? '' : `Position ${facts.heading.replace(' · ', ', ')}: `;
  const sounds =
    live.length === 0 ? 'nothing sounds' : `${live.join(' and ')} ${live.length === 1 ? 'sounds' : 'sound'}`;
  const numbers = (facts?.rows ?? []).map(({ name, value }) => `${name} ${value}`).join(', ');
  return `${position}${sounds}${numbers === '' ? '' : `; ${numbers}`}.`;
}
