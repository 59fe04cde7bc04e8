/** Curves and bands as path data, cut at the edges of the plot instead of being clipped, so that every viewer shows the same. */
import { area, curveLinear, line } from 'd3-shape';
import { type Box, boxAround, type Point } from '../labels.ts';
import type { Axes } from './axes.ts';

/** The visible pieces of a curve. */
export function curvePath(axes: Axes, frequencyHz: readonly number[], levelDb: readonly number[]): string {
  const shape = line<Point>(
    (point) => point.x,
    (point) => point.y,
  )
    .curve(curveLinear)
    .digits(1);
  return pieces(axes, pointsOf(axes, frequencyHz, levelDb))
    .map((piece) => shape(piece) ?? '')
    .join('');
}

/** The band between two limits; what lies beyond an edge runs along it. */
export function bandPath(
  axes: Axes,
  frequencyHz: readonly number[],
  lowDb: readonly number[],
  highDb: readonly number[],
): string {
  const bound = (y: number) => Math.min(Math.max(y, axes.area.y), axes.bottom);
  const shape = area<number>()
    .x((index) => axes.x(frequencyHz[index] ?? NaN))
    .y0((index) => bound(axes.y(lowDb[index] ?? 0)))
    .y1((index) => bound(axes.y(highDb[index] ?? 0)))
    .digits(1);
  const visible = frequencyHz.map((_, index) => index).filter((index) => axes.y(highDb[index] ?? 0) < axes.bottom + 1);
  // One point more than is visible, so that the band reaches the edge.
  const last = visible.at(-1);
  return shape(last === undefined || last + 1 >= frequencyHz.length ? visible : [...visible, last + 1]) ?? '';
}

/** Boxes that a curve fills, for the placing of labels. */
export function curveBoxes(
  axes: Axes,
  frequencyHz: readonly number[],
  levelDb: readonly number[],
  half = 4,
): readonly Box[] {
  return pieces(axes, pointsOf(axes, frequencyHz, levelDb)).flatMap((piece) => {
    const corners = thinned(piece);
    return corners.slice(1).map((point, index) => boxAround(corners[index] ?? point, point, half));
  });
}

/** Points at least some pixels apart: labels need no more, and there are many of them. */
function thinned(points: readonly Point[]): readonly Point[] {
  const kept: Point[] = [];
  points.forEach((point, index) => {
    const last = kept.at(-1);
    const far = last === undefined || point.x - last.x >= 6 || Math.abs(point.y - last.y) >= 6;
    if (far || index === points.length - 1) kept.push(point);
  });
  return kept;
}

function pointsOf(axes: Axes, frequencyHz: readonly number[], levelDb: readonly number[]): readonly Point[] {
  return frequencyHz.map((hz, index) => ({ x: axes.x(hz), y: axes.y(levelDb[index] ?? 0) }));
}

/** Cuts a curve where it leaves the plot at its top or bottom. */
function pieces(axes: Axes, points: readonly Point[]): readonly (readonly Point[])[] {
  const [top, bottom] = [axes.area.y, axes.bottom];
  const isInside = ({ y }: Point) => y >= top && y <= bottom;
  const all: Point[][] = [];
  let piece: Point[] = [];
  points.forEach((point, index) => {
    const before = points[index - 1];
    if (before !== undefined && isInside(before) !== isInside(point)) {
      const outside = isInside(point) ? before : point;
      const edge = outside.y < top ? top : bottom;
      const share = (edge - before.y) / (point.y - before.y);
      piece.push({ x: before.x + share * (point.x - before.x), y: edge });
    }
    if (isInside(point)) piece.push(point);
    else if (piece.length > 0) {
      all.push(piece);
      piece = [];
    }
  });
  return (piece.length > 0 ? [...all, piece] : all).filter(({ length }) => length > 1);
}
