import { scaleLinear, scaleLog } from 'd3-scale';
import { line } from 'd3-shape';
import type { Language } from '../words/languages/language.ts';
import { marked } from '../words/number-text.ts';
import { SILENT } from '../words/numbers.ts';
import { type Box, boxAround, type Spot, wherePossible, wordsAt } from './labels.ts';
import type { Columns } from './positions-columns.ts';
import type { PositionRow } from './positions-picture.ts';
import { frequencyText } from './response-plot/response-plot.ts';
import { circle, d, path, type SvgNode } from './svg.ts';

/** The response above its own low notes, cut at the edges of its field. */
export function sparkNodes(
  { estimates }: PositionRow,
  top: number,
  { spark: [left, right], sparkY, string: [beyond] }: Columns,
  t: Language,
): readonly SvgNode[] {
  const { response, resonanceHz, levelDb } = estimates;
  const x = scaleLog([100, 20_000], [left, right]);
  const y = scaleLinear([SPARK_FLOOR_DB, SPARK_TOP_DB], [top + sparkY[1], top + sparkY[0]]);
  const zeroLine = path('w1', d`M${left} ${y(0)}H${right}`);
  if (response === undefined || levelDb === null) {
    return [zeroLine, wordsAt(t(levelDb === null ? SILENT : 'unknown'), left, y(0) - 8, { quiet: true })];
  }
  const zero =
    Math.max(...response.levelDb) - SPARK_TOP_DB > (response.levelDb[0] ?? 0)
      ? Math.max(...response.levelDb)
      : (response.levelDb[0] ?? 0);
  const points = response.frequencyHz
    .map((hz, index) => ({ hz, db: (response.levelDb[index] ?? 0) - zero }))
    .filter(({ hz, db }, index) => hz >= 100 && db >= SPARK_FLOOR_DB && index % 3 === 0);
  const shape = line<(typeof points)[number]>(
    (point) => x(point.hz),
    (point) => y(point.db),
  ).digits(1);
  const curve = path('spark', shape(points) ?? '');
  // Words may stand out a little at the sides, the less the nearer the next column is: an editor's face may be wide.
  const aside = Math.min(12, (beyond - right) / 4);
  const field: Box = {
    x: left - aside,
    y: top + sparkY[0] - 4,
    width: right - left + 2 * aside,
    height: sparkY[1] - sparkY[0] + 4,
  };
  const corner = ({ hz, db }: (typeof points)[number]) => ({ x: x(hz), y: y(db) });
  const drawn = points.slice(1).map((point, index) => boxAround(corner(points[index] ?? point), corner(point), 2));
  const base = { x: left, y: y(0) - 1, width: right - left, height: 2 };
  const words = (texts: readonly string[], bold: boolean, spots: readonly Spot[], ...taken: readonly Box[]) =>
    wherePossible(
      [{ wordings: texts.map((text) => [{ text, bold, quiet: !bold }]), spots, rank: 0 }],
      [...drawn, base, ...taken],
      field,
    );
  const corners: readonly Spot[] = [y(0) - 6, top + sparkY[0] + 8, top + sparkY[1] - 4, y(0) + 14].flatMap((at) => [
    { x: right, y: at, anchor: 'end' as const },
    { x: left, y: at, anchor: 'start' as const },
    { x: (left + right) / 2, y: at, anchor: 'middle' as const },
  ]);
  const hz = resonanceHz?.value;
  if (!resonanceHz || hz === undefined || hz < 100 || hz > 20_000) {
    return [zeroLine, curve, ...words([t('no peak')], false, corners)];
  }
  const nearest = points.reduce(
    (best, point) => (Math.abs(Math.log(point.hz / hz)) < Math.abs(Math.log(best.hz / hz)) ? point : best),
    { hz: 1, db: 0 },
  );
  const own = frequencyText(resonanceHz, t);
  const at = { x: x(hz), y: y(Math.min(nearest.db, SPARK_TOP_DB)) };
  const tick: Box = { x: at.x - 2, y: top + sparkY[1] - 4, width: 4, height: 7 };
  const beside: readonly Spot[] = [-3, -10, -17].flatMap((dy) => [
    { x: at.x - 8, y: at.y + dy, anchor: 'end' as const },
    { x: at.x + 8, y: at.y + dy, anchor: 'start' as const },
  ]);
  return [
    zeroLine,
    curve,
    circle('solid', at.x, at.y, 3),
    path('w1', d`M${at.x} ${top + sparkY[1] - 3}v5`),
    ...words([marked(own, resonanceHz, t), own], true, [...beside, ...corners], tick),
  ];
}

const SPARK_FLOOR_DB = -9;

const SPARK_TOP_DB = 12;
