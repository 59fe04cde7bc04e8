/** What a response plot shows of a sweep: its points, the strip of what the fit leaves, and its numbers in rows. */
import type { Language } from '../../words/languages/language.ts';
import { type Block, type Frame, type PlotWidth, paragraphs, part } from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { circle, d, path, type SvgNode } from '../svg.ts';
import { textWidth } from '../text-width.ts';
import type { Axes } from './axes.ts';
import { bandPath, curvePath } from './curve-shapes.ts';
import type { MeasuredPicture, NumbersPicture, PointsPicture, StripPicture } from './measured.ts';

/** One point in so many pixels: more of them would be a line. */
const POINTS_APART = 7;
const RADIUS = 2.5;

/** Points of now are rings, those of before diamonds. */
export function drawMeasuredPoints(
  { points, pointsBefore }: MeasuredPicture,
  axes: Axes,
  zeroDb: number,
  t: Language,
): readonly SvgNode[] {
  const drawn = ({ hz, levelDb }: PointsPicture, mark: (x: number, y: number) => SvgNode): readonly SvgNode[] => {
    let last = Number.NEGATIVE_INFINITY;
    return hz.flatMap((each, index) => {
      const [x, y] = [axes.x(each), axes.y((levelDb[index] ?? 0) - zeroDb)];
      if (y < axes.area.y || y > axes.bottom || x - last < POINTS_APART) return [];
      last = x;
      return [mark(x, y)];
    });
  };
  const count = ({ hz }: PointsPicture) => t('Measured points, {0} of them', String(hz.length));
  return [
    ...(pointsBefore
      ? [
          part(
            'sweep:points-before',
            count(pointsBefore),
            ...drawn(pointsBefore, (x, y) =>
              path('pt', d`M${x - DIAMOND} ${y}L${x} ${y - DIAMOND}L${x + DIAMOND} ${y}L${x} ${y + DIAMOND}Z`),
            ),
          ),
        ]
      : []),
    part('sweep:points', count(points), ...drawn(points, (x, y) => circle('pt', x, y, RADIUS))),
  ];
}

const DIAMOND = 3.2;
const STRIP_HEIGHT = 54;
const BETWEEN_STRIPS = 18;
/** Limits of a strip: the smallest that holds it. */
const LIMITS = { dB: [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20], '°': [0.2, 0.5, 1, 2, 5, 10, 20, 45, 90, 180] } as const;

interface Placed {
  readonly frame: Frame;
  readonly top: number;
  readonly size: PlotWidth;
  readonly t: Language;
}

/** Below the strings: the strip, what it says, and the numbers. */
export function measuredStrip(measured: MeasuredPicture, axes: Axes, { frame, top, size, t }: Placed): Block {
  const { strips, verdict, legend, numbers } = measured;
  const drawn = strips.reduce<Block>(
    ({ nodes, bottom }, strip) => {
      const next = drawStrip(strip, axes, bottom + BETWEEN_STRIPS);
      return { nodes: [...nodes, ...next.nodes], bottom: next.bottom };
    },
    { nodes: [], bottom: top - (strips.length > 0 ? BETWEEN_STRIPS : 8) },
  );
  const marked = strips.some(isBeyond) ? [t('Triangles at its edge: points beyond it.')] : [];
  const caption = paragraphs([[verdict, ...legend, ...marked].join(' ')], {
    x: frame.margin,
    y: drawn.bottom + 22,
    width: frame.right - frame.margin,
  });
  const rows = numbers
    ? numberRows(numbers, { frame, top: caption.bottom + 26, size, t })
    : { nodes: [], bottom: caption.bottom };
  return { nodes: [...drawn.nodes, ...caption.nodes, ...rows.nodes], bottom: rows.bottom };
}

/** A few points of the ends may lie beyond: what most of them need is shown. */
function limitOf({ off, unit, isChange }: StripPicture): number {
  const most = [...off].map(Math.abs).sort((a, b) => a - b)[Math.floor((isChange ? 0.999 : 0.95) * off.length)] ?? 0;
  return LIMITS[unit].find((each) => each > most) ?? LIMITS[unit].at(-1) ?? 0;
}

function isBeyond(strip: StripPicture): boolean {
  const limit = limitOf(strip);
  return strip.off.some((each) => Math.abs(each) > limit);
}

function drawStrip(picture: StripPicture, axes: Axes, top: number): Block {
  const { word, title, unit, hz, off, offSd, isChange } = picture;
  const limit = limitOf(picture);
  const strip: Axes = {
    ...axes,
    area: { ...axes.area, y: top, height: STRIP_HEIGHT },
    bottom: top + STRIP_HEIGHT,
    floorDb: -limit,
    topDb: limit,
    y: (each) => top + (STRIP_HEIGHT / 2) * (1 - each / limit),
  };
  // The doubt of a change lies about it; what a fit leaves is held against the doubt of its points about 0.
  const centre = (index: number) => (isChange ? (off[index] ?? 0) : 0);
  const edgeOf = (way: number) => offSd.map((sd, index) => centre(index) + way * 2 * sd);
  const edge = (at: number) =>
    wordsAt(`${at > 0 ? '+' : '−'}${limit}${unit === '°' ? unit : ''}`, axes.area.x - 10, strip.y(at) + 4, {
      anchor: 'end',
    });
  return {
    nodes: [
      part(
        isChange ? 'sweep:change' : unit === '°' ? 'sweep:phase' : 'sweep:rest',
        title,
        path('hair', d`M${axes.area.x} ${top}H${axes.right}M${axes.area.x} ${strip.bottom}H${axes.right}`),
        path('res', bandPath(strip, hz, edgeOf(-1), edgeOf(1))),
        path('w1', d`M${axes.area.x} ${strip.y(0)}H${axes.right}`),
        path('spark', curvePath(strip, hz, off)),
        ...beyond(strip, hz, off, limit),
      ),
      edge(limit),
      edge(-limit),
      wordsAt(word, axes.area.x - 10, strip.y(0) + 4, { anchor: 'end', quiet: true }),
    ],
    bottom: strip.bottom,
  };
}

/** What lies beyond the strip is marked at its edge, by a triangle that points out of it. */
function beyond(strip: Axes, hz: readonly number[], off: readonly number[], limit: number): readonly SvgNode[] {
  let last = Number.NEGATIVE_INFINITY;
  return hz.flatMap((each, index) => {
    const [x, value] = [strip.x(each), off[index] ?? 0];
    if (Math.abs(value) <= limit || x - last < POINTS_APART) return [];
    last = x;
    return [pointingOut(x, strip.y(Math.sign(value) * limit), value)];
  });
}

/** Its tip on the edge. */
function pointingOut(x: number, y: number, value: number): SvgNode {
  const base = y + Math.sign(value) * 2 * DIAMOND;
  return path('pt', d`M${x} ${y}L${x - DIAMOND} ${base}H${x + DIAMOND}Z`);
}

const ROW = 20;
/** Between two columns, or more where there is room. */
const GAP = 12;
const SIZE = 12;

/** Columns as wide as what stands in them; where the sheet is too narrow for that, each row's name stands above its numbers. */
function numberRows({ heads, rows, isChange }: NumbersPicture, { frame, top, size }: Placed): Block {
  const [what, beside, measured, apart] = heads;
  const head = [what, beside, measured, size === 'wide' || isChange || apart === '' ? apart : 'σ'];
  const width = frame.right - frame.margin;
  const isDotted = size === 'wide' && rows.some(([, , , , deviations]) => deviations !== undefined);
  const room = isDotted ? DOTS_FROM * width : width;
  const faces = head.map((_, column) => ({ quiet: column !== 2, bold: column !== 1 }));
  const needs = faces.map(({ bold }, column) =>
    Math.max(
      textWidth(head[column] ?? '', { size: SIZE, bold }),
      ...rows.map((row) => textWidth(String(row[column] ?? ''), { size: SIZE })),
    ),
  );
  const isNameAbove = needs.reduce((sum, need) => sum + need + (need > 0 ? GAP : 0), -GAP) > room;
  const columns = columnsOf(isNameAbove ? needs.with(0, 0) : needs, room);
  const line = (cells: readonly (string | number | undefined)[], y: number, isHead: boolean): readonly SvgNode[] =>
    cells.slice(0, 4).flatMap((text, column) => {
      if (text === '' || text === undefined) return [];
      const { quiet = true, bold = false } = faces[column] ?? {};
      const at = isNameAbove && column === 0 ? y - NAME_ABOVE : y;
      return [wordsAt(String(text), frame.margin + (columns[column] ?? 0), at, { quiet, bold: isHead && bold })];
    });
  const step = isNameAbove ? ROW + NAME_ABOVE : ROW;
  const first = isNameAbove ? top + NAME_ABOVE : top;
  const scale = { left: frame.margin + DOTS_FROM * width, right: frame.right };
  return {
    nodes: [
      ...line(head, first, true),
      path('hair', d`M${frame.margin} ${first + 6}H${frame.right}`),
      ...rows.flatMap((row, index) => {
        const y = first + step * (index + 1);
        const [, , , , deviations] = row;
        return [
          ...line(row, y, false),
          ...(isDotted && deviations !== undefined ? apartDot(deviations, scale, y - 4) : []),
        ];
      }),
    ],
    bottom: first + step * rows.length,
  };
}

/** A line of words. */
const NAME_ABOVE = 16;

/** Where they begin: what is left of the room lies between them, but not so much that a row falls apart. */
function columnsOf(needs: readonly number[], room: number): readonly number[] {
  const filled = needs.filter((need) => need > 0);
  const left = room - filled.reduce((sum, need) => sum + need, 0);
  const gap = Math.min(MOST_GAP, Math.max(GAP, left / Math.max(1, filled.length - 1)));
  let at = 0;
  return needs.map((need) => {
    const here = at;
    if (need > 0) at += need + gap;
    return here;
  });
}

const MOST_GAP = 60;

/** Where in the width the lines begin that show how far numbers are apart, and how many deviations they go either way. */
const DOTS_FROM = 0.82;
const MOST_APART = 4;

/** Measured less computed on a line of deviations, its middle marked; beyond its end a triangle stands there and points out. */
function apartDot(deviations: number, { left, right }: { left: number; right: number }, y: number): readonly SvgNode[] {
  const [middle, half] = [(left + right) / 2, (right - left) / 2 - DIAMOND];
  const way = Math.sign(deviations);
  const isFar = Math.abs(deviations) > MOST_APART;
  const x = middle + half * (isFar ? way : deviations / MOST_APART);
  const base = x - way * 2 * DIAMOND;
  return [
    path('w1', d`M${middle - half} ${y}H${middle + half}M${middle} ${y - 6}V${y + 6}`),
    isFar ? path('solid', d`M${x} ${y}L${base} ${y - DIAMOND}V${y + DIAMOND}Z`) : circle('solid', x, y, 3.5),
  ];
}
