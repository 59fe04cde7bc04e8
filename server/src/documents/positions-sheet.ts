/** All positions of an instrument on one sheet: what each gives, in small plots, numbers and words. */
import { scaleLinear, scaleLog } from 'd3-scale';
import { line } from 'd3-shape';
import type { Analysis, InstrumentAnalysis, PotSettings } from '../analysis-types.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import { FULL_UP } from '../estimates/positions.ts';
import { benchRoomC } from '../model/bench.ts';
import type { Position } from '../model/instrument.ts';
import { onlyBoundedAbove, printNumber, printParts } from '../quantities/print.ts';
import {
  type DrawingWidth,
  drawing,
  type FactTable,
  FRAMES,
  paragraphs,
  part,
  rule,
  type SheetWords,
  sheetHead,
} from './drawing-sheet.ts';
import { type Box, overlap, type Spot, textBox, textLine } from './labels.ts';
import { HUM_FLOOR_DB, levelWords } from './level-words.ts';
import { type PositionVerdict, positionVerdict } from './position-verdict.ts';
import { settingWords } from './response-plot/from-model.ts';
import { frequencyText } from './response-plot/response-plot.ts';
import { selectionWords } from './selection-words.ts';
import { circle, d, path, rect, type SvgNode } from './svg.ts';
import { fitText, wrapText } from './text-width.ts';

export interface PositionRow {
  readonly key: string;
  readonly title: string;
  /** How it joins the pickups, where the title does not say it. */
  readonly joined: string | undefined;
  readonly live: boolean;
  readonly estimates: PositionEstimates;
  /** Level at the jack against the loudest position; where coils cancel, how high it may be. */
  readonly string: { readonly db: number; readonly orLower: boolean } | undefined;
  readonly verdict: PositionVerdict;
}

export interface PositionsPicture extends SheetWords {
  readonly rows: readonly PositionRow[];
  /** Key of the loudest position. */
  readonly loudest: string | undefined;
  /** What is to be said of a position beyond its row. */
  readonly notes: readonly string[];
}

/** The sheet as a picture: the same input gives the same bytes. */
export function positionsSheet(picture: PositionsPicture, size: DrawingWidth): string {
  const frame = FRAMES[size];
  const head = sheetHead(picture, frame);
  const columns = COLUMNS[size];
  const header = size === 'wide' ? wideHeader(picture, head.bottom + 20) : { nodes: [], bottom: head.bottom + 4 };
  const top = header.bottom;
  const rows = picture.rows.map((row, index) => drawRow(row, top + index * columns.height, size));
  const end = top + picture.rows.length * columns.height;
  const lines = picture.rows.map((_, index) =>
    path('hair', d`M${frame.margin} ${top + (index + 1) * columns.height}H${frame.right}`),
  );
  const scales = drawScales(end, columns);
  const foot = paragraphs(picture.notes, { x: frame.margin, y: end + 40, width: frame.right - frame.margin });
  const height = Math.ceil((picture.notes.length === 0 ? end + 22 : foot.bottom) + 20);
  return drawing(picture, size, height, [
    ...head.nodes,
    ...header.nodes,
    rule(frame, top),
    ...rows,
    ...lines,
    scales,
    ...foot.nodes,
  ]);
}

/** The same facts as rows of text. */
export function positionsTable(picture: PositionsPicture): FactTable {
  return {
    caption: picture.name,
    columns: [
      'position',
      'kΩ at the jack',
      'resonance',
      `string signal, dB against ${picture.loudest ?? 'the loudest'}`,
      'hum, dB against its strongest coil',
      'in words',
    ],
    rows: picture.rows.map((row) => {
      const { estimates, verdict } = row;
      const ohm = resistanceParts(estimates);
      return [
        `${row.key} ${row.title}`,
        ohm.uncertainty === undefined ? ohm.value : `${ohm.value} ± ${ohm.uncertainty}`,
        estimates.resonanceHz === undefined ? 'none' : frequencyText(estimates.resonanceHz),
        stringText(row),
        estimates.humDb === undefined ? 'unknown' : levelWords(estimates.humDb).number,
        verdict.sentences.map(({ text }) => text).join(' '),
      ];
    }),
  };
}

export interface PositionsOptions {
  readonly pots?: PotSettings;
  /** Key of the position that is emphasised. */
  readonly live?: string | undefined;
}

/** What the sheet shows of an analysed instrument; `undefined` where it has no position. */
export function positionsPicture(
  analysis: Analysis,
  analysed: InstrumentAnalysis,
  { pots = FULL_UP, live }: PositionsOptions = {},
): PositionsPicture | undefined {
  const { instrument } = analysed;
  if (instrument.positions.length === 0) return undefined;
  const all = analysed.positions(pots);
  const levels = all.flatMap(({ levelDb }) => (levelDb === undefined ? [] : [levelDb.value]));
  const loudest = all.find(({ levelDb }) => levelDb !== undefined && levelDb.value === Math.max(...levels));
  const rows = instrument.positions.flatMap((position): readonly PositionRow[] => {
    const estimates = all.find(({ key }) => key === position.key.value);
    return estimates === undefined ? [] : [rowOf(position, estimates, loudest?.levelDb?.value, live)];
  });
  const title = instrument.title ?? instrument.name;
  const findings = [...analysed.findings, ...analysed.heavyFindings()];
  const notes = rows.flatMap(({ key }) =>
    findings.filter(({ subject }) => subject.position === key).map(({ message }) => message),
  );
  const room = printNumber(benchRoomC(analysis.bench), 0);
  return {
    id: `positions-${instrument.name}`,
    title: `${title}: ${rows.length === 1 ? 'its position' : `its ${countWord(rows.length)} positions`}`,
    subtitle: `${settingWords(instrument, pots)}, ${room}\u202F°C; ± is one standard deviation`,
    aside: [],
    name: `Positions of ${title}`,
    description: rows.map(rowWords).join(' '),
    rows,
    loudest: loudest?.key,
    notes: [...new Set(notes)],
  };
}

function rowOf(
  position: Position,
  estimates: PositionEstimates,
  loudestDb: number | undefined,
  live: string | undefined,
): PositionRow {
  const joined = position.selection === undefined ? undefined : selectionWords(position.selection);
  const title = position.title ?? joined ?? '';
  const level = estimates.levelDb?.value;
  return {
    key: position.key.value,
    title,
    joined: joined === title ? undefined : joined,
    live: position.key.value === live,
    estimates,
    string: level === undefined || loudestDb === undefined ? undefined : stringLevel(level - loudestDb, estimates),
    verdict: positionVerdict(estimates, position.onPurpose !== undefined),
  };
}

/** Where coils cancel, what is left rests on how equal they are. */
function stringLevel(db: number, { signalDb }: PositionEstimates): { readonly db: number; readonly orLower: boolean } {
  const unbounded = signalDb !== undefined && onlyBoundedAbove(signalDb);
  return unbounded ? { db: Math.ceil(db + signalDb.sd), orLower: true } : { db, orLower: false };
}

const COUNTS = [
  'no',
  'one',
  'two',
  'three',
  'four',
  'five',
  'six',
  'seven',
  'eight',
  'nine',
  'ten',
  'eleven',
  'twelve',
];
const countWord = (count: number): string => COUNTS[count] ?? String(count);

function rowWords({ key, title, estimates, verdict }: PositionRow): string {
  const ohm = resistanceParts(estimates);
  const resistance = ohm.value === 'unknown' || ohm.value === 'open' ? ohm.value : `${ohm.value} kilohm`;
  return `Position ${key}, ${title}: ${resistance}. ${verdict.sentences.map(({ text }) => text).join(' ')}`;
}

interface Columns {
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
  readonly words: number;
  readonly wordsWidth: number;
}

const COLUMNS: Readonly<Record<DrawingWidth, Columns>> = {
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
    words: 250,
    wordsWidth: 222,
  },
};

const STRING_FLOOR_DB = -20;
const HUM_TOP_DB = 6;

function wideHeader({ loudest }: PositionsPicture, top: number): { nodes: readonly SvgNode[]; bottom: number } {
  const columns: readonly (readonly [x: number, anchor: 'start' | 'end', name: string, unit: string])[] = [
    [222, 'start', 'response at the jack', '\u22129 to +12\u202FdB'],
    [496, 'end', 'kΩ at the jack', 'nothing plugged in'],
    [516, 'start', 'string, dB', loudest === undefined ? '' : `against ${loudest}`],
    [628, 'start', 'hum, dB', 'its strongest coil is 0'],
    [768, 'start', 'in words', ''],
  ];
  const nodes = columns.flatMap(([x, anchor, name, unit]) => [
    textLine([{ text: name, bold: true }], { x, y: top + 12, anchor }),
    ...(unit === ''
      ? []
      : [textLine([{ text: fitText(unit, 176, { size: 12 }), quiet: true }], { x, y: top + 28, anchor })]),
  ]);
  return { nodes, bottom: top + 42 };
}

function drawRow(row: PositionRow, top: number, size: DrawingWidth): SvgNode {
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
    rowWords(row),
    ...marked,
    ...titleNodes(row, top, columns),
    ...sparkNodes(row, top, columns),
    ...(size === 'wide' ? wideNumbers(row, top) : narrowNumbers(row, top, frame.right)),
    ...stringNodes(row, top, columns, size),
    ...humNodes(row, top, columns, size),
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
    textLine([{ text: shownKey }], { x: keyX, y, anchor: 'start' }, { size: 14 }),
    ...lines.map((text, index) =>
      textLine([{ text, bold: true }], { x, y: y + 17 * index, anchor: 'start' }, { size }),
    ),
    ...(rest === undefined || (lines.length > 1 && titleWidth > 200)
      ? []
      : [textLine([{ text: rest, quiet: true }], { x, y: y + 17 * lines.length, anchor: 'start' })]),
  ];
}

/** The response above its own low notes, cut at the edges of its field. */
function sparkNodes(
  { estimates }: PositionRow,
  top: number,
  { spark: [left, right], sparkY }: Columns,
): readonly SvgNode[] {
  const { response, resonanceHz } = estimates;
  const x = scaleLog([100, 20_000], [left, right]);
  const y = scaleLinear([SPARK_FLOOR_DB, SPARK_TOP_DB], [top + sparkY[1], top + sparkY[0]]);
  const zeroLine = path('w1', d`M${left} ${y(0)}H${right}`);
  if (response === undefined) {
    return [zeroLine, textLine([{ text: 'unknown', quiet: true }], { x: left, y: y(0) - 8, anchor: 'start' })];
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
  const field: Box = { x: left, y: top + sparkY[0] - 4, width: right - left, height: sparkY[1] - sparkY[0] + 4 };
  const drawn = points.slice(1).map((point, index) => lineBox(points[index] ?? point, point, x, y));
  const base = { x: left, y: y(0) - 1, width: right - left, height: 2 };
  const words = (text: string, bold: boolean, spots: readonly Spot[]) => {
    const runs = [{ text, bold, quiet: !bold }];
    const free = spots.find((spot) => {
      const box = textBox(runs, spot, 12);
      return isInside(box, field) && ![...drawn, base].some((other) => overlap(box, other));
    });
    return free === undefined ? [] : [textLine(runs, free)];
  };
  const corners: readonly Spot[] = [y(0) - 6, top + sparkY[0] + 8, top + sparkY[1] - 4, y(0) + 14].flatMap((at) => [
    { x: right, y: at, anchor: 'end' as const },
    { x: left, y: at, anchor: 'start' as const },
    { x: (left + right) / 2, y: at, anchor: 'middle' as const },
  ]);
  const hz = resonanceHz?.value;
  if (resonanceHz === undefined || hz === undefined || hz < 100 || hz > 20_000) {
    return [zeroLine, curve, ...words('no peak', false, corners)];
  }
  const nearest = points.reduce(
    (best, point) => (Math.abs(Math.log(point.hz / hz)) < Math.abs(Math.log(best.hz / hz)) ? point : best),
    { hz: 1, db: 0 },
  );
  const at = { x: x(hz), y: y(Math.min(nearest.db, SPARK_TOP_DB)) };
  const beside: readonly Spot[] = [-3, -10, -17].flatMap((dy) => [
    { x: at.x - 8, y: at.y + dy, anchor: 'end' as const },
    { x: at.x + 8, y: at.y + dy, anchor: 'start' as const },
  ]);
  return [
    zeroLine,
    curve,
    circle('solid', at.x, at.y, 3),
    path('w1', d`M${at.x} ${top + sparkY[1] - 3}v5`),
    ...words(frequencyText(resonanceHz), true, [...beside, ...corners]),
  ];
}

type Scale = (value: number) => number;
type SparkPoint = { readonly hz: number; readonly db: number };

function lineBox(a: SparkPoint, b: SparkPoint, x: Scale, y: Scale): Box {
  const [ya, yb] = [y(a.db), y(b.db)];
  return { x: x(a.hz) - 2, y: Math.min(ya, yb) - 2, width: x(b.hz) - x(a.hz) + 4, height: Math.abs(ya - yb) + 4 };
}

const isInside = (box: Box, outer: Box): boolean =>
  box.x >= outer.x - 12 &&
  box.x + box.width <= outer.x + outer.width + 12 &&
  box.y >= outer.y &&
  box.y + box.height <= outer.y + outer.height;

const SPARK_FLOOR_DB = -9;
const SPARK_TOP_DB = 12;

function resistanceParts({ resistanceOhm }: PositionEstimates): {
  readonly value: string;
  readonly uncertainty?: string;
} {
  if (resistanceOhm === null) return { value: 'open' };
  if (resistanceOhm === undefined) return { value: 'unknown' };
  return printParts({ value: resistanceOhm.value, sd: resistanceOhm.sd, dimension: 'resistance', unit: 'kohm' });
}

function stringText({ string }: PositionRow): string {
  if (string === undefined) return 'unknown';
  return `${printNumber(string.db, 0)}${string.orLower ? ' or lower' : ''}`;
}

function wideNumbers({ estimates, string }: PositionRow, top: number): readonly SvgNode[] {
  const { value, uncertainty } = resistanceParts(estimates);
  const level = string === undefined ? 'unknown' : printNumber(string.db, 0);
  const below = (text: string | undefined, x: number) =>
    text === undefined ? [] : [textLine([{ text, quiet: true }], { x, y: top + 52, anchor: 'end' })];
  return [
    textLine([{ text: value }], { x: 496, y: top + 36, anchor: 'end' }, { size: 14 }),
    ...below(uncertainty && `± ${uncertainty}`, 496),
    textLine([{ text: level }], { x: 552, y: top + 36, anchor: 'end' }, { size: string === undefined ? 12 : 14 }),
    ...below(string?.orLower ? 'or lower' : undefined, 552),
  ];
}

function narrowNumbers({ estimates }: PositionRow, top: number, right: number): readonly SvgNode[] {
  const { value, uncertainty } = resistanceParts(estimates);
  const unit = value === 'open' || value === 'unknown' ? '' : '\u202FkΩ';
  const text = uncertainty === undefined ? `${value}${unit}` : `${value} ± ${uncertainty}${unit}`;
  return [textLine([{ text }], { x: right, y: top + 28, anchor: 'end' }, { size: 14 })];
}

function stringNodes(
  row: PositionRow,
  top: number,
  { string: [left, right] }: Columns,
  size: DrawingWidth,
): readonly SvgNode[] {
  const { string } = row;
  if (size === 'narrow') {
    const text = `${stringText(row)}${string === undefined || string.orLower ? '' : '\u202FdB'}`;
    return [
      textLine(
        [
          { text: 'string ', quiet: true },
          { text, bold: true },
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
  { estimates: { humDb }, live }: PositionRow,
  top: number,
  { hum: [left, right], humY }: Columns,
  size: DrawingWidth,
): readonly SvgNode[] {
  const y = top + humY;
  const textX = size === 'narrow' ? 250 : left;
  const name = size === 'narrow' ? [{ text: 'hum ', quiet: true }] : [];
  if (humDb === undefined)
    return [
      textLine([...name, { text: 'unknown', bold: true }], {
        x: textX,
        y: size === 'narrow' ? top + 84 : y - 3,
        anchor: 'start',
      }),
    ];
  const { number, shownDb, orLower } = levelWords(humDb);
  const x = scaleLinear([HUM_FLOOR_DB, HUM_TOP_DB], [left, right]).clamp(true);
  const end = x(shownDb);
  const arrow =
    end - left > 22
      ? path('barn', d`M${end - 4} ${y + 9}H${end - 18}m6 -3l-6 3l6 3`)
      : path('w2', d`M${Math.max(end, left + 6) + 20} ${y + 9}h-18m6 -4l-6 4l6 4`);
  return [
    path('hair', d`M${left} ${y + 9}H${right}`),
    ...(end > left ? [rect(live ? 'solid' : 'bar', left, y + 5, end - left, 8)] : []),
    ...(orLower ? [arrow] : []),
    size === 'narrow'
      ? textLine([...name, { text: `${number}${orLower ? '' : '\u202FdB'}`, bold: true }], {
          x: textX,
          y: top + 84,
          anchor: 'start',
        })
      : textLine([{ text: number }], { x: textX, y: y - 3, anchor: 'start' }, { size: 14 }),
  ];
}

function wordNodes(
  { verdict }: PositionRow,
  top: number,
  { words, wordsWidth }: Columns,
  size: DrawingWidth,
): readonly SvgNode[] {
  const lines = verdict.sentences.flatMap(({ text, standsOut }) =>
    wrapText(text, wordsWidth, { size: 12, bold: standsOut }).map((each) => ({ text: each, bold: standsOut })),
  );
  const shown = lines.slice(0, size === 'wide' ? 4 : 2);
  const first = size === 'wide' ? top + 39 - 8 * (shown.length - 1) : top + 104;
  return shown.map((run, index) => textLine([run], { x: words, y: first + 16 * index, anchor: 'start' }));
}

function drawScales(end: number, columns: Columns): SvgNode {
  const spark = scaleLog([100, 20_000], [...columns.spark]);
  const hum = scaleLinear([HUM_FLOOR_DB, HUM_TOP_DB], [...columns.hum]);
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
    'Scales of frequency in hertz, string signal and hum in decibels',
    ...ticks.flatMap(([x, text]) => [
      path('w1', d`M${x} ${end}v4`),
      textLine([{ text, quiet: true }], { x, y: end + 18, anchor: 'middle' }),
    ]),
  );
}
