import { magnitude } from '../complex.ts';
import { type Network, netOf } from './network.ts';
import { rightSide, type SourceValues, sourceValue, transfers, type Unsolved } from './solve.ts';

/** Level of an output over frequency, in dB against 1 V (or 1 of whatever the source values are in). */
export interface Response {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
}

/** What a player hears of a response, as frequencies and heights against the level at 10 Hz. */
export interface ResponseFigures {
  /** Level at 10 Hz, in dB against 1 V. */
  readonly lowFrequencyLevelDb: number;
  /** Highest level between 200 Hz and 100 kHz; both null where it lies at an end of that range or below 0.01 dB. */
  readonly peakHz: number | null;
  readonly peakDb: number | null;
  /** Highest frequency up to 100 kHz at half power (-3.0103 dB); null where there is none. */
  readonly minus3DbHz: number | null;
}

/** Level of an output that is silent: a finite number, so that it can be drawn and printed. */
export const silenceDb = -300;

const halfPowerDb = 10 * Math.log10(0.5);
const referenceHz = 10;
const peakFromHz = 200;
const peakToHz = 100_000;
const smallestPeakDb = 0.01;

/**
 * Below this share of what the sources could give, an output at 10 Hz is rounding or what stray capacitances leave of a cancellation,
 * less than any two coils differ by: nothing is told above it.
 */
const cancelledShare = 1e-4;

/** Frequencies at equal ratios, both ends included. */
export function logFrequencies(fromHz: number, toHz: number, count: number): Float64Array {
  const step = Math.log(toHz / fromHz) / (count - 1);
  const frequencyHz = new Float64Array(count);
  for (let index = 0; index < count; index++) frequencyHz[index] = fromHz * Math.exp(step * index);
  frequencyHz[count - 1] = toHz;
  return frequencyHz;
}

/** The frequencies a plot shows. */
export function audioFrequencies(count = 500): Float64Array {
  return logFrequencies(lowestHz, highestHz, count);
}

/** Where responses are made for: what a string and an amplifier give. */
export const lowestHz = 20;
export const highestHz = 20_000;

/**
 * What drives a network at one time, or at several times: then the level is the root of the mean square, each time counted by its
 * weight (strings that different coils hear).
 */
export type Drives = SourceValues | readonly TimeOfDrive[];

export interface TimeOfDrive {
  readonly values: SourceValues;
  readonly weight: number;
}

export const timesOf = (drives: Drives): readonly TimeOfDrive[] =>
  isList(drives) ? drives : [{ values: drives, weight: 1 }];

const isList = (drives: Drives): drives is readonly TimeOfDrive[] => Array.isArray(drives);

/** Levels over frequencies above 0 Hz: the audible range in 500 steps, or those given. */
export function responseOf(
  network: Network,
  output: string,
  values: Drives,
  frequencyHz: Float64Array = audioFrequencies(),
): Response | Unsolved {
  const levelsAt = levelReader(network, output, values);
  if (levelsAt === 'floating') return 'floating';
  const levelDb = levelsAt(frequencyHz);
  return levelDb === 'undetermined' ? levelDb : { frequencyHz, levelDb };
}

/** Peak and -3 dB, found by search and refinement, not read off a plot's points. */
export function responseFigures(network: Network, output: string, values: Drives): ResponseFigures | Unsolved {
  const levelsAt = levelReader(network, output, values);
  if (levelsAt === 'floating') return 'floating';
  const levels = levelsAt(searchFrequencies);
  if (levels === 'undetermined') return 'undetermined';
  const low = levels[0] ?? silenceDb;
  if (low <= cancelledLevelDb(network, output, values))
    return { lowFrequencyLevelDb: low, peakHz: null, peakDb: null, minus3DbHz: null };
  const gainAt = (hz: number) => {
    const level = levelsAt(Float64Array.of(hz));
    return (level === 'undetermined' ? silenceDb : (level[0] ?? silenceDb)) - low;
  };
  const grid = Array.from(searchFrequencies, (hz, index) => ({ hz, db: (levels[index] ?? silenceDb) - low }));
  const points = withMaxima(grid, gainAt);
  const peak = highestWithin(points);
  return {
    lowFrequencyLevelDb: low,
    peakHz: peak?.hz ?? null,
    peakDb: peak?.db ?? null,
    minus3DbHz: halfPowerFrequency(points, gainAt),
  };
}

/** From 10 Hz on, fine enough that no resonance of a coil hides between two points. */
const searchFrequencies = Float64Array.of(
  ...logFrequencies(referenceHz, peakFromHz, 60).subarray(0, -1),
  ...logFrequencies(peakFromHz, peakToHz, 270),
);

interface Point {
  readonly hz: number;
  readonly db: number;
}

/** Levels at frequencies, by one solution for each time and frequency with all its sources at once. */
function levelReader(network: Network, output: string, drives: Drives) {
  const net = netOf(network, output);
  const { solver, islands } = network.alternating();
  if (net === undefined || islands[net] !== 0) return 'floating';
  const times = timesOf(drives);
  const whole = times.reduce((sum, { weight }) => sum + weight, 0);
  const rights = times.map(({ values, weight }) => ({ right: rightSide(network, values), share: weight / whole }));
  return (frequencyHz: Float64Array): Float64Array | 'undetermined' => {
    const count = frequencyHz.length;
    if (net === 0) return new Float64Array(count).fill(silenceDb);
    const re = new Float64Array(count);
    const im = new Float64Array(count);
    const omegas = new Float64Array(count);
    for (let f = 0; f < count; f++) omegas[f] = 2 * Math.PI * (frequencyHz[f] ?? 0);
    const square = new Float64Array(count);
    for (const { right, share } of rights) {
      if (!solver.sweep(omegas, right, net - 1, re, im)) return 'undetermined';
      for (let f = 0; f < count; f++) {
        const real = re[f] ?? 0;
        const imaginary = im[f] ?? 0;
        square[f] = (square[f] ?? 0) + share * (real * real + imaginary * imaginary);
      }
    }
    return square.map((each) => levelOf(Math.sqrt(each)));
  };
}

function levelOf(amplitude: number): number {
  return Math.max(silenceDb, 20 * Math.log10(amplitude));
}

/** Level that a total cancellation at 10 Hz can leave by rounding and strays alone. */
function cancelledLevelDb(network: Network, output: string, drives: Drives): number {
  const perUnit = transfers(network, output, referenceHz);
  if (typeof perUnit === 'string') return silenceDb;
  const given = timesOf(drives).map(({ values }) =>
    perUnit.reduce(
      (sum, transfer, source) => sum + magnitude(transfer) * Math.abs(sourceValue(network, source, values)),
      0,
    ),
  );
  return levelOf(cancelledShare * Math.max(0, ...given));
}

/** The grid with every maximum between its points put in. */
function withMaxima(grid: readonly Point[], gainAt: (hz: number) => number): Point[] {
  const points: Point[] = [];
  grid.forEach((point, index) => {
    points.push(point);
    const before = grid[index - 1];
    const after = grid[index + 1];
    if (before === undefined || after === undefined || point.db < before.db || point.db <= after.db) return;
    const top = maximumBetween(before, point, after, gainAt);
    if (top.hz < point.hz) points.splice(-1, 0, top);
    else if (top.hz > point.hz) points.push(top);
  });
  return points;
}

/** Vertex of the parabola through three points around a maximum, again and again until it stays. */
function maximumBetween(left: Point, middle: Point, right: Point, gainAt: (hz: number) => number): Point {
  let [a, b, c] = [left, middle, right];
  for (let round = 0; round < 40; round++) {
    const vertex = parabolaVertexHz(a, b, c);
    if (vertex === undefined || Math.abs(vertex / b.hz - 1) < 1e-9) break;
    const point = { hz: vertex, db: gainAt(vertex) };
    if (point.db > b.db) [a, b, c] = point.hz < b.hz ? [a, point, b] : [b, point, c];
    else if (point.hz < b.hz) a = point;
    else c = point;
  }
  return b;
}

function parabolaVertexHz(a: Point, b: Point, c: Point): number | undefined {
  const x = Math.log(a.hz / b.hz);
  const z = Math.log(c.hz / b.hz);
  const p = (a.db - b.db) / x;
  const q = (c.db - b.db) / z;
  const curvature = (q - p) / (z - x);
  if (!(curvature < 0)) return undefined;
  const shift = -(p - curvature * x) / (2 * curvature);
  return shift > x && shift < z ? b.hz * Math.exp(shift) : undefined;
}

function highestWithin(points: readonly Point[]): Point | undefined {
  const within = points.filter(({ hz }) => hz >= peakFromHz);
  const highest = within.reduce<Point | undefined>(
    (best, point) => (best && best.db >= point.db ? best : point),
    undefined,
  );
  if (highest === undefined || highest === within[0] || highest === within.at(-1)) return undefined;
  return highest.db < smallestPeakDb ? undefined : highest;
}

function halfPowerFrequency(points: readonly Point[], gainAt: (hz: number) => number): number | null {
  for (let index = points.length - 2; index >= 0; index--) {
    const inside = points[index];
    const outside = points[index + 1];
    if (inside === undefined || outside === undefined) continue;
    if (inside.db >= halfPowerDb !== outside.db >= halfPowerDb)
      return crossing(inside.hz, outside.hz, inside.db, gainAt);
  }
  return null;
}

function crossing(fromHz: number, toHz: number, fromDb: number, gainAt: (hz: number) => number): number {
  const above = fromDb >= halfPowerDb;
  let [near, far] = [fromHz, toHz];
  while (far / near - 1 > 1e-12) {
    const middle = Math.sqrt(near * far);
    if (middle <= near || middle >= far) break;
    if (gainAt(middle) >= halfPowerDb === above) near = middle;
    else far = middle;
  }
  return near;
}
