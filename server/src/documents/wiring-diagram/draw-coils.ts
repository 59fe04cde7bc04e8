import { opposite, poleOf } from '../../model/coil.ts';
import { poleLetter } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';
import { closedTurns, coilBody, middleTurn, outermostTurn, spiral, stadium } from '../coil-spiral.ts';
import { part } from '../drawing-sheet.ts';
import { type Box, RANK, type Run } from '../labels.ts';
import { circle, d, path, rect, type SvgElement, type SvgNode } from '../svg.ts';
import { blade, flow, pole, woundArrow } from '../symbols.ts';
import { fitText, textWidth } from '../text-width.ts';
import type { PickupPicture } from './picture.ts';
import { type CoilPlace, finishOffset, type Layout, type Row } from './rows.ts';
import { blockLine, type Metrics, type Sheet } from './sheet.ts';

/** Baseplate, strings, and what lies on the plate: coils and, hidden beneath them, the magnet. */
export function drawCoils(picture: PickupPicture, layout: Layout, metrics: Metrics, sheet: Sheet): void {
  drawPlate(picture, layout, metrics, sheet);
  drawStrings(layout, sheet);
  for (const place of layout.places) drawCoil(place, layout, metrics, sheet);
  drawBar(picture, layout, sheet, metrics);
  layout.places.forEach((place, index) => {
    const above = layout.places[index - 1];
    if (!place.coil.beneath || above === undefined) return;
    const middle = (above.outline.centre + above.outline.outer + place.outline.centre - place.outline.outer) / 2;
    const x = (place.outline.left + place.outline.right) / 2;
    sheet.labels.push({
      wordings: [[{ text: sheet.t('{0}, beneath', place.coil.caption.name) }]],
      spots: [{ x, y: middle + 4, anchor: 'middle' }],
      rank: RANK.name,
    });
  });
}

function drawPlate(picture: PickupPicture, { plate, places }: Layout, metrics: Metrics, sheet: Sheet): void {
  const { plateLeft, plateRight } = metrics;
  const baseplate = picture.metal.find(({ kind }) => kind === 'baseplate');
  const width = plateRight - plateLeft;
  if (baseplate !== undefined) {
    const outline = rect('w2', plateLeft, plate.top, width, plate.bottom - plate.top, 10);
    sheet.nodes.push(part(baseplate.part, baseplate.description, outline));
    for (const y of [plate.top, plate.bottom]) blockLine(sheet, plateLeft, y, plateRight, y, 2);
  }
  const captions = picture.metal.filter(({ kind }) => kind !== 'shield').map(({ caption }) => caption);
  if (captions.length > 0) {
    // The shorter wording leaves room for a tap's wire.
    const wordings = [width - 40, width * 0.68].map((room) => plateWords(captions, room, sheet.t));
    sheet.labels.push({
      wordings: wordings.map((text) => [{ text, quiet: true }]),
      spots: [{ x: plateLeft + 12, y: plate.bottom - 10, anchor: 'start' }],
      rank: RANK.rest,
      mayDrop: !metrics.captions,
    });
  }
  const { toward } = picture;
  const turned = toward === undefined ? -1 : places.findIndex(({ coil }) => coil.id === toward.coil);
  if (toward === undefined || turned < 0) return;
  const y = turned < places.length / 2 ? plate.top - 8 : plate.bottom + 18;
  sheet.labels.push({
    wordings: [[{ text: sheet.t('toward {0}', sheet.t.word(toward.what)), quiet: true }]],
    // Beside the right end, or the left one where a finding's number lies at the right.
    spots: [
      { x: plateRight - 12, y, anchor: 'end' },
      { x: plateLeft + 12, y, anchor: 'start' },
    ],
    rank: RANK.rest,
  });
}

/** `baseplate, nickel silver · cover, brass`; where that is too long, one metal once, or the parts alone: what is cut says nothing. */
function plateWords(captions: readonly string[], room: number, t: Language): string {
  const parts = captions.map((caption) => caption.split(', '));
  const names = parts.map(([name = '']) => name);
  const metals = new Set(parts.map(([, ...metal]) => metal.join(', ')));
  const once = metals.size === 1 ? [[names.join(` ${t('and')} `), ...metals].join(', ')] : [];
  const wordings = [captions.join(' · '), ...once, names.join(' · ')];
  return (
    wordings.find((text) => textWidth(text, { size: 12 }) <= room) ?? fitText(names.join(' · '), room, { size: 12 })
  );
}

function drawStrings({ strings, plate }: Layout, sheet: Sheet): void {
  const [first] = strings;
  if (first === undefined) return;
  const lines = strings.map(({ x }) => d`M${x} ${plate.top - 12}V${plate.bottom + 12}`).join('');
  const title = strings.length === 1 ? sheet.t('One string') : sheet.t('{0} strings', String(strings.length));
  sheet.nodes.push(part('strings', title, path('hair', lines)));
  for (const { number, x } of strings) {
    sheet.labels.push(stringLabel(String(number), x, plate.top - 16, 'middle'));
  }
  sheet.labels.push(stringLabel(sheet.t('string'), first.x - 16, plate.top - 16, 'end'));
}

function stringLabel(text: string, x: number, y: number, anchor: 'middle' | 'end') {
  return {
    wordings: [[{ text, quiet: true }]],
    spots: [{ x, y, anchor }],
    rank: RANK.rest,
    mayDrop: true,
    rim: false,
  } as const;
}

function drawCoil(place: CoilPlace, layout: Layout, metrics: Metrics, sheet: Sheet): void {
  const { coil, outline, finishAt } = place;
  const startX = outline.right + 8;
  const finishX = outline.right + outermostTurn(outline) + 14;
  const finishRow = Math.abs(finishOffset(place, metrics));
  const winding =
    coil.wound === undefined
      ? closedTurns(outline, { finishAt, startX, finishX })
      : spiral(outline, {
          clockwise: coil.wound === 'clockwise',
          finishAt,
          startX,
          finishX,
          finishRow,
        });
  const nodes: SvgNode[] = [
    {
      name: 'path',
      attributes: { class: coil.beneath ? 'hid' : 'body', 'fill-rule': 'evenodd', d: coilBody(outline) },
      children: [],
    },
    ...drawPoles(place, metrics),
    path(coil.idle ? 'w1' : 'w2', winding.path),
  ];
  if (coil.wound !== undefined) {
    nodes.push(...woundArrow(outline.left, outline.centre, outline.outer + 8, coil.wound === 'clockwise'));
  }
  if (coil.pathTurns !== undefined && !coil.idle) {
    const clockwisePath = coil.pathTurns === 'clockwise';
    const quarter = Math.min(65, (outline.right - outline.left) / 4);
    for (const x of [outline.left + quarter, outline.right - quarter]) {
      nodes.push(flow(x, winding.marks.above, clockwisePath ? 'right' : 'left', metrics.flowScale));
      nodes.push(flow(x, winding.marks.below, clockwisePath ? 'left' : 'right', metrics.flowScale));
    }
  }
  for (const row of layout.rows) {
    if (row.kind !== 'tap' || row.place !== place) continue;
    nodes.push(...drawTapWire(row, place));
    blockLine(sheet, row.dotX, outline.centre, row.dotX, row.y, 2);
    blockLine(sheet, row.dotX, row.y, row.from, row.y, 2);
  }
  sheet.nodes.push(part(`coil:${coil.id}`, coil.description, ...nodes));
  if (coil.foil !== undefined) {
    const { left, right, centre, outer } = outline;
    const half = outer + FOIL_BEYOND;
    sheet.nodes.push(part(coil.foil.part, coil.foil.description, path('foil', stadium(left, right, centre, half))));
    for (const y of [centre - half, centre + half]) blockLine(sheet, left, y, right, y, 1);
  }
  sheet.obstacles.push(bodyBox(place));
}

/** Foil is drawn beyond the flange, where it can be seen. */
export const FOIL_BEYOND = 4;

function drawPoles(place: CoilPlace, { poleRadius }: Metrics): readonly SvgElement[] {
  const { coil, outline, firstPole, lastPole } = place;
  const { form, count, polarity } = coil.poles;
  const { centre } = outline;
  if (count <= 0) return [];
  if (form === 'blade') return blade(firstPole - poleRadius, lastPole + poleRadius, centre, poleRadius - 2, polarity);
  const xs = poleXs(place);
  const r = Math.min(poleRadius, ...xs.slice(1).map((x, index) => (x - (xs[index] ?? x)) / 2 - 1.5));
  return xs.flatMap((x) => pole(x, centre, r, polarity, form));
}

/** Evenly from the first to the last; with two to a string, one at each side of it. */
function poleXs({ coil, firstPole, lastPole, pairAside }: CoilPlace): readonly number[] {
  const { count } = coil.poles;
  if (count === 1) return [(firstPole + lastPole) / 2];
  if (pairAside === 0)
    return Array.from({ length: count }, (_, index) => firstPole + (index * (lastPole - firstPole)) / (count - 1));
  const step = (lastPole - firstPole - 2 * pairAside) / (count / 2 - 1);
  return Array.from({ length: count / 2 }, (_, index) => {
    const string = firstPole + pairAside + index * step;
    return [string - pairAside, string + pairAside];
  }).flat();
}

/** From a dot on the middle turn over the outer ones, out at the edge that the finish does not use. */
function drawTapWire(row: Row & { kind: 'tap' }, { coil, outline, finishAt }: CoilPlace): readonly SvgElement[] {
  const edge = opposite(finishAt);
  const from = middleTurn(outline, edge, coil.wound !== 'counterclockwise');
  const way = edge === 'bottom' ? 1 : -1;
  const stop = row.y - way * 8;
  return [
    path('halo', d`M${row.dotX} ${from + way * 4}V${stop}`),
    path('w2', d`M${row.dotX} ${from}V${stop}Q${row.dotX} ${row.y} ${row.dotX + 8} ${row.y}H${row.from + 2}`),
    circle('solid', row.dotX, from, 4),
  ];
}

/** A bar beneath, from one row of poles to the next; its outline is hidden, its sides are named. */
function drawBar({ bar }: PickupPicture, { places }: Layout, sheet: Sheet, metrics: Metrics): void {
  const [upper, lower] = places;
  if (bar === undefined || upper === undefined || lower === undefined) return;
  const left = Math.min(upper.firstPole, lower.firstPole) - (metrics.captions ? 45 : 22);
  const right = Math.max(upper.lastPole, lower.lastPole) + (metrics.captions ? 45 : 41);
  const top = upper.outline.centre + 16;
  const bottom = lower.outline.centre - 16;
  const letter = (place: CoilPlace) => poleLetter(poleOf(place.coil.id === bar.northToward ? 1 : -1));
  const outline = rect('hid', left, top, right - left, bottom - top);
  const [north, south] = letter(upper) === 'N' ? [upper, lower] : [lower, upper];
  const { t } = sheet;
  const title = t(
    'Bar magnet under the coils, north side toward the {0}, south side toward the {1}',
    north.coil.caption.name,
    south.coil.caption.name,
  );
  sheet.nodes.push(part('magnet', title, outline));
  const gapTop = upper.outline.centre + upper.outline.outer;
  const gapBottom = lower.outline.centre - lower.outline.outer;
  for (const [place, y] of [
    [upper, gapTop + 19],
    [lower, gapBottom - 10],
  ] as const) {
    const words = metrics.captions ? t(' side to the {0}', place.coil.caption.name) : t(' side');
    sheet.labels.push({
      wordings: [
        [
          { text: letter(place), bold: true },
          { text: fitText(words, right - left - 40, { size: 12 }), quiet: true },
        ],
      ],
      spots: [{ x: left + 8, y, anchor: 'start' }],
      rank: RANK.name,
    });
  }
  sheet.labels.push({
    wordings: barWordings(bar.caption, right - left - 16),
    spots: [{ x: (left + right) / 2, y: (gapTop + gapBottom) / 2 + 4, anchor: 'middle' }],
    rank: RANK.caption,
    mayDrop: true,
  });
}

/** The whole caption where it fits, else without what stands behind the comma. */
function barWordings(caption: string, width: number): readonly (readonly Run[])[] {
  const [short = ''] = caption.split(',');
  const fitting = [caption, short].filter((text) => textWidth(text, { size: 12 }) <= width);
  return [...fitting, fitText(short, width, { size: 12 })].map((text) => [{ text, quiet: true }]);
}

function bodyBox({ outline }: CoilPlace): Box {
  return {
    x: outline.left - outline.outer,
    y: outline.centre - outline.outer,
    width: outline.right - outline.left + 2 * outline.outer,
    height: 2 * outline.outer,
  };
}

/** Side view of a stack: both bobbins on the same poles. */
export function drawSideView(
  layout: Layout,
  x: number,
  y: number,
): { readonly nodes: readonly SvgElement[]; readonly height: number } {
  const count = Math.max(1, Math.min(8, layout.places.at(0)?.coil.poles.count ?? 1));
  const width = 132;
  const bobbins = [y + 10, y + 50].flatMap((top, index) => [
    rect('body', x + 5, top + 4, width - 10, 26),
    ...(layout.places[index]?.coil.foil === undefined ? [] : [rect('foil', x + 2, top + 7, width - 4, 20)]),
    rect('open', x, top, width, 4),
    rect('open', x, top + 30, width, 4),
  ]);
  const step = (width - 28) / Math.max(1, count - 1);
  const poles = Array.from({ length: count }, (_, index) =>
    rect('open', x + 11 + (count === 1 ? 52 : index * step), y, 6, 96),
  );
  return { nodes: [...bobbins, ...poles], height: 96 };
}
