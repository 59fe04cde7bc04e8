/** What a shop's file declares on one sheet: bobbins and magnets to one scale, wire, spools and the bench in words. */

import type { OwnPart } from '../analysis/own-parts.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { Magnet } from '../model/magnet.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { type DrawingWidth, drawing, type FactTable, FRAMES, paragraphs, part, sheetHead } from './drawing-sheet.ts';
import { textLine, wordsAt } from './labels.ts';
import { plotCss } from './plot-style.ts';
import { circle, d, path, rect, type SvgElement, type SvgNode } from './svg.ts';

export interface PartsPicture {
  readonly t?: Language;
  readonly id: string;
  readonly title: string;
  readonly parts: readonly OwnPart[];
}

/** The name by which a part's line is found. */
export const partId = ({ of, name }: OwnPart): string => `${of.kind}:${name}`;
export const partWords = ({ of, name }: OwnPart, t = ENGLISH): string =>
  of.kind === 'bench' ? t('bench') : `${t(of.kind)} ${name}`;

const GAP = 32;
const COLUMNS: Readonly<Record<DrawingWidth, number>> = { wide: 2, narrow: 1, tight: 1 };
/** Pixels a millimetre, unless something is too long for its column. */
const SCALE = 4;
/** Between the view from above and the section beside it. */
const BESIDE = 20;

export function partsSheet(picture: PartsPicture, size: DrawingWidth): string {
  const { t = ENGLISH } = picture;
  const frame = FRAMES[size];
  const columns = COLUMNS[size];
  const width = (frame.right - frame.margin - GAP * (columns - 1)) / columns;
  const shapes = new Map(picture.parts.map((each) => [each, shapeOf(each)]));
  const longest = Math.max(0, ...[...shapes.values()].map((shape) => (shape ? shape.lengthMm + shape.besideMm : 0)));
  const scale = longest === 0 ? SCALE : Math.min(SCALE, (width - BESIDE - 2) / longest);
  const isDrawn = [...shapes.values()].some((shape) => shape !== undefined);
  const head = sheetHead(
    {
      title: picture.title,
      subtitle: isDrawn
        ? t('Drawn to one scale: from above, and beside it across; the windings’ windows are tinted.')
        : '',
    },
    frame,
  );
  const ruler = isDrawn ? drawRuler(frame.right, head.bottom - 8, scale) : [];
  const nodes: SvgNode[] = [];
  let y = head.bottom + 24;
  for (let at = 0; at < picture.parts.length; at += columns) {
    const row = picture.parts.slice(at, at + columns).map((each, column) => {
      const x = frame.margin + column * (width + GAP);
      return drawCell(each, shapes.get(each), { x, y, width, scale, t });
    });
    nodes.push(...row.map(({ node }) => node));
    y = Math.max(...row.map(({ bottom }) => bottom)) + 30;
  }
  const words = partsTable(picture);
  return drawing(
    {
      t,
      id: picture.id,
      name: t('Parts of {0}', picture.title),
      description: words.rows.map((row) => row.join(': ')).join('. '),
    },
    size,
    Math.ceil(y),
    [...head.nodes, ...ruler, ...nodes],
    plotCss(),
  );
}

/** The same facts as rows of text. */
export const partsTable = ({ title, parts, t = ENGLISH }: Omit<PartsPicture, 'id'>): FactTable => ({
  caption: title,
  columns: [t('part'), t('as written')],
  rows: parts.map((each) => [partWords(each, t), each.lines.join('; ')]),
});

interface Cell {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly scale: number;
  readonly t: Language;
}

function drawCell(each: OwnPart, shape: Shape | undefined, { x, y, width, scale, t }: Cell) {
  const drawn = shape?.draw(x + 1, y + 12, scale) ?? [];
  const below = shape === undefined ? y + 18 : y + 12 + shape.heightMm * scale + 20;
  // A fact stays together: its number, its unit, and what they are of.
  const facts = each.lines.map((line) => line.replaceAll(' ', '\u00A0')).join(' \u00B7 ');
  const words = paragraphs(facts === '' ? [] : [facts], { x, y: below, width });
  return {
    node: part(
      partId(each),
      [partWords(each, t), ...each.lines].join(', '),
      textLine(
        [{ text: each.name, bold: true }, ...(each.of.kind === 'bench' ? [] : [{ text: ` ${t(each.of.kind)}` }])],
        {
          x,
          y,
          anchor: 'start',
        },
      ),
      ...drawn,
      ...words.nodes,
    ),
    bottom: each.lines.length === 0 ? below : words.bottom,
  };
}

/** What is drawn of a part: a view from above, and one across beside it. */
interface Shape {
  readonly lengthMm: number;
  readonly besideMm: number;
  readonly heightMm: number;
  draw(x: number, y: number, scale: number): readonly SvgElement[];
}

function shapeOf({ of }: OwnPart): Shape | undefined {
  if (of.kind === 'bobbin') return bobbinShape(of.thing);
  return of.kind === 'magnet' ? magnetShape(of.thing) : undefined;
}

const mm = ({ si }: { readonly si: number }): number => si * 1000;

function bobbinShape({ core, window, poles, pole }: Bobbin): Shape | undefined {
  if (!core || !window) return undefined;
  const [length, width] = [mm(core.value.length), mm(core.value.width)];
  const [height, depth] = [mm(window.value.height), mm(window.value.depth)];
  if (![length, width, height, depth].every((each) => each > 0)) return undefined;
  const corner = core.value.corner ? mm(core.value.corner) : width / 2;
  const [outerLength, outerWidth] = [length + 2 * depth, width + 2 * depth];
  return {
    lengthMm: outerLength,
    besideMm: outerWidth,
    heightMm: Math.max(outerWidth, height),
    draw: (x, y, scale) => {
      const s = (each: number): number => each * scale;
      const middle = y + s(outerWidth) / 2;
      const across = x + s(outerLength) + BESIDE;
      const top = middle - s(height) / 2;
      const right = across + s(depth + width);
      return [
        rect('body', x, y, s(outerLength), s(outerWidth), s(corner + depth)),
        rect('open', x + s(depth), y + s(depth), s(length), s(width), s(corner)),
        ...polesFromAbove(poles?.value, pole?.value, x + s(outerLength) / 2, middle, s),
        rect('body', across, top, s(depth), s(height)),
        rect('body', right, top, s(depth), s(height)),
        rect('open', across + s(depth), top, s(width), s(height)),
        // The flanges, whose thickness nobody states.
        path('w2', d`M${across} ${top}H${right + s(depth)}M${across} ${top + s(height)}H${right + s(depth)}`),
      ];
    },
  };
}

function polesFromAbove(
  poles: NonNullable<Bobbin['poles']>['value'] | undefined,
  pole: NonNullable<Bobbin['pole']>['value'] | undefined,
  x: number,
  y: number,
  s: (mm: number) => number,
): readonly SvgElement[] {
  if (pole === undefined || pole === 'none' || pole.form === 'blade' || !pole.diameter) return [];
  const count = poles?.count ?? 0;
  const spread = poles?.spread ? mm(poles.spread) : undefined;
  if (count < 1 || count > 40 || (spread === undefined && count > 1)) return [];
  const radius = s(mm(pole.diameter)) / 2;
  const step = count > 1 ? (spread ?? 0) / (count - 1) : 0;
  return Array.from({ length: count }, (_, index) =>
    circle('cell', x + s((index - (count - 1) / 2) * step), y, radius),
  );
}

function magnetShape({ size }: Magnet): Shape | undefined {
  if (!size) return undefined;
  const [length, width, thickness] = [mm(size.value.length), mm(size.value.width), mm(size.value.thickness)];
  if (![length, width, thickness].every((each) => each > 0)) return undefined;
  return {
    lengthMm: length,
    besideMm: width,
    heightMm: Math.max(width, thickness),
    draw: (x, y, scale) => [
      rect('open', x, y, length * scale, width * scale),
      rect('open', x + length * scale + BESIDE, y, width * scale, thickness * scale),
    ],
  };
}

function drawRuler(right: number, y: number, scale: number): readonly SvgNode[] {
  const left = right - 10 * scale;
  return [
    path('w2', d`M${left} ${y - 4}v8M${left} ${y}H${right}M${right} ${y - 4}v8`),
    wordsAt('10\u202Fmm', left - 8, y + 4, { quiet: true, anchor: 'end' }),
  ];
}
