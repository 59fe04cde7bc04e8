/** The frame of a response plot: frequency from 20 Hz to 20 kHz at equal ratios, level in decibels. */

import { type ScaleContinuousNumeric, scaleLinear, scaleLog } from 'd3-scale';
import { printNumber } from '../../quantities/print.ts';
import type { Language } from '../../words/languages/language.ts';
import { type PlotWidth, part } from '../drawing-sheet.ts';
import { type Box, wordsAt } from '../labels.ts';
import { d, path, type SvgElement } from '../svg.ts';

export const FROM_HZ = 20;
export const TO_HZ = 20_000;

export interface Axes {
  readonly area: Box;
  readonly right: number;
  readonly bottom: number;
  readonly floorDb: number;
  readonly topDb: number;
  readonly x: (hz: number) => number;
  readonly y: (db: number) => number;
}

const AREAS: Readonly<Record<PlotWidth, Omit<Box, 'y'>>> = {
  wide: { x: 76, width: 820, height: 306 },
  narrow: { x: 58, width: 396, height: 248 },
  slim: { x: 54, width: 292, height: 220 },
};

export function axesOf(size: PlotWidth, top: number, [floorDb, topDb]: readonly [number, number]): Axes {
  const area: Box = { ...AREAS[size], y: top };
  const [right, bottom] = [area.x + area.width, area.y + area.height];
  const x: ScaleContinuousNumeric<number, number> = scaleLog([FROM_HZ, TO_HZ], [area.x, right]);
  const y: ScaleContinuousNumeric<number, number> = scaleLinear([floorDb, topDb], [bottom, area.y]);
  return { area, right, bottom, floorDb, topDb, x: (hz) => x(hz), y: (db) => y(db) };
}

export function drawAxes(axes: Axes, size: PlotWidth, t: Language): SvgElement {
  const { area, right, bottom, x, y, floorDb, topDb } = axes;
  const step = topDb - floorDb > 36 ? 12 : 6;
  const levels = range(Math.ceil(floorDb / 3) * 3, topDb, 3).filter((db) => step === 6 || db % 6 === 0);
  const named = levels.filter((db) => db % step === 0);
  const unitAt = named.filter((db) => db > 0).at(-1) ?? named.at(-1);
  const bases = [10, 100, 1000, 10_000];
  const majors = bases.flatMap((base) => [1, 2, 5].map((digit) => digit * base)).filter(inRange);
  const minors = bases.flatMap((base) => [3, 4, 6, 7, 8, 9].map((digit) => digit * base)).filter(inRange);
  const spoken = majors.filter((hz) => size === 'wide' || !SKIPPED_NARROW.has(hz));
  return part(
    'axes',
    t('Frequency from 20 hertz to 20 kilohertz, level in decibels'),
    path('hair', levels.map((db) => d`M${area.x} ${y(db)}H${right}`).join('')),
    path('hair', majors.map((hz) => d`M${x(hz)} ${area.y}V${bottom}`).join('')),
    path('w1', d`M${area.x} ${y(0)}H${right}`),
    path('w1', minors.map((hz) => d`M${x(hz)} ${bottom}v4`).join('')),
    ...named.map((db) =>
      wordsAt(`${db > 0 ? '+' : ''}${printNumber(db, 0)}${db === unitAt ? '\u202FdB' : ''}`, area.x - 10, y(db) + 4, {
        anchor: 'end',
      }),
    ),
    ...spoken.map((hz) => wordsAt(tickText(hz), x(hz), bottom + 20, { anchor: 'middle' })),
  );
}

/** Ticks whose numbers would crowd a narrow axis. */
const SKIPPED_NARROW = new Set([50, 200, 500, 5000]);

const inRange = (hz: number): boolean => hz >= FROM_HZ && hz <= TO_HZ;

function tickText(hz: number): string {
  if (hz >= 1000) return `${hz / 1000}\u202Fk`;
  return hz === FROM_HZ ? `${hz}\u202FHz` : String(hz);
}

function range(from: number, to: number, step: number): readonly number[] {
  return Array.from({ length: Math.floor((to - from) / step + 1e-9) + 1 }, (_, index) => from + index * step);
}
