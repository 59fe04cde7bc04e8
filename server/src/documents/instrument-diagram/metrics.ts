/** Columns of the schematic for both widths. */
import type { DrawingWidth } from '../drawing-sheet.ts';

export interface Metrics {
  readonly name: number;
  /** Right end of a coil's words. */
  readonly coilWords: number;
  readonly coil: number;
  readonly pole: number;
  readonly lead: number;
  /** Where rows of one net are joined, and where a second contact leaves a row. */
  readonly join: number;
  readonly second: number;
  /** Where an end that is always at ground has its earth, when not under its coil. */
  readonly stub: number;
  /** Joints of a series, from here on. */
  readonly rail: number;
  readonly railStep: number;
  readonly cellsLeft: number;
  readonly cellsRight: number;
  readonly cell: number;
  readonly contact: readonly [number, number];
  readonly earth: number;
  readonly bus: number;
  readonly controls: ControlColumns;
  /** Controls of one pickup, in a band below it. */
  readonly own: ControlColumns;
  readonly facts: readonly [number, number];
  /** Controls stand below all pickups instead of at their right. */
  readonly below: boolean;
}

export interface ControlColumns {
  readonly volume: number;
  readonly bleed: number;
  readonly tone: number;
  /** For all tones together. */
  readonly toneRoom: number;
  /** Where the signal leaves: the jack, or the row to the selector. */
  readonly end: number;
}

export const METRICS: Readonly<Record<DrawingWidth, Metrics>> = {
  wide: {
    name: 32,
    coilWords: 176,
    coil: 196,
    pole: 228,
    lead: 214,
    join: 264,
    second: 276,
    stub: 246,
    rail: 320,
    railStep: 24,
    cellsLeft: 288,
    cellsRight: 402,
    cell: 16,
    contact: [410, 470],
    earth: 516,
    bus: 556,
    controls: { volume: 640, bleed: 764, tone: 704, toneRoom: 224, end: 868 },
    own: { volume: 60, bleed: 176, tone: 120, toneRoom: 150, end: 276 },
    facts: [620, 928],
    below: false,
  },
  narrow: {
    name: 16,
    coilWords: 122,
    coil: 140,
    pole: 170,
    lead: 156,
    join: 200,
    second: 206,
    stub: 184,
    rail: 252,
    railStep: 20,
    cellsLeft: 216,
    cellsRight: 300,
    cell: 14,
    contact: [306, 354],
    earth: 396,
    bus: 436,
    controls: { volume: 60, bleed: 190, tone: 116, toneRoom: 310, end: 330 },
    own: { volume: 40, bleed: 128, tone: 84, toneRoom: 118, end: 206 },
    facts: [16, 472],
    below: true,
  },
};
