import { leadColour } from '../../../../grammar/values/lead-name.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import { type Coil, poleOf } from '../../model/coil.ts';
import type { Slot } from '../../model/instrument.ts';
import type { PickupNetlist, Winding } from '../../model/netlist.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printValue } from '../../quantities/print.ts';
import type { Language } from '../../words/languages/language.ts';
import { turnsText } from '../../words/turns-words.ts';
import { colourWords } from '../colour-words.ts';
import type { Run } from '../labels.ts';
import { coilPath } from '../wiring-diagram/coil-path.ts';
import type { ownControls } from './control-pictures.ts';
import type { CoilBlock, Exit, NodePicture, PickupBlock } from './schematic-picture.ts';
import { partId } from './shop.ts';

/** A pickup with its coils and the points where they end: what each point is called and where it goes from there. */
export function pickupBlock(
  slot: Slot,
  quick: QuickEstimates,
  sounding: ReadonlySet<string>,
  nodeOf: (coil: string, net: number | undefined, end: string) => string,
  /** `isLive`: a coil that sounds ends there. */
  pictureOf: (node: string, isLive: boolean) => NodePicture,
  t: Language,
): PickupBlock {
  const coils = coilBlocks(slot, quick, sounding, nodeOf, t);
  const points = new Set(coils.flatMap(({ top, bottom }) => [top, bottom]));
  const isLive = (node: string) => coils.some(({ live, top, bottom }) => live && (top === node || bottom === node));
  const nodes = new Map([...points].map((node) => [node, pictureOf(node, isLive(node))]));
  return { slot: slot.name, resistance: resistanceText(quick, t), coils, nodes };
}

/** One point feeds the pickup's own controls; the exits, its own unless others are given, leave their end. */
export function throughOwn(
  block: PickupBlock,
  own: ReturnType<typeof ownControls>,
  from: string,
  exits?: readonly Exit[],
): PickupBlock {
  const node = block.nodes.get(from);
  if (own === undefined || node === undefined) return block;
  const to = `${from} after`;
  const nodes = new Map(block.nodes)
    .set(from, { label: node.label, exits: [] })
    .set(to, { label: [], exits: exits ?? node.exits });
  return { ...block, nodes, own: { ...own, from, to } };
}

/** The coils of a pickup, topmost first; a tapped coil in its parts, so that its taps are points that a contact can take. */
function coilBlocks(
  slot: Slot,
  quick: QuickEstimates,
  sounding: ReadonlySet<string>,
  nodeOf: (coil: string, net: number | undefined, end: string) => string,
  t: Language,
): readonly CoilBlock[] {
  const { netlist } = quick;
  return [...coilPath(netlist, quick.signs)].reverse().flatMap(({ coil, entered, nearGround }) => {
    const winding = netlist.windings.find((each) => each.coil === coil);
    const bottomEnd = entered ?? nearGround ?? 'start';
    const pole = quick.signs.find((each) => each.coil === coil)?.pole;
    const parts = partsOfCoil(quick.windings.get(coil)?.turns, winding, coil, t);
    const blocks = parts.map(({ id, turns, inner, outer }, index): CoilBlock => {
      const ends = [inner, outer].map(({ net, end }) => nodeOf(coil.name, net, `${coil.name}.${end}`));
      const [top = '', bottom = ''] = bottomEnd === 'start' ? ends.toReversed() : ends;
      return {
        id: `${slot.name}.${id}`,
        name: t('{0} coil', coil.name),
        turns,
        polarity: pole && poleOf(pole.sign),
        startAt: winding?.ends === 'stated' && index === 0 ? (bottomEnd === 'start' ? 'bottom' : 'top') : undefined,
        live: sounding.has(`${slot.name}.${id}`),
        top,
        bottom,
      };
    });
    return bottomEnd === 'start' ? blocks.toReversed() : blocks;
  });
}

interface CoilEndPoint {
  readonly net: number | undefined;
  readonly end: string;
}

interface CoilPart {
  /** The coil's name; of the parts of a tapped one, with the turn that each begins at. */
  readonly id: string;
  readonly turns: string;
  readonly inner: CoilEndPoint;
  readonly outer: CoilEndPoint;
}

/** From start to finish. */
function partsOfCoil(
  turns: Counted | undefined,
  winding: Winding | undefined,
  { name }: Coil,
  t: Language,
): readonly CoilPart[] {
  const [start, finish] = [
    { net: winding?.start, end: 'start' },
    { net: winding?.finish, end: 'finish' },
  ];
  const taps = [...(winding?.taps ?? [])].sort((a, b) => a.turns - b.turns);
  if (taps.length === 0) return [{ id: name, turns: countedText(turns, t), inner: start, outer: finish }];
  const stops = [
    { turns: { value: 0, sd: 0 }, point: start },
    ...taps.map((tap) => ({ turns: { value: tap.turns, sd: 0 }, point: { net: tap.net, end: tap.lead } })),
    { turns, point: finish },
  ];
  return stops.slice(1).flatMap((stop, index) => {
    const from = stops[index];
    if (from?.turns === undefined) return [];
    const own = stop.turns && { ...stop.turns, value: stop.turns.value - from.turns.value };
    return [
      {
        id: partId(name, from.turns.value),
        turns: countedText(own, t),
        inner: from.point,
        outer: stop.point,
      },
    ];
  });
}

type Counted = Pick<Estimate, 'value' | 'sd'>;

const countedText = (turns: Counted | undefined, t: Language): string =>
  turns === undefined ? t('turns unknown') : turnsText(turns, t);

export const unknownBlock = (slot: Slot, t: Language): PickupBlock => ({
  slot: slot.name,
  resistance: '',
  unknown: t('{0} is not known', slot.pickupName.value),
  coils: [],
  nodes: new Map(),
});

function resistanceText({ resistance20COhm }: QuickEstimates, t: Language): string {
  if (!resistance20COhm) return t(resistance20COhm === null ? 'open' : 'kΩ unknown');
  return printValue({ ...resistance20COhm, dimension: 'resistance', style: t.numbers });
}

/** `VT violet`; several leads by their letters, and what they make: `GY + TQ link`. */
export function netLabel(netlist: PickupNetlist, net: number, t: Language): readonly Run[] {
  const leads = (netlist.nets[net]?.nodes ?? []).flatMap((node) =>
    node.startsWith('lead:') ? [node.slice('lead:'.length)] : [],
  );
  const colours = leads.map((lead) => ({ lead, colour: leadColour(lead) }));
  const link = net !== netlist.hot && net !== netlist.ground;
  const [only] = colours;
  if (only !== undefined && colours.length === 1) {
    return [
      { text: only.colour?.code ?? only.lead, bold: true },
      { text: only.colour === undefined ? '' : ` ${colourWords(only.colour, t)}` },
    ];
  }
  const letters = colours.map(({ lead, colour }) => colour?.code ?? lead).join(' + ');
  if (letters === '') return link ? [{ text: t('link') }] : [];
  return [{ text: letters, bold: true }, { text: link ? ` ${t('link')}` : '' }];
}
