/** All positions of an instrument on one sheet: what each gives, in small plots, numbers and words. */

import { scaleLinear, scaleLog } from 'd3-scale';
import { NULL_DB, printNumber } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { marked } from '../words/number-text.ts';
import { SILENT } from '../words/numbers.ts';
import {
  type Block,
  drawing,
  type FactTable,
  FRAMES,
  type PlotWidth,
  paragraphs,
  part,
  rule,
  sheetHead,
} from './drawing-sheet.ts';
import { wordsAt } from './labels.ts';
import { drawRow } from './position-row.ts';
import { COLUMNS, type Columns, HUM_TOP_DB, STRING_FLOOR_DB } from './positions-columns.ts';
import { humText, type PositionsPicture, resistanceParts, stringText } from './positions-picture.ts';
import { frequencyText } from './response-plot/response-plot.ts';
import { d, group, path, type SvgNode } from './svg.ts';
import { fitText } from './text-width.ts';

export { type PositionsPicture, positionsPicture } from './positions-picture.ts';

/** The sheet as a picture: the same input gives the same bytes. */
export function positionsSheet(picture: PositionsPicture, size: PlotWidth): string {
  const frame = FRAMES[size];
  const head = sheetHead(picture, frame);
  const columns = COLUMNS[size];
  const header =
    size === 'wide' ? wideHeader(picture, head.bottom + 20, columns) : { nodes: [], bottom: head.bottom + 4 };
  const top = header.bottom;
  const rows = picture.rows.map((row, index) => drawRow(row, top + index * columns.height, size, picture.t));
  const end = top + picture.rows.length * columns.height;
  const lines = picture.rows.map((_, index) =>
    path('hair', d`M${frame.margin} ${top + (index + 1) * columns.height}H${frame.right}`),
  );
  const scales = drawScales(end, columns, picture.t);
  const foot = paragraphs(picture.notes, { x: frame.margin, y: end + 40, width: frame.right - frame.margin });
  const height = Math.ceil((picture.notes.length === 0 ? end + 22 : foot.bottom) + 20);
  return drawing(picture, size, height, [
    ...head.nodes,
    ...header.nodes,
    rule(frame, top),
    ...rows,
    ...lines,
    scales,
    // Findings, which speak English.
    ...(picture.t.code === 'en' ? foot.nodes : [group({ lang: 'en' }, ...foot.nodes)]),
  ]);
}

/** The same facts as rows of text. */
export function positionsTable(picture: PositionsPicture): FactTable {
  const { t } = picture;
  return {
    caption: picture.name,
    columns: [
      t('position'),
      t('kΩ at the jack'),
      t('resonance'),
      t('string signal, dB against {0}', picture.loudest ?? t('the loudest')),
      t('hum, dB against its strongest coil'),
      t('in words'),
    ],
    rows: picture.rows.map((row) => {
      const { estimates, verdict } = row;
      const ohm = resistanceParts(estimates, t);
      return [
        `${row.key} ${row.title}`,
        ohm.uncertainty === undefined ? ohm.value : `${ohm.value} ± ${ohm.uncertainty}`,
        estimates.resonanceHz && estimates.levelDb !== null
          ? marked(frequencyText(estimates.resonanceHz, t), estimates.resonanceHz, t)
          : t(estimates.levelDb === null ? SILENT : estimates.resonanceHz === null ? 'none' : 'unknown'),
        stringText(row, t),
        humText(row, t),
        verdict.sentences.map(({ text }) => text).join(' '),
      ];
    }),
  };
}

function wideHeader(
  { loudest, t }: PositionsPicture,
  top: number,
  { spark, ohm, stringHead, hum, words }: Columns,
): Block {
  const headings: readonly (readonly [x: number, anchor: 'start' | 'end', name: string, unit: string])[] = [
    [spark[0], 'start', t('response at the jack'), t('{0} to {1}', '\u22129', '+12\u202FdB')],
    [ohm, 'end', t('kΩ at the jack'), t('nothing plugged in')],
    [stringHead, 'start', t('string, dB'), loudest === undefined ? '' : t('against {0}', loudest)],
    [hum[0], 'start', t('hum, dB'), t('its strongest coil is 0')],
    [words, 'start', t('in words'), ''],
  ];
  const nodes = headings.flatMap(([x, anchor, name, unit]) => [
    wordsAt(name, x, top + 12, { bold: true, anchor }),
    ...(unit === '' ? [] : [wordsAt(fitText(unit, 176, { size: 12 }), x, top + 28, { quiet: true, anchor })]),
  ]);
  return { nodes, bottom: top + 42 };
}

function drawScales(end: number, columns: Columns, t: Language): SvgNode {
  const spark = scaleLog([100, 20_000], [...columns.spark]);
  const hum = scaleLinear([NULL_DB, HUM_TOP_DB], [...columns.hum]);
  const ticks: readonly (readonly [x: number, text: string])[] = [
    [spark(100), '100'],
    [spark(1000), '1\u202Fk'],
    [spark(10_000), '10\u202Fk'],
    ...[-40, -20, 0].map((db) => [hum(db), printNumber(db, 0)] as const),
    ...(columns.height < 100
      ? [[columns.string[0], printNumber(STRING_FLOOR_DB, 0)] as const, [columns.string[1], '0'] as const]
      : []),
  ];
  return part(
    'scales',
    t('Scales of frequency in hertz, string signal and hum in decibels'),
    ...ticks.flatMap(([x, text]) => [
      path('w1', d`M${x} ${end}v4`),
      wordsAt(text, x, end + 18, { quiet: true, anchor: 'middle' }),
    ]),
  );
}
