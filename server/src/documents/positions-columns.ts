/** Where each column of the positions sheet stands, in both widths; header and rows take them from here. */
import { FRAMES, type PlotWidth } from './drawing-sheet.ts';

export interface Columns {
  readonly height: number;
  readonly key: number;
  readonly title: number;
  readonly titleWidth: number;
  readonly spark: readonly [number, number];
  /** Top and bottom of the spark within a row. */
  readonly sparkY: readonly [number, number];
  readonly string: readonly [number, number];
  readonly hum: readonly [number, number];
  readonly humY: number;
  /** Where the resistance ends. */
  readonly ohm: number;
  /** Where the heading of the string signal begins, and where its number ends. */
  readonly stringHead: number;
  readonly stringEnd: number;
  readonly words: number;
  readonly wordsWidth: number;
}

export const COLUMNS: Readonly<Record<PlotWidth, Columns>> = {
  wide: {
    height: 70,
    key: 32,
    title: 60,
    titleWidth: 152,
    spark: [222, 422],
    sparkY: [6, 62],
    string: [562, 594],
    hum: [628, 736],
    humY: 32,
    ohm: 496,
    stringHead: 516,
    stringEnd: 552,
    words: 768,
    wordsWidth: 160,
  },
  narrow: {
    height: 132,
    key: 16,
    title: 40,
    titleWidth: 290,
    spark: [40, 226],
    sparkY: [60, 122],
    string: [250, 286],
    hum: [364, 472],
    humY: 71,
    ohm: FRAMES.narrow.right,
    stringHead: 250,
    stringEnd: 286,
    words: 250,
    wordsWidth: 222,
  },
  slim: {
    height: 132,
    key: 10,
    title: 34,
    titleWidth: 204,
    spark: [20, 140],
    sparkY: [60, 122],
    string: [152, 188],
    hum: [280, 358],
    humY: 71,
    ohm: FRAMES.slim.right,
    stringHead: 152,
    stringEnd: 188,
    words: 152,
    wordsWidth: 206,
  },
};

export const STRING_FLOOR_DB = -20;

export const HUM_TOP_DB = 6;
