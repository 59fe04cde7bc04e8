/** The sizes a diagram is laid out for, and the sheet that collects what is drawn, so that labels find free places. */
import type { Language } from '../../words/languages/language.ts';
import type { DrawingWidth } from '../drawing-sheet.ts';
import { type Box, boxAround, type Label } from '../labels.ts';
import type { SvgNode } from '../svg.ts';

export interface Metrics {
  readonly width: number;
  readonly margin: number;
  readonly plateLeft: number;
  readonly plateRight: number;
  /** First and last pole of a full row. */
  readonly firstPole: number;
  readonly lastPole: number;
  readonly poleRadius: number;
  /** From the first and the last pole to the centres of the coil's round ends; the inner end of the winding needs the room at the right. */
  readonly poleToLeftEnd: number;
  readonly poleToRightEnd: number;
  readonly hole: number;
  readonly turns: 2 | 3;
  readonly pitch: number;
  /** From the centre line to a finish row that the turn has to bend into. */
  readonly bentRow: number;
  readonly rowGap: number;
  readonly ownLabel: number;
  readonly joints: number;
  /** Where ends meet that are joined inside. */
  readonly inside: number;
  readonly conductorLabel: number;
  readonly resistance: number;
  readonly cableShield: number;
  readonly terminals: number;
  readonly terminalLabel: number;
  readonly total: number;
  readonly railStep: number;
  /** Length in which two leads change places. */
  readonly crossing: number;
  readonly flowScale: number;
  readonly captions: boolean;
  /** Columns of what is read off the drawing; which way a coil was wound stands beside it where there are captions. */
  readonly verdict: VerdictColumns;
}

interface VerdictColumns {
  readonly wound?: number;
  readonly path: number;
  readonly poles: number;
  readonly string: number;
  readonly hum: number;
  readonly right: number;
}

export const METRICS: Readonly<Record<DrawingWidth, Metrics>> = {
  wide: {
    width: 960,
    margin: 32,
    plateLeft: 188,
    plateRight: 624,
    firstPole: 299,
    lastPole: 509,
    poleRadius: 9.5,
    poleToLeftEnd: 23,
    poleToRightEnd: 23,
    hole: 21,
    turns: 3,
    pitch: 10,
    bentRow: 60,
    rowGap: 56,
    ownLabel: 640,
    joints: 712,
    inside: 712,
    conductorLabel: 728,
    resistance: 750,
    cableShield: 796,
    terminals: 860,
    terminalLabel: 874,
    total: 897,
    railStep: 24,
    crossing: 52,
    flowScale: 1,
    captions: true,
    verdict: { wound: 90, path: 193, poles: 296, string: 376, hum: 476, right: 580 },
  },
  narrow: {
    width: 488,
    margin: 16,
    plateLeft: 8,
    plateRight: 246,
    firstPole: 74,
    lastPole: 159,
    poleRadius: 7,
    poleToLeftEnd: 2,
    poleToRightEnd: 21,
    hole: 22,
    turns: 2,
    pitch: 8,
    bentRow: 47,
    rowGap: 42,
    ownLabel: 254,
    joints: 316,
    inside: 316,
    conductorLabel: 326,
    resistance: 344,
    cableShield: 366,
    terminals: 414,
    terminalLabel: 426,
    total: 450,
    railStep: 18,
    crossing: 40,
    flowScale: 0.85,
    captions: false,
    verdict: { path: 92, poles: 206, string: 268, hum: 372, right: 472 },
  },
  tight: {
    width: 424,
    margin: 10,
    plateLeft: 4,
    plateRight: 224,
    firstPole: 68,
    lastPole: 143,
    poleRadius: 7,
    poleToLeftEnd: 2,
    poleToRightEnd: 21,
    hole: 22,
    turns: 2,
    pitch: 8,
    bentRow: 47,
    rowGap: 42,
    ownLabel: 232,
    joints: 273,
    inside: 289,
    conductorLabel: 282,
    resistance: 301,
    cableShield: 322,
    terminals: 348,
    terminalLabel: 360,
    total: 384,
    railStep: 18,
    crossing: 34,
    flowScale: 0.85,
    captions: false,
    verdict: { path: 66, poles: 168, string: 220, hum: 318, right: 414 },
  },
};

/** What is drawn so far. Layers are drawn in the order they were opened. */
export interface Sheet {
  readonly t: Language;
  /** Of leads the letters alone: their names stand in the table of joints. */
  readonly lettersOnly: boolean;
  readonly nodes: SvgNode[];
  readonly labels: Label[];
  readonly obstacles: Box[];
}

export function blockLine(sheet: Sheet, x1: number, y1: number, x2: number, y2: number, half: number): void {
  sheet.obstacles.push(boxAround({ x: x1, y: y1 }, { x: x2, y: y2 }, half));
}
