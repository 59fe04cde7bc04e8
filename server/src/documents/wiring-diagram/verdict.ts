import { poleLetter } from '../../words/directions.ts';
import type { Language } from '../../words/languages/language.ts';
import { type Block, part } from '../drawing-sheet.ts';
import { wordsAt } from '../labels.ts';
import { d, path, type SvgNode } from '../svg.ts';
import { pole, vector } from '../symbols.ts';
import { fitText, textWidth, wrapText } from '../text-width.ts';
import type { Push, VectorsPicture, VerdictPicture } from './picture.ts';
import type { Metrics } from './sheet.ts';

/** Why it sounds so: per coil which way string and hum push, then both sums as arrows to one scale. */
export function drawVerdict(verdict: VerdictPicture, top: number, metrics: Metrics, t: Language): Block {
  const wide = metrics.captions;
  const table = drawTable(verdict, top, metrics, t);
  const left = wide ? 612 : metrics.margin;
  const signal = drawVectors('verdict:signal', verdict.signal, left, wide ? top : table.bottom + 32, metrics);
  const hum = drawVectors('verdict:hum', verdict.hum, left, signal.bottom + 28, metrics);
  return { nodes: [...table.nodes, ...signal.nodes, ...hum.nodes], bottom: Math.max(table.bottom, hum.bottom) };
}

function drawTable({ rows }: VerdictPicture, top: number, metrics: Metrics, t: Language): Block {
  const x = metrics.margin;
  const columns = metrics.verdict;
  const heads: readonly (readonly [string, number | undefined])[] = [
    [t('wound'), columns.wound],
    [t('path goes'), columns.path],
    [t('poles up'), columns.poles],
    [t('string pushes'), columns.string],
    [t('hum pushes'), columns.hum],
  ];
  const nodes: SvgNode[] = [wordsAt(t('Read it off the drawing'), x, top, { size: 14 })];
  for (const [head, at] of heads) if (at !== undefined) nodes.push(wordsAt(head, at, top + 24, { quiet: true }));
  let y = top + 48;
  for (const row of rows) {
    nodes.push(path('hair', d`M${x} ${y - 17}H${columns.right}`));
    const cells: SvgNode[] = [
      wordsAt(fitText(row.coil, (columns.wound ?? columns.path) - x - 4, { size: 12, bold: true }), x, y, {
        bold: true,
      }),
    ];
    if (columns.wound !== undefined) cells.push(wordsAt(row.wound, columns.wound, y));
    cells.push(wordsAt(row.path, columns.path, y), ...polarityCell(row.polarity, columns.poles, y, t));
    cells.push(...pushCell(row.string, columns.string, y, t), ...pushCell(row.hum, columns.hum, y, t));
    nodes.push(part(`coil:${row.coil}`, row.coil, ...cells));
    y += 26;
  }
  nodes.push(path('hair', d`M${x} ${y - 17}H${columns.right}`));
  let bottom = y;
  const note = t('At one instant. Hum follows the turn of the path; a string follows the turn and the pole.');
  for (const line of wrapText(note, columns.right - x, { size: 12 })) {
    nodes.push(wordsAt(line, x, bottom + 6, { quiet: true }));
    bottom += 17;
  }
  return { nodes, bottom };
}

function polarityCell(
  polarity: VerdictPicture['rows'][number]['polarity'],
  x: number,
  y: number,
  t: Language,
): readonly SvgNode[] {
  if (polarity === undefined) return [wordsAt(t('unknown'), x, y, { quiet: true })];
  return [wordsAt(poleLetter(polarity), x, y), ...pole(x + 22, y - 4, 7, polarity)];
}

function pushCell(push: Push, x: number, y: number, t: Language): readonly SvgNode[] {
  if (push === undefined) return [wordsAt(t('unknown'), x, y, { quiet: true })];
  const [from, to] = push === 'hot' ? [x, x + 34] : [x + 34, x];
  return [...vector(from, to, y - 4), wordsAt(t(push === 'hot' ? 'to hot' : 'to ground'), x + 42, y)];
}

function drawVectors(
  name: string,
  { heading, vectors, remarks }: VectorsPicture,
  x: number,
  top: number,
  metrics: Metrics,
): Block {
  const nodes: SvgNode[] = [wordsAt(heading, x, top, { size: 14 })];
  const whole = vectors.reduce((sum, { length }) => sum + Math.abs(length), 0);
  const right = metrics.width - metrics.margin;
  let y = top + 30;
  let reach = x;
  if (whole > 0) {
    const scale = (metrics.captions ? 224 : 240) / whole;
    const forth = vectors.filter(({ length }) => length >= 0);
    const back = vectors.filter(({ length }) => length < 0);
    let at = x;
    for (const { coil, length } of forth) {
      nodes.push(...vector(at, at + length * scale, y), ...vectorLabel(coil, at, at + length * scale, y - 8));
      at += length * scale;
    }
    reach = at;
    if (back.length === 0) nodes.push(path('hair', d`M${at} ${y - 10}V${y + 10}`));
    const rule = y - 10;
    if (back.length > 0) {
      if (forth.length > 0) y += 10;
      for (const { coil, length } of back) {
        const to = at + length * scale;
        nodes.push(...vector(at, to, y), ...vectorLabel(coil, to, at, y + 16));
        at = to;
      }
    }
    nodes.push(path('hair', d`M${x} ${rule}V${y + 10}`));
  }
  const from = whole > 0 ? reach + 14 : x;
  const [main = ''] = remarks;
  const roomy = right - from >= Math.min(120, textWidth(main, { size: 12, bold: true }));
  let line = whole > 0 ? (roomy ? top + 34 - (remarks.length > 1 ? 8 : 0) : y + 26) : top + 20;
  const remarkX = roomy ? from : x;
  remarks.forEach((remark, index) => {
    for (const each of wrapText(remark, right - remarkX, { size: 12, bold: index === 0 })) {
      nodes.push(wordsAt(each, remarkX, line, { bold: index === 0 }));
      line += 16;
    }
  });
  const bottom = Math.max(line - 8, whole > 0 ? y + (vectors.some(({ length }) => length < 0) ? 22 : 8) : line);
  return { nodes: [part(name, heading, ...nodes)], bottom };
}

function vectorLabel(coil: string, from: number, to: number, y: number): readonly SvgNode[] {
  const width = Math.abs(to - from);
  if (width < 18) return [];
  const label = textWidth(coil, { size: 12 }) <= width ? coil : fitText(coil, width, { size: 12 });
  return [wordsAt(label, (from + to) / 2, y, { anchor: 'middle' })];
}
