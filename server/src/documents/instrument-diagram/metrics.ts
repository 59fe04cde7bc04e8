/** Columns of the schematic for each width. */

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
  /** Controls of one pickup stand beside its coils instead of below them. */
  readonly ownBeside: boolean;
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

export const WIDE: Metrics = {
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
  ownBeside: false,
};

export const NARROW: Metrics = {
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
  ownBeside: false,
};

export const TIGHT: Metrics = {
  ...NARROW,
  name: 10,
  coilWords: 96,
  coil: 112,
  pole: 141,
  lead: 128,
  join: 170,
  second: 176,
  stub: 156,
  rail: 218,
  railStep: 18,
  cellsLeft: 192,
  cellsRight: 266,
  cell: 12,
  contact: [271, 314],
  earth: 348,
  bus: 384,
  controls: { volume: 44, bleed: 168, tone: 98, toneRoom: 292, end: 312 },
  own: { volume: 36, bleed: 120, tone: 78, toneRoom: 112, end: 190 },
  facts: [10, 414],
};

/** Where each pickup leaves by few controls of its own and by nothing else, there is room for them beside its coils. */
export const WIDE_OWN: Metrics = {
  ...WIDE,
  second: 262,
  own: { volume: 300, bleed: 410, tone: 352, toneRoom: 200, end: 428 },
  cellsLeft: 432,
  cellsRight: 492,
  contact: [498, 540],
  earth: 566,
  bus: 590,
  ownBeside: true,
};
