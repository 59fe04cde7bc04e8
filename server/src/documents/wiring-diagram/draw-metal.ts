import { part } from '../drawing-sheet.ts';
import { type Point, RANK } from '../labels.ts';
import { d, path, type SvgNode } from '../svg.ts';
import { earth, joint, lead } from '../symbols.ts';
import { FOIL_BEYOND } from './draw-coils.ts';
import type { LeadContext } from './lead-context.ts';
import { leadWordings } from './lead-labels.ts';
import type { MetalPicture, PickupPicture } from './picture.ts';
import type { Layout } from './rows.ts';
import { blockLine, type Metrics, type Sheet } from './sheet.ts';

/** The lowest row: drain wire or braid and the metalwork on it, up to the net they belong to. */
export function drawMetal({ picture, layout, rails, metrics, sheet, over }: LeadContext): ReadonlyMap<string, Point> {
  const places = new Map<string, Point>();
  const onPlate = { x: metrics.plateRight - 24, y: layout.plate.bottom - 20 };
  for (const metal of picture.metal) places.set(metal.part, onPlate);
  for (const { coil, outline } of layout.places)
    if (coil.foil) places.set(coil.foil.part, { x: outline.left, y: outline.centre - outline.outer - FOIL_BEYOND });
  const { metalRow } = layout;
  if (metalRow === undefined) return places;
  const carrier =
    picture.metal.find(({ lead: wire }) => wire !== undefined) ?? picture.metal.find(({ net }) => net !== undefined);
  if (carrier === undefined) return places;
  const tied = picture.metal.filter(
    (metal) => metal === carrier || metal.net === carrier.net || metal.tiedTo === carrier.kind,
  );
  const fromPlate = tied.some(({ kind }) => kind === 'baseplate' || kind === 'cover');
  const from = fromPlate ? metrics.plateRight - 24 : metrics.joints;
  const rail = carrier.net === undefined ? undefined : rails.get(carrier.net);
  const ground = rail?.net.kind === 'ground';
  const upTo = ground ? rail?.terminal?.y : rail?.rows.at(-1)?.y;
  const loose = carrier.net === undefined;
  const column =
    loose || (rail !== undefined && !ground)
      ? (rail?.column ?? metrics.terminals) - metrics.railStep - (rail === undefined ? 0 : 20)
      : metrics.terminals;
  const route = d`M${from} ${metalRow}H${column}${upTo === undefined ? '' : d`V${upTo}`}`;
  const wire = carrier.lead ?? { part: carrier.part, name: '', look: {}, description: carrier.description };
  sheet.nodes.push(part(wire.part, wire.description, ...lead(route, wire.look)));
  blockLine(sheet, from, metalRow, column, metalRow, 5);
  if (upTo !== undefined) blockLine(sheet, column, upTo, column, metalRow, 5);
  if (fromPlate) over.push(joint(from, metalRow));
  if (!ground && upTo !== undefined) over.push(joint(column, upTo));
  if (loose) over.push(path('w3', d`M${column} ${metalRow - 8}V${metalRow + 8}`));
  if (ground || carrier.net === 'ground by itself') over.push(earth(metrics.terminals, metalRow));
  for (const metal of tied) places.set(metal.part, { x: metal.kind === 'shield' ? metrics.joints : from, y: metalRow });
  if (wire.name !== '') {
    sheet.labels.push({
      wordings: leadWordings(wire),
      spots: [
        { x: metrics.ownLabel, y: metalRow + 18, anchor: 'start' },
        { x: metrics.ownLabel, y: metalRow - 9, anchor: 'start' },
      ],
      rank: RANK.letters,
    });
  }
  labelMetal(tied, carrier, { x: column, y: metalRow }, metrics, sheet);
  return places;
}

function labelMetal(
  tied: readonly MetalPicture[],
  carrier: MetalPicture,
  { x, y }: Point,
  metrics: Metrics,
  sheet: Sheet,
): void {
  const { t } = sheet;
  const words = tied.map(({ kind }) => t(kind));
  const lines =
    carrier.net === 'ground by itself'
      ? [...words, t('by itself')]
      : carrier.net === undefined
        ? [t('joined to'), t('nothing')]
        : words;
  lines.forEach((text, index) => {
    sheet.labels.push({
      wordings: [[{ text, quiet: true }]],
      spots: [
        { x: x + metrics.terminalLabel - metrics.terminals + 2, y: y + 4 + index * 14, anchor: 'start' },
        { x: metrics.terminals - 18, y: y + 18 + index * 14, anchor: 'end' },
      ],
      rank: RANK.rest,
      mayDrop: true,
      rim: false,
    });
  });
}

/** The braid round the conductors: a hidden outline. */
export function drawCableShield(picture: PickupPicture, layout: Layout, metrics: Metrics, sheet: Sheet): void {
  const rows = layout.rows.filter(
    (row) => row.kind === 'loose' || (row.kind === 'end' && row.end.conductor !== undefined),
  );
  const [first, last] = [rows.at(0), rows.at(-1)];
  if (!picture.cableShield || !metrics.captions || first === undefined || last === undefined) return;
  const [top, bottom] = [first.y - 34, last.y + 34];
  const { cableShield: x } = metrics;
  const oval: SvgNode = {
    name: 'ellipse',
    attributes: { class: 'hid', cx: x, cy: (top + bottom) / 2, rx: 17, ry: (bottom - top) / 2 },
    children: [],
  };
  const down =
    layout.metalRow === undefined || layout.metalRow <= bottom
      ? []
      : [path('w1', d`M${x} ${bottom}V${layout.metalRow}`)];
  sheet.nodes.push(part('cable shield', sheet.t('Cable shield around the conductors'), oval, ...down));
  sheet.labels.push({
    wordings: [[{ text: sheet.t('cable shield'), quiet: true }]],
    spots: [{ x, y: top - 8, anchor: 'middle' }],
    rank: RANK.rest,
    mayDrop: true,
  });
}
