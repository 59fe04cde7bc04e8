/** One state of a wired instrument as blocks: coils, parts and controls between the nets that they lie on, whatever a hookup says. */
import type { Control, Slot } from '../../model/instrument.ts';
import { looseNetlist, nodeName } from '../../model/netlist.ts';
import { jointOf } from '../../model/pickup.ts';
import type { NetsSelection } from '../../model/selection.ts';
import { isPlaced, leavesByWire } from '../../model/soldered.ts';
import { CONTROL_LUGS, GROUND_TERMINAL, HOT_TERMINAL, JACK_TERMINAL } from '../../model/wiring.ts';
import { printValue } from '../../quantities/print.ts';
import type { Language } from '../../words/languages/language.ts';
import { netLabel, pickupBlock, throughOwn, unknownBlock } from './coil-blocks.ts';
import { controlTexts, ownControls } from './control-pictures.ts';
import type { CoilBlock, Exit, PickupBlock } from './schematic-picture.ts';
import type { Shop } from './shop.ts';
import { EARTH, OUT } from './switching.ts';

export function solderedBlocks(nets: NetsSelection, shop: Shop, sounding: ReadonlySet<string>): readonly PickupBlock[] {
  const { instrument, t } = shop;
  const { slots, controls, wiring } = instrument;
  const out = nets.netOf(leavesByWire(instrument) ? JACK_TERMINAL : HOT_TERMINAL);
  const pointOf = (terminal: string) => {
    const net = nets.netOf(terminal);
    return net === GROUND_TERMINAL ? EARTH : net === out ? OUT : net;
  };
  const isLive = liveNets(nets);
  const parts = nets.components.map(({ kind, value, ends, isHeard }, index): PickupBlock => {
    const [top = '', bottom = ''] = ends.map(pointOf);
    const name = printValue({ value: value.si, dimension: value.dimension, style: t.numbers });
    return partBlock(t(kind), '', [{ id: `part ${index + 1}`, name, symbol: kind, live: isHeard, top, bottom }]);
  });
  const placed = controls.flatMap((control, index) => {
    const lugs = CONTROL_LUGS.map((lug) => pointOf(`${control.name}.${lug}`));
    // What hangs on hot by itself stands there, where the wiring goes on from hot.
    const onHot = [pointOf(HOT_TERMINAL), `wiper ${index}`, EARTH];
    if (isPlaced(control, wiring)) return [controlBlock(control, lugs, isLive, t)];
    return out !== HOT_TERMINAL && isMaster(control) ? [controlBlock(control, onHot, isLive, t)] : [];
  });
  return [...slots.map((slot) => solderedPickup(slot, pointOf, shop, sounding)), ...parts, ...placed];
}

const isMaster = ({ kind, forSlot }: Control): boolean => kind === 'tone' && forSlot === undefined;

/** Nets that signal comes to by coils and parts. */
function liveNets({ parts, components }: NetsSelection): (point: string) => boolean {
  const heard = [...parts, ...components.filter(({ isHeard }) => isHeard)].flatMap(({ ends }) => ends);
  const live = new Set([...heard, ...(heard.length > 0 ? [OUT] : [])]);
  return (point) => point !== EARTH && live.has(point);
}

function solderedPickup(
  slot: Slot,
  pointOf: (terminal: string) => string,
  shop: Shop,
  sounding: ReadonlySet<string>,
): PickupBlock {
  const { pickup, name } = slot;
  const { quickOf, t } = shop;
  if (pickup === undefined) return unknownBlock(slot, t);
  const loose = looseNetlist(pickup);
  const quick = quickOf(pickup);
  const netAt = new Map<string, number>();
  const nodeOf = (_coil: string, _net: number | undefined, end: string) => {
    const node = pointOf(`${name}.${end}`);
    const net = loose.nets.find(({ nodes }) => nodes.some((each) => nodeName(each) === end))?.index;
    if (net !== undefined && !netAt.has(node)) netAt.set(node, net);
    return node;
  };
  const pictureOf = (node: string, isLive: boolean) => {
    const net = netAt.get(node);
    return { label: net === undefined ? [] : netLabel(loose, net, t), exits: [exitOf(node, isLive)] };
  };
  const block = pickupBlock(slot, quick, sounding, nodeOf, pictureOf, t);
  const hot = jointOf(pickup, 'hot')?.leads[0]?.text;
  return hot === undefined
    ? block
    : throughOwn(block, ownControls(shop, slot, quick.netlist, sounding), pointOf(`${name}.${hot}`));
}

const exitOf = (node: string, live: boolean): Exit => ({
  to: node === OUT ? 'bus' : node === EARTH ? 'earth' : { rail: node },
  live,
});

type Piece = Pick<CoilBlock, 'id' | 'name' | 'symbol' | 'live' | 'top' | 'bottom'>;

function partBlock(slot: string, resistance: string, pieces: readonly Piece[]): PickupBlock {
  const coils = pieces.map((piece) => ({ ...piece, turns: '', polarity: undefined, startAt: undefined }));
  const isLive = (node: string) => coils.some(({ live, top, bottom }) => live && (top === node || bottom === node));
  const points = new Set(coils.flatMap(({ top, bottom }) => [top, bottom]));
  const nodes = new Map([...points].map((node) => [node, { label: [], exits: [exitOf(node, isLive(node))] }]));
  return { slot, resistance, isPart: true, coils, nodes };
}

/** Its track in two from lug to lug; of a tone the track as far as its wiper, then the capacitor. */
function controlBlock(
  control: Control,
  [input = '', wiper = '', low = '']: readonly string[],
  isLive: (point: string) => boolean,
  t: Language,
): PickupBlock {
  const { track, capacitor } = controlTexts(control, t);
  // What is live at one end and goes on at the other passes the wiper, though no coil may end there.
  const goesOn = (point: string) => point === EARTH || isLive(point);
  const isThrough = (isLive(input) || isLive(low)) && goesOn(input) && goesOn(low);
  const isReached = (point: string) => isLive(point) || (isThrough && point === wiper);
  const piece = (id: string, name: string, [top, bottom]: readonly [string, string], isCapacitor = false): Piece => ({
    ...{ id: `${control.name ?? control.kind}.${id}`, name, top, bottom },
    symbol: isCapacitor ? 'capacitor' : 'resistor',
    live: isReached(top) && (isReached(bottom) || bottom === EARTH),
  });
  const pieces = [
    piece('track', t('input to wiper'), [input, wiper]),
    capacitor === undefined
      ? piece('rest', t('wiper to low'), [wiper, low])
      : piece('rest', capacitor, [wiper, low], true),
  ];
  return partBlock(control.name ?? t(control.kind), track, pieces);
}
