/** One position in a row: its name, its response, its numbers, its verdict. */

import { scaleLinear } from 'd3-scale';
import { isSilence } from '../estimates/level-in-place.ts';
import { NULL_DB, printNumber } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { shownLevel } from '../words/number-text.ts';
import { FRAMES, type PlotWidth, part } from './drawing-sheet.ts';
import { textLine, wordsAt } from './labels.ts';
import { sparkNodes } from './position-spark.ts';
import { COLUMNS, type Columns, HUM_TOP_DB, STRING_FLOOR_DB } from './positions-columns.ts';
import { humText, type PositionRow, resistanceParts, rowWords, stringText } from './positions-picture.ts';
import { circle, d, path, rect, type SvgNode } from './svg.ts';
import { fitText, wrapText } from './text-width.ts';

export function drawRow(row: PositionRow, top: number, size: PlotWidth, t: Language): SvgNode {
  const columns = COLUMNS[size];
  const frame = FRAMES[size];
  const marked = row.live
    ? [
        rect('row', frame.margin - 8, top + 1, frame.right - frame.margin + 16, columns.height - 2),
        rect('solid', frame.margin - 8, top + 1, 3, columns.height - 2),
      ]
    : [];
  return part(
    `position:${row.key}`,
    rowWords(row, t),
    ...marked,
    ...titleNodes(row, top, columns),
    ...sparkNodes(row, top, columns, t),
    ...(size === 'wide' ? wideNumbers(row, top, columns, t) : narrowNumbers(row, top, columns, t)),
    ...stringNodes(row, top, columns, size, t),
    ...humNodes(row, top, columns, size, t),
    ...wordNodes(row, top, columns, size),
  );
}

function titleNodes(
  { key, title, joined, live }: PositionRow,
  top: number,
  { key: keyX, title: x, titleWidth }: Columns,
): readonly SvgNode[] {
  const size = live ? 14 : 12;
  const y = top + 28;
  const shownKey = fitText(key, x - keyX - 4, { size: 14, bold: true });
  // A title that needs two lines stands higher and leaves out what it is joined of.
  const lines = wrapText(title, titleWidth, { size, bold: true }).slice(0, 2);
  const rest = joined === undefined ? undefined : fitText(joined, titleWidth, { size: 12 });
  return [
    wordsAt(shownKey, keyX, y, { size: 14 }),
    ...lines.map((text, index) => wordsAt(text, x, y + 17 * index, { bold: true, size })),
    ...(rest === undefined || (lines.length > 1 && titleWidth > 200)
      ? []
      : [wordsAt(rest, x, y + 17 * lines.length, { quiet: true })]),
  ];
}

function wideNumbers(row: PositionRow, top: number, { ohm, stringEnd }: Columns, t: Language): readonly SvgNode[] {
  const { estimates, string } = row;
  const { value, uncertainty } = resistanceParts(estimates, t);
  const level = string === undefined ? stringText(row, t) : printNumber(string.db, 0);
  const below = (text: string | undefined, x: number) =>
    text === undefined ? [] : [wordsAt(text, x, top + 52, { quiet: true, anchor: 'end' })];
  return [
    wordsAt(value, ohm, top + 36, { anchor: 'end', size: 14 }),
    ...below(uncertainty && `± ${uncertainty}`, ohm),
    wordsAt(level, stringEnd, top + 36, { anchor: 'end', size: string === undefined ? 12 : 14 }),
    ...below(string?.orLower ? t('or lower') : undefined, stringEnd),
  ];
}

function narrowNumbers({ estimates }: PositionRow, top: number, { ohm }: Columns, t: Language): readonly SvgNode[] {
  const { value, uncertainty, hasUnit } = resistanceParts(estimates, t);
  const unit = hasUnit ? '\u202FkΩ' : '';
  const text = uncertainty === undefined ? `${value}${unit}` : `${value} ± ${uncertainty}${unit}`;
  return [wordsAt(text, ohm, top + 28, { anchor: 'end', size: 14 })];
}

function stringNodes(
  row: PositionRow,
  top: number,
  { string: [left, right] }: Columns,
  size: PlotWidth,
  t: Language,
): readonly SvgNode[] {
  const { string } = row;
  if (size !== 'wide') {
    const text = `${stringText(row, t)}${string === undefined || string.orLower ? '' : '\u202FdB'}`;
    return [
      textLine(
        [
          { text: t('string'), quiet: true },
          { text: ` ${text}`, bold: true },
        ],
        { x: left, y: top + 66, anchor: 'start' },
      ),
    ];
  }
  if (string === undefined) return [];
  const y = top + 31;
  const x = scaleLinear([STRING_FLOOR_DB, 0], [left, right]);
  const scale = path('hair', d`M${left} ${y}H${right}M${right} ${y - 6}v12`);
  if (string.db >= STRING_FLOOR_DB) return [scale, circle('solid', x(string.db), y, 4)];
  return [scale, path('w2', d`M${left + 16} ${y}H${left}m6 -4l-6 4l6 4`)];
}

/** A bar from the stated floor; what is only bounded from above ends in an arrow toward less. */
function humNodes(
  row: PositionRow,
  top: number,
  { hum: [left, right], humY, stringHead }: Columns,
  size: PlotWidth,
  t: Language,
): readonly SvgNode[] {
  const { humDb } = row.estimates;
  const y = top + humY;
  const textX = size !== 'wide' ? stringHead : left;
  const name = size !== 'wide' ? [{ text: t('hum'), quiet: true }] : [];
  const beside = name.length > 0 ? ' ' : '';
  if (humDb === undefined || isSilence(humDb))
    return [
      textLine([...name, { text: `${beside}${humText(row, t)}`, bold: true }], {
        x: textX,
        y: size !== 'wide' ? top + 84 : y - 3,
        anchor: 'start',
      }),
    ];
  const number = humText(row, t);
  const { db, orLower } = shownLevel(humDb);
  const x = scaleLinear([NULL_DB, HUM_TOP_DB], [left, right]).clamp(true);
  const end = x(db);
  const arrow =
    end - left > 22
      ? path('barn', d`M${end - 4} ${y + 9}H${end - 18}m6 -3l-6 3l6 3`)
      : path('w2', d`M${Math.max(end, left + 6) + 20} ${y + 9}h-18m6 -4l-6 4l6 4`);
  return [
    path('hair', d`M${left} ${y + 9}H${right}`),
    ...(end > left ? [rect(row.live ? 'solid' : 'bar', left, y + 5, end - left, 8)] : []),
    ...(orLower ? [arrow] : []),
    size !== 'wide'
      ? textLine([...name, { text: `${beside}${number}${orLower ? '' : '\u202FdB'}`, bold: true }], {
          x: textX,
          y: top + 84,
          anchor: 'start',
        })
      : wordsAt(number, textX, y - 3, { size: 14 }),
  ];
}

function wordNodes(
  { verdict }: PositionRow,
  top: number,
  { words, wordsWidth }: Columns,
  size: PlotWidth,
): readonly SvgNode[] {
  const lines = verdict.sentences.flatMap(({ text, standsOut }) =>
    wrapText(text, wordsWidth, { size: 12, bold: standsOut }).map((each) => ({ text: each, bold: standsOut })),
  );
  const shown = lines.slice(0, size === 'wide' ? 4 : 2);
  const first = size === 'wide' ? top + 39 - 8 * (shown.length - 1) : top + 104;
  return shown.map((run, index) => textLine([run], { x: words, y: first + 16 * index, anchor: 'start' }));
}
