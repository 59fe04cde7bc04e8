/** What a response plot shows of a sweep: its points, the strip of what the fit leaves, and its numbers in rows. */
import type { Language } from '../../words/languages/language.ts';
import { type Block, type Frame, type PlotWidth, paragraphs, part } from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { circle, d, path, type SvgNode } from '../svg.ts';
import type { Axes } from './axes.ts';
import { bandPath, curvePath } from './curve-shapes.ts';
import type { MeasuredPicture } from './measured.ts';

/** One point in so many pixels: more of them would be a line. */
const POINTS_APART = 7;

export function drawMeasuredPoints(
  { hz, levelDb }: MeasuredPicture,
  axes: Axes,
  zeroDb: number,
  t: Language,
): readonly SvgNode[] {
  let last = Number.NEGATIVE_INFINITY;
  const shown = hz.flatMap((each, index) => {
    const [x, y] = [axes.x(each), axes.y((levelDb[index] ?? 0) - zeroDb)];
    if (y < axes.area.y || y > axes.bottom || x - last < POINTS_APART) return [];
    last = x;
    return [circle('pt', x, y, 2.5)];
  });
  return [part('sweep:points', t('Measured points, {0} of them', String(hz.length)), ...shown)];
}

const STRIP_HEIGHT = 54;
/** Limits of the strip, dB: the smallest that holds the rest. */
const LIMITS_DB = [0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20];

/** Below the strings: what is left of each point, in a band of two deviations, and the numbers. */
export function measuredStrip(
  measured: MeasuredPicture,
  axes: Axes,
  {
    frame,
    top,
    size,
    t,
  }: { readonly frame: Frame; readonly top: number; readonly size: PlotWidth; readonly t: Language },
): Block {
  const { hz, restDb, sdDb, verdict } = measured;
  // A few points of the ends may lie beyond: what most of them need is shown.
  const most = [...restDb].map(Math.abs).sort((a, b) => a - b)[Math.floor(0.95 * restDb.length)] ?? 0;
  const limit = LIMITS_DB.find((each) => each > most) ?? 20;
  const strip: Axes = {
    ...axes,
    area: { ...axes.area, y: top, height: STRIP_HEIGHT },
    bottom: top + STRIP_HEIGHT,
    floorDb: -limit,
    topDb: limit,
    y: (db) => top + (STRIP_HEIGHT / 2) * (1 - db / limit),
  };
  const two = sdDb.map((sd) => 2 * sd);
  const edge = (db: number) =>
    wordsAt(`${db > 0 ? '+' : '−'}${limit}`, axes.area.x - 10, strip.y(db) + 4, {
      anchor: 'end',
    });
  const caption = paragraphs(
    [
      `${verdict} ${t('Points: as measured, brought to this load.')} ${t('Rest in decibels, in a band of two deviations of the points.')}`,
    ],
    {
      x: frame.margin,
      y: strip.bottom + 18,
      width: frame.right - frame.margin,
    },
  );
  const rows = numberRows(measured, frame, caption.bottom + 26, size, t);
  return {
    nodes: [
      part(
        'sweep:rest',
        t('What is left, measured less fitted'),
        path('hair', d`M${axes.area.x} ${top}H${axes.right}M${axes.area.x} ${strip.bottom}H${axes.right}`),
        path(
          'res',
          bandPath(
            strip,
            hz,
            two.map((each) => -each),
            two,
          ),
        ),
        path('w1', d`M${axes.area.x} ${strip.y(0)}H${axes.right}`),
        path('spark', curvePath(strip, hz, restDb)),
      ),
      edge(limit),
      edge(-limit),
      wordsAt(t('rest'), axes.area.x - 10, strip.y(0) + 4, { anchor: 'end', quiet: true }),
      ...caption.nodes,
      ...rows.nodes,
    ],
    bottom: rows.bottom,
  };
}

/** Where the columns of the numbers begin, as shares of the width. */
const COLUMNS: Readonly<Record<PlotWidth, readonly number[]>> = {
  wide: [0, 0.3, 0.52, 0.74],
  narrow: [0, 0.34, 0.62, 0.92],
  slim: [0, 0.34, 0.62, 0.93],
};
const ROW = 20;

function numberRows({ rows }: MeasuredPicture, frame: Frame, top: number, size: PlotWidth, t: Language): Block {
  const width = frame.right - frame.margin;
  const x = COLUMNS[size].map((share) => frame.margin + share * width);
  const heads = [t('from the sweep'), t('computed'), t('measured'), size === 'wide' ? t('apart, in deviations') : 'σ'];
  const line = (cells: readonly string[], y: number, isHead: boolean): readonly SvgNode[] =>
    cells.flatMap((text, column) =>
      text === '' ? [] : [wordsAt(text, x[column] ?? 0, y, { quiet: column !== 2, bold: isHead && column !== 1 })],
    );
  const last = top + ROW * rows.length;
  return {
    nodes: [
      ...line(heads, top, true),
      path('hair', d`M${frame.margin} ${top + 6}H${frame.right}`),
      ...rows.flatMap(({ what, computed, measured, apart }, index) =>
        line([what, computed, measured, apart], top + ROW * (index + 1), false),
      ),
    ],
    bottom: last,
  };
}
