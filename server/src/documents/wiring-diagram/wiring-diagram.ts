import { polesShort } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';
import { type Block, type DrawingWidth, drawing, FRAMES, part, rule, sheetHead } from '../drawing-sheet.ts';
import { drawLabel, type PlacedLabel, placeLabels, textLine, wordsAt } from '../labels.ts';
import { d, path, type SvgNode } from '../svg.ts';
import { flow, pole } from '../symbols.ts';
import { fitText, wrapText } from '../text-width.ts';
import { drawCoils, drawSideView } from './draw-coils.ts';
import { drawLeads } from './draw-leads.ts';
import { drawResistances } from './draw-resistances.ts';
import { drawRings, findingsHead } from './findings.ts';
import type { PickupPicture } from './picture.ts';
import { type CoilPlace, type Layout, layOut } from './rows.ts';
import { METRICS, type Metrics, type Sheet } from './sheet.ts';
import { drawVerdict } from './verdict.ts';

export interface WiringDiagram {
  readonly svg: string;
  readonly width: number;
  readonly height: number;
  /** Labels that found no free place; empty in every drawing that is fit to be shown. */
  readonly overlapping: readonly PlacedLabel[];
}

/**
 * The wiring of one pickup: what is soldered to what, which way the path runs, why it sounds so. The same picture gives the same
 * bytes. `wide` is laid out for 960 px, `narrow` for 488, `tight` for 424.
 */
export function drawPickup(picture: PickupPicture, size: DrawingWidth): WiringDiagram {
  const metrics = METRICS[size];
  const { t } = picture;
  const sheet: Sheet = { t, lettersOnly: size === 'tight', nodes: [], labels: [], obstacles: [] };
  const head = sheetHead(picture, FRAMES[size], size === 'tight' ? 2 : 1);
  const headEnd = head.bottom + 6;
  const findings = findingsHead(picture.findings, headEnd + (picture.findings.length > 0 ? 30 : 24), metrics);
  const narrowCaption = metrics.captions ? undefined : narrowCaptions(picture, findings.bottom + 20, metrics);
  const top = (narrowCaption?.bottom ?? findings.bottom) + (layoutHasStrings(picture) ? 38 : 20);
  const layout = layOut(picture, metrics, top);

  drawCoils(picture, layout, metrics, sheet);
  const { places, rails } = drawLeads(picture, layout, metrics, sheet);
  const topRow = layout.rows.at(0)?.y ?? top;
  drawRings(picture.findings, findings, { places, topRow }, metrics, sheet);
  drawResistances(picture, layout, rails, metrics, sheet);
  if (metrics.captions) for (const place of layout.places) drawCaptions(place, metrics, sheet);

  const stack = picture.coils.some(({ beneath }) => beneath);
  const drawn = lowest(layout, sheet) + 16;
  const side = stack
    ? drawSideView(layout, metrics.captions ? metrics.plateLeft : metrics.margin, drawn + 14)
    : undefined;
  const keyTop = drawn + (side === undefined ? 0 : side.height + 30);
  const key = drawKey(picture, keyTop, metrics);
  const verdict = picture.verdict === undefined ? undefined : drawVerdict(picture.verdict, key.bottom + 40, metrics, t);
  const height = Math.ceil((verdict?.bottom ?? key.bottom) + 24);

  const area = { x: 2, y: headEnd, width: metrics.width - 4, height: key.bottom - headEnd };
  const { placed, overlapping } = placeLabels(sheet.labels, sheet.obstacles, area);
  const nodes: SvgNode[] = [
    ...head.nodes,
    rule(FRAMES[size], headEnd),
    ...findings.nodes,
    ...(narrowCaption?.nodes ?? []),
    ...sheet.nodes,
    ...placed.map(drawLabel),
    ...(side === undefined
      ? []
      : [
          part('side view', t('Side view: both coils on the same poles'), ...side.nodes),
          ...sideWords(layout, drawn + 14, metrics, t),
        ]),
    ...key.nodes,
    ...(verdict === undefined ? [] : [rule(FRAMES[size], key.bottom + 12), ...verdict.nodes]),
  ];
  return {
    svg: drawing(picture, size, height, nodes, ''),
    width: metrics.width,
    height,
    overlapping,
  };
}

function drawCaptions(place: CoilPlace, metrics: Metrics, sheet: Sheet): void {
  const { coil, outline } = place;
  const width = metrics.plateLeft - metrics.margin - 4;
  let y = outline.centre - outline.outer + 10;
  const lines: SvgNode[] = [];
  for (const { text, weight } of coil.captions) {
    const size = weight === 'heading' || weight === 'number' ? 14 : 12;
    const shown = fitText(text, width, { size, bold: size === 14 });
    lines.push(wordsAt(shown, metrics.margin, y, { quiet: weight === 'quiet', size }));
    y += 18;
  }
  const { polarity, count } = coil.poles;
  if (count > 0) {
    const words = polesShort(polarity, sheet.t);
    lines.push(
      wordsAt(words, metrics.margin, y),
      ...pole(metrics.margin + 77 + (polarity === undefined ? 16 : 0), y - 4, 7, polarity),
    );
  }
  sheet.nodes.push(part(`coil:${coil.id}`, coil.description, ...lines));
  sheet.obstacles.push({
    x: metrics.margin,
    y: outline.centre - outline.outer,
    width,
    height: y + 6 - outline.centre + outline.outer,
  });
}

/** The captions in one line each: the hot coil's above the drawing, the others' below each other there too. */
function narrowCaptions(picture: PickupPicture, top: number, metrics: Metrics): Block {
  const width = metrics.width - 2 * metrics.margin;
  const nodes: SvgNode[] = [];
  let y = top;
  for (const coil of [...picture.coils].reverse()) {
    const { name, rest } = coil.caption;
    const lines = wrapText(`${name} ${rest}`, width, { size: 12, bold: true });
    const texts = lines.map((line, index) => {
      const at = { x: metrics.margin, y: y + index * 16, anchor: 'start' } as const;
      const runs =
        index === 0 && line.startsWith(name)
          ? [{ text: name, bold: true }, { text: line.slice(name.length) }]
          : [{ text: line }];
      return textLine(runs, at);
    });
    nodes.push(part(`coil:${coil.id}`, coil.description, ...texts));
    y += lines.length * 16 + 4;
  }
  return { nodes, bottom: y - 12 };
}

function drawKey(picture: PickupPicture, top: number, metrics: Metrics): Block {
  if (!metrics.captions) return { nodes: [], bottom: top };
  const y = top + 12;
  const x = metrics.margin;
  const { t } = picture;
  const wound = picture.coils.some((coil) => coil.wound !== undefined);
  const quiet = (text: string, at: number) => wordsAt(text, at, y + 4, { quiet: true });
  const nodes: SvgNode[] = [flow(x + 8, y, 'right'), quiet(t('the path from ground to hot'), x + 22)];
  if (wound) {
    nodes.push(path('w2', d`M${x + 190} ${y + 5}q8 -10 22 -10M${x + 206} ${y - 10}l7 5l-7 5`));
    nodes.push(quiet(t('the way a coil was wound, from start (inner end) to finish (outer end)'), x + 222));
  }
  nodes.push(...pole(x + 634, y, 7, 'north-up'), quiet(t('field toward you'), x + 646));
  nodes.push(...pole(x + 756, y, 7, 'south-up'), quiet(t('field away from you'), x + 768));
  return { nodes: [part('key', t('Key'), ...nodes)], bottom: y + 14 };
}

function sideWords(layout: Layout, top: number, metrics: Metrics, t: Language): readonly SvgNode[] {
  const x = (metrics.captions ? metrics.plateLeft : metrics.margin) + 150;
  const [upper, lower] = layout.places;
  return [
    wordsAt(t('side view'), x, top + 8, { quiet: true }),
    ...(upper === undefined ? [] : [wordsAt(upper.coil.caption.name, x, top + 31)]),
    ...(lower === undefined ? [] : [wordsAt(lower.coil.caption.name, x, top + 71)]),
  ];
}

function lowest(layout: Layout, sheet: Sheet): number {
  const metal = layout.metalRow === undefined ? 0 : layout.metalRow + 28;
  const lines = Math.max(...sheet.obstacles.map((box) => box.y + box.height));
  return Math.max(layout.plate.bottom + 12, metal, lines, (layout.rows.at(-1)?.y ?? 0) + 24);
}

function layoutHasStrings(picture: PickupPicture): boolean {
  return picture.strings !== undefined || picture.coils.some(({ poles }) => poles.count > 0);
}
