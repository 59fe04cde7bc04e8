/** A selector position as a circuit: its pickups and coils joined as the position says, controls, cable and input. */
import type { Coil } from '../model/coil.ts';
import type { Control, Instrument, Selection, Slot } from '../model/instrument.ts';
import { looseNetlist, type PickupNetlist } from '../model/netlist.ts';
import { jointOf, type Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import { type NetsSelection, type PlacedPart, partsBetween, type SelectionPart } from '../model/selection.ts';
import { isPlaced, leavesByWire } from '../model/soldered.ts';
import { CONTROL_LUGS, GROUND_TERMINAL, HOT_TERMINAL, JACK_TERMINAL } from '../model/wiring.ts';
import { type Component, ground } from '../physics/circuit/circuit.ts';
import { capacitor, currentSource, resistor, wire } from '../physics/circuit/components.ts';
import { type Network, networkOf } from '../physics/circuit/network.ts';
import { potentiometer, rheostat, wiperFraction } from '../physics/circuit/potentiometer.ts';
import { DEFAULT_CABLE_F, DEFAULT_INPUT_OHM } from './common-practice.ts';
import { NO_SCALING, type Scaling, windingComponents } from './electric.ts';
import { pickupMagnetics } from './magnetics.ts';
import { type Segment, segmentsOf } from './pickup-circuit.ts';
import { pointName } from './pickup-sections.ts';
import type { QuickEstimates } from './quick.ts';

export interface Knobs {
  readonly volume: number;
  readonly tone: number;
}

type Blend = Extract<Control, { readonly kind: 'blend' }>;
const isBlend = (control: Control): control is Blend => control.kind === 'blend';

/** How an instrument is played: where its controls stand, and the cable. */
export interface Played {
  /** 0 to 10, of every control that is not set apart. */
  readonly volume: number;
  readonly tone: number;
  /** 0 to 10, of every blend: the first of its pickups alone, to the second alone; in the middle where nothing is said. */
  readonly blend?: number;
  /** Controls of single slots that stand elsewhere. */
  readonly apart?: Readonly<Record<string, Partial<Knobs>>>;
  /** Farad of cable instead of the instrument's own. */
  readonly cableF?: number | undefined;
}

export interface Setting extends Played {
  /** `bench`: a meter at the jack, nothing plugged in. `played`: with cable and input. */
  readonly plugged: boolean;
  /** Inductances and capacitances of the coils; without, the network holds at 0 Hz only. */
  readonly full: boolean;
  readonly scaling: Scaling;
  /** A source of current at the leads of each pickup and the ends of each coil, to ask what a change of its impedance does. */
  readonly probed?: boolean;
}

export const AT_THE_METER: Setting = { volume: 10, tone: 10, plugged: false, full: false, scaling: NO_SCALING };
export const AS_PLAYED: Setting = { volume: 10, tone: 10, plugged: true, full: true, scaling: NO_SCALING };

/** A coil, or a part of one, that stands in the position. */
export interface PlacedSegment {
  readonly segment: Segment;
  /** What the position takes it as. */
  readonly part: SelectionPart;
  readonly slot: Slot;
  readonly quick: QuickEstimates;
}

export interface PlacedMetal {
  readonly slot: Slot;
  readonly name: string;
  readonly node: string;
}

/** What a position takes, between its leads. */
export interface PlacedProbe {
  readonly part: SelectionPart;
  /** At the ends of one of its coils, where the part has several. */
  readonly coil?: Coil;
  readonly quick: QuickEstimates;
  /** Its own source of current, from ground to hot. */
  readonly source: string;
  readonly hot: string;
  readonly ground: string;
}

export interface PositionNetwork {
  readonly network: Network;
  readonly output: string;
  readonly segments: readonly PlacedSegment[];
  /** Of coils of unknown turns beside the others. */
  readonly loudness: number;
  readonly metal: readonly PlacedMetal[];
  /** Where the setting asks for them: of what sounds. */
  readonly probes: readonly PlacedProbe[];
  netOf(node: string): number | undefined;
}

export type QuickOf = (pickup: Pickup) => QuickEstimates;

export const JACK = 'jack';
const SELECTED = 'selected';

/** Where both pickups of a blend sound alike. */
export const BLEND_MIDDLE = 5;

export function positionNetwork(
  instrument: Instrument,
  selection: Selection,
  quickOf: QuickOf,
  setting: Setting,
): PositionNetwork {
  const controls = controlsIn(instrument, selection);
  const build: Build = {
    components: [],
    segments: [],
    windings: [],
    metal: [],
    probes: [],
    controls,
    quickOf,
    setting,
  };
  const masters = controls.filter(({ forSlot }) => forSlot === undefined);
  if (selection.kind === 'nets') solder(selection, masters, instrument, build);
  else {
    join(selection, build);
    addControls(masters, '', { from: SELECTED, to: JACK, low: ground }, setting, build);
  }
  const { cable, input } = instrument;
  if (setting.plugged) {
    const farad =
      setting.cableF ?? (cable ? cable.value.length.si * cable.value.capacitancePerLength.si : DEFAULT_CABLE_F);
    build.components.push(capacitor({ name: 'cable', from: JACK, to: ground, farad: farad * setting.scaling.cable }));
    build.components.push(
      resistor({ name: 'input', from: JACK, to: ground, ohm: input?.value.si ?? DEFAULT_INPUT_OHM }),
    );
  }
  const network = networkOf({ components: build.components });
  return {
    network,
    output: JACK,
    segments: build.segments,
    loudness: setting.scaling.loudness,
    metal: build.metal,
    probes: build.probes,
    netOf: (node) => network.nets.ofNode.get(node),
  };
}

/**
 * Those that are connected where the selector stands, but for those whose lugs the wiring names; a selection that no position makes has
 * all of them.
 */
function controlsIn({ controls, positions, wiring }: Instrument, selection: Selection): readonly Control[] {
  const key = positions.find((position) => position.selection === selection)?.key.value;
  return controls.filter(
    (control) =>
      !(selection.kind === 'nets' && isPlaced(control, wiring)) &&
      (key === undefined || !control.inPositions || control.inPositions.some(({ value }) => value === key)),
  );
}

interface Build {
  readonly components: Component[];
  readonly segments: PlacedSegment[];
  /** Of each pickup the parts of its windings that stand in the circuit, with what they have about them. */
  readonly windings: {
    readonly slot: Slot;
    readonly quick: QuickEstimates;
    readonly segments: Segment[];
    readonly screen: string | undefined;
  }[];
  readonly metal: PlacedMetal[];
  readonly probes: PlacedProbe[];
  readonly controls: readonly Control[];
  readonly quickOf: QuickOf;
  readonly setting: Setting;
}

/** Joins the parts of a selection between the selector and ground. */
function join(selection: Selection, build: Build): void {
  let joints = 0;
  const joint = () => {
    joints += 1;
    return `joint ${joints}`;
  };
  const placed = partsBetween(selection, SELECTED, ground, joint);
  placed.forEach((each, index) => {
    place(each, index, placed, build);
  });
  const { full, scaling } = build.setting;
  for (const { quick, segments, screen } of build.windings)
    build.components.push(
      ...windingComponents(segments, quick, full ? pickupMagnetics(quick) : undefined, scaling, screen).components,
    );
}

/** Where the signal of a part leaves it. */
const topOf = <P>({ high, low, turned }: PlacedPart<P>): P => (turned ? low : high);

/** One track cannot lie between two pickups that follow each other: its wiper is one point. */
const isLeftOut = <P>({ twoGang, other }: Blend, top: P, placed: readonly PlacedPart<P>[]): boolean =>
  !twoGang && placed.some((each) => each.part.slot.name === other.value && topOf(each) !== top);

/** Blends that stand in none of the circuit, though the position holds their pickups. */
export function blendsLeftOut(instrument: Instrument, selection: Selection): readonly Blend[] {
  let joints = 0;
  const placed = partsBetween(selection, 0, -1, () => ++joints);
  return controlsIn(instrument, selection)
    .filter(isBlend)
    .filter(
      (blend) =>
        blend.end === 'first' &&
        placed.some((each) => each.part.slot.name === blend.forSlot.value && isLeftOut(blend, topOf(each), placed)),
    );
}

/**
 * Puts one pickup, one of its coils, or a part of it, between two nodes, with the controls that serve it alone: they hang on the pair
 * of leads as it is turned, so that a reversed pickup is loaded and turned down as any other.
 */
function place(
  { part, high, low, turned }: PlacedPart<string>,
  index: number,
  placed: readonly PlacedPart<string>[],
  build: Build,
): void {
  const { pickup } = part.slot;
  if (!pickup) return;
  const quick = build.quickOf(pickup);
  const { netlist } = quick;
  const prefix = build.segments.some(({ slot }) => slot === part.slot)
    ? `${part.slot.name}'${index}.`
    : `${part.slot.name}.`;
  const nodeOf = (net: number) => `${prefix}net ${net}`;
  const tie = (net: number | undefined, node: string, name: string) => {
    if (net !== undefined) build.components.push(wire({ name: `${prefix}${name}`, from: nodeOf(net), to: node }));
  };
  const [top, bottom] = turned ? [low, high] : [high, low];
  const own = build.controls.filter(
    (control) => control.forSlot?.value === part.slot.name && !(isBlend(control) && isLeftOut(control, top, placed)),
  );
  const inner = own.length > 0 ? `${prefix}inner` : top;
  if (own.length > 0) addOwnControls(own, part.slot, prefix, { from: inner, to: top, low: bottom }, build);
  const [hotNode, groundNode] = turned ? [bottom, inner] : [inner, bottom];

  const hotNet = part.kind === 'tap' ? netlist.netOf(netlist.leads.get(part.lead)?.node ?? '') : netlist.hot;
  tie(hotNet, hotNode, 'hot');
  tie(netlist.ground, groundNode, 'ground');
  probe({ part, quick }, prefix, [hotNode, groundNode], build);
  if (netlist.chassis !== netlist.ground) tie(netlist.chassis, ground, 'shield');

  const alone = part.kind === 'coil' ? part.coil : undefined;
  const all = segmentsOf(netlist, nodeOf, prefix);
  const others = alone === undefined ? [] : netlist.windings.filter(({ coil }) => coil.name !== alone);
  const shorts = others.filter(
    ({ start, finish }) => start !== undefined && finish !== undefined && !spansOutput(start, finish, netlist),
  );
  for (const { coil, start, finish } of shorts) {
    if (start === undefined || finish === undefined) continue;
    const between = { name: `${prefix}${coil.name} bridged`, from: nodeOf(start), to: nodeOf(finish) };
    const through = part.kind === 'coil' ? part.throughOhm : undefined;
    build.components.push(through ? resistor({ ...between, ohm: through.value.si }) : wire(between));
  }
  const through = part.kind === 'coil' && part.throughOhm !== undefined;
  // A coil that stands elsewhere in the position by itself, or that a shorting wire silences, is one coil, not two.
  const kept = all.filter(({ coil }) => alone === undefined || coil.name === alone || through);
  // Coils of one pickup in several parts of a position are still side by side: they share their field and their metal.
  const beside = build.windings.find(
    ({ slot, segments }) => slot === part.slot && !segments.some(({ coil }) => kept.some((each) => each.coil === coil)),
  );
  if (beside) beside.segments.push(...kept);
  else {
    const screen = netlist.chassis === undefined ? undefined : nodeOf(netlist.chassis);
    build.windings.push({ slot: part.slot, quick, segments: [...kept], screen });
  }
  const leadF = build.setting.full ? pickupMagnetics(quick).leadF * build.setting.scaling.capacitance : 0;
  if (leadF > 0 && !beside)
    build.components.push(capacitor({ name: `${prefix}own cable`, from: hotNode, to: groundNode, farad: leadF }));
  for (const segment of kept) build.segments.push({ segment, part, slot: part.slot, quick });
  if (part.kind === 'pickup') probeCoils({ part, quick }, kept, prefix, build);
  placeMetal(part.slot, netlist, nodeOf, prefix, build);
}

function probe(
  of: Pick<PlacedProbe, 'part' | 'quick' | 'coil'>,
  prefix: string,
  [hot, low]: readonly [string, string],
  { components, probes, setting }: Build,
): void {
  if (!setting.probed) return;
  const source = `${prefix}probe`;
  components.push(currentSource({ name: source, from: low, to: hot }));
  probes.push({ ...of, source, hot, ground: low });
}

function probeCoils(
  of: Pick<PlacedProbe, 'part' | 'quick'>,
  segments: readonly Segment[],
  prefix: string,
  build: Build,
): void {
  for (const coil of new Set(segments.map((segment) => segment.coil))) {
    const own = segments.filter((segment) => segment.coil === coil);
    const [start, finish] = [own[0]?.start, own.at(-1)?.finish];
    if (start !== undefined && finish !== undefined)
      probe({ ...of, coil }, `${prefix}${coil.name} `, [finish, start], build);
  }
}

function placeMetal(
  slot: Slot,
  { metal }: PickupNetlist,
  nodeOf: (net: number) => string,
  prefix: string,
  build: Build,
): void {
  for (const { name, net } of metal)
    if (net >= 0) {
      build.components.push(wire({ name: `${prefix}${name}`, from: nodeOf(net), to: nodeOf(net) }));
      build.metal.push({ slot, name, node: nodeOf(net) });
    }
}

/** Controls that serve one pickup, between its lead and what that is joined to. */
function addOwnControls(
  own: readonly Control[],
  slot: Slot,
  prefix: string,
  { from, to, low }: ControlNodes,
  build: Build,
): void {
  const knobs = knobsFor(slot.name, build);
  const blends = own.filter(isBlend);
  const before = blends.length > 0 ? `${prefix}before blend` : to;
  addControls(own, prefix, { from, to: before, low }, knobs, build);
  addBlends(blends, prefix, { from: before, to, low }, build);
}

const knobsFor = (slot: string | undefined, { setting }: Build): Knobs => ({
  ...setting,
  ...(slot === undefined ? {} : setting.apart?.[slot]),
});

/** What is soldered: each pickup with all of its coils between the nets of the state, parts and controls where their lugs lie. */
function solder(nets: NetsSelection, masters: readonly Control[], instrument: Instrument, build: Build): void {
  const { controls, wiring } = instrument;
  const nodeOf = (terminal: string) => {
    const net = nets.netOf(terminal);
    return net === HOT_TERMINAL ? SELECTED : net === GROUND_TERMINAL ? ground : net;
  };
  for (const slot of nets.slots) solderPickup(slot, nets, nodeOf, build);
  nets.components.forEach(({ kind, value, ends }, index) => {
    const [from = '', to = ''] = ends.map(nodeOf);
    const name = `part ${index + 1}`;
    const { capacitors } = build.setting.scaling;
    build.components.push(
      kind === 'resistor'
        ? resistor({ name, from, to, ohm: value.si })
        : capacitor({ name, from, to, farad: value.si * capacitors }),
    );
  });
  for (const control of controls) if (isPlaced(control, wiring)) addPlaced(control, nodeOf, build);
  const hot = nodeOf(HOT_TERMINAL);
  const to = leavesByWire(instrument) ? hot : JACK;
  addControls(masters, '', { from: hot, to, low: ground }, build.setting, build);
  build.components.push(wire({ name: JACK, from: nodeOf(JACK_TERMINAL), to: JACK }));
}

/** Its own controls, where the wiring does not name their lugs, stand behind the lead that its hookup calls hot. */
function solderPickup(slot: Slot, nets: NetsSelection, nodeAt: (terminal: string) => string, build: Build): void {
  const { name, pickup } = slot;
  if (!pickup) return;
  const quick = build.quickOf(pickup);
  const loose = looseNetlist(pickup);
  const prefix = `${name}.`;
  const [hot, low] = (['hot', 'ground'] as const).map((kind) => {
    const path = jointOf(pickup, kind)?.leads[0];
    return path && loose.netAt(path);
  });
  // As it was swept only its two leads are known.
  const netlist = quick.coilsSweptWhole ? quick.netlist : loose;
  const [hotNet, groundNet] = quick.coilsSweptWhole ? [netlist.hot, netlist.ground] : [hot, low];
  const outer = (net: number) => {
    const at = !quick.coilsSweptWhole ? net : net === hotNet ? hot : net === groundNet ? low : undefined;
    return at === undefined ? `${prefix}net ${net}` : nodeAt(`${name}${pointName(at)}`);
  };
  const own = build.controls.filter((control) => control.forSlot?.value === name);
  const isServed = own.length > 0 && hotNet !== undefined && groundNet !== undefined;
  const nodeOf = (net: number) => (isServed && net === hotNet ? `${prefix}inner` : outer(net));
  if (isServed)
    addOwnControls(own, slot, prefix, { from: nodeOf(hotNet), to: outer(hotNet), low: outer(groundNet) }, build);
  const segments = segmentsOf(netlist, nodeOf, prefix);
  const magnetics = build.setting.full ? pickupMagnetics(quick) : undefined;
  const screenNet = netlist.metal.find(({ net }) => net >= 0)?.net ?? groundNet;
  const screen = screenNet === undefined ? undefined : nodeOf(screenNet);
  build.components.push(...windingComponents(segments, quick, magnetics, build.setting.scaling, screen).components);
  const leadF = (magnetics?.leadF ?? 0) * build.setting.scaling.capacitance;
  if (leadF > 0 && hotNet !== undefined && groundNet !== undefined)
    build.components.push(
      capacitor({ name: `${prefix}own cable`, from: nodeOf(hotNet), to: nodeOf(groundNet), farad: leadF }),
    );
  const partOf = new Map(nets.parts.flatMap(({ part, coil }) => (part.slot === slot ? [[coil, part] as const] : [])));
  for (const part of new Set(partOf.values())) {
    const alone = part.kind === 'coil' ? segments.filter(({ coil }) => coil.name === part.coil) : [];
    const [from, to] =
      part.kind === 'coil'
        ? [alone.at(-1)?.finish, alone[0]?.start]
        : [hotNet, groundNet].map((net) => (net === undefined ? undefined : nodeOf(net)));
    const named = part.kind === 'coil' ? `${prefix}${part.coil} ` : prefix;
    if (from !== undefined && to !== undefined) probe({ part, quick }, named, [from, to], build);
    const own = segments.filter(({ coil }) => partOf.get(coil.name) === part);
    if (part.kind === 'pickup') probeCoils({ part, quick }, own, prefix, build);
  }
  for (const segment of segments) {
    const part = partOf.get(segment.coil.name) ?? silentPart(slot, segment.coil.name, nets.place);
    partOf.set(segment.coil.name, part);
    build.segments.push({ segment, part, slot, quick });
  }
  placeMetal(slot, netlist, nodeOf, prefix, build);
}

const silentPart = (slot: Slot, coil: string, place: Place): SelectionPart => ({
  kind: 'coil',
  slot,
  coil,
  throughOhm: undefined,
  path: { parts: [slot.name, coil], text: `${slot.name}.${coil}`, place },
  place,
});

/** A control between the nets of its lugs: of a tone the track lies between input and wiper, the capacitor from there to low. */
function addPlaced(control: Control, nodeOf: (terminal: string) => string, build: Build): void {
  const { scaling } = build.setting;
  const name = `control ${control.name}`;
  const [input, wiper, low] = CONTROL_LUGS.map((lug) => nodeOf(`${control.name}.${lug}`)) as [string, string, string];
  const { volume, tone } = knobsFor(control.forSlot?.value, build);
  if (control.kind === 'volume') {
    const trackOhm = control.track.si * scaling.tracks;
    build.components.push(
      potentiometer({ name, high: input, wiper, low, trackOhm, taper: control.taper, rotation: volume }),
    );
  }
  if (control.kind === 'tone') addTone(control, name, { from: input, to: wiper, low }, tone, build);
}

/** Coils side by side across the output cannot be shorted by a split; they are left off instead. */
const spansOutput = (start: number, finish: number, { hot, ground: low }: QuickEstimates['netlist']) =>
  (start === hot && finish === low) || (start === low && finish === hot);

interface ControlNodes {
  readonly from: string;
  readonly to: string;
  /** The other side: a pot's third lug, a tone capacitor's far end. */
  readonly low: string;
}

/** Volume, tone and bleed between a point and what follows it; without a volume the two are one. */
function addControls(
  controls: readonly Control[],
  prefix: string,
  { from, to, low }: ControlNodes,
  { volume, tone }: Knobs,
  build: Build,
): void {
  const volumes = controls.filter((control) => control.kind === 'volume');
  let at = from;
  volumes.forEach((control, index) => {
    const next = index === volumes.length - 1 ? to : `${prefix}volume ${index + 1}`;
    build.components.push(
      potentiometer({
        name: `${prefix}volume${index || ''}`,
        ...(control.wiperToPickup ? { high: next, wiper: at } : { high: at, wiper: next }),
        low,
        trackOhm: control.track.si * build.setting.scaling.tracks,
        taper: control.taper,
        rotation: volume,
      }),
    );
    at = next;
  });
  if (volumes.length === 0) build.components.push(wire({ name: `${prefix}straight`, from, to }));
  controls.forEach((control, index) => {
    const name = `${prefix}${control.kind} ${index}`;
    if (control.kind === 'tone')
      addTone(control, name, { from: control.atWiper ? to : from, to: `${name} capacitor`, low }, tone, build);
    if (control.kind === 'bleed') addBleed(control, name, from, to, build);
  });
}

/** Its track, and the capacitor behind it. */
function addTone(
  { track, taper, capacitor: own, noLoad }: Extract<Control, { kind: 'tone' }>,
  name: string,
  { from, to: middle, low }: ControlNodes,
  rotation: number,
  { components, setting: { scaling } }: Build,
): void {
  if (noLoad && rotation >= FULL) return;
  components.push(
    rheostat({ name, from, to: middle, trackOhm: track.si * scaling.tracks, taper, rotation }),
    capacitor({ name: `${name} capacitor`, from: middle, to: low, farad: own.si * scaling.capacitors }),
  );
}

/** One pickup's halves of blends, one after the other. */
function addBlends(blends: readonly Blend[], prefix: string, { from, to, low }: ControlNodes, build: Build): void {
  const { blend: at = BLEND_MIDDLE, scaling } = build.setting;
  let before = from;
  blends.forEach(({ track, taper, twoGang, end }, index) => {
    const next = index === blends.length - 1 ? to : `${prefix}blend ${index + 1}`;
    const name = `${prefix}blend${index || ''}`;
    const trackOhm = track.si * scaling.tracks;
    if (twoGang) {
      // Whole up to the middle on its own side, then turned down over the other half.
      const rotation = 2 * (end === 'first' ? FULL - at : at);
      build.components.push(potentiometer({ name, high: next, wiper: before, low, trackOhm, taper, rotation }));
    } else {
      const second = wiperFraction(taper, at);
      const ohm = trackOhm * (end === 'first' ? second : 1 - second);
      build.components.push(resistor({ name, from: before, to: next, ohm }));
    }
    before = next;
  });
}

/** Where the track of a no-load control ends. */
const FULL = 10;

function addBleed(
  control: Extract<Control, { kind: 'bleed' }>,
  name: string,
  from: string,
  to: string,
  { components, setting: { scaling } }: Build,
): void {
  const { capacitor: farad, resistor: ohm, joined } = control;
  const seriesNode = ohm && joined === 'series' ? `${name} middle` : to;
  components.push(capacitor({ name, from, to: seriesNode, farad: farad.si * scaling.capacitors }));
  if (ohm)
    components.push(
      resistor({ name: `${name} resistor`, from: joined === 'series' ? seriesNode : from, to, ohm: ohm.si }),
    );
}
