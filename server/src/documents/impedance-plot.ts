/** Impedance between hot and ground over frequency, as a meter shows it: its size on a scale of equal ratios, its phase below, points of a sweep on both. */
import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { pickupImpedance } from '../estimates/inductance-meter.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { holdingSweep } from '../estimates/sweeps-used.ts';
import { type Complex, magnitude } from '../physics/complex.ts';
import { measuredPoints } from '../physics/sweep/measured-impedance.ts';
import { printQuantity } from '../quantities/print.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { titleOf } from '../words/parts.ts';
import { verdictWords } from '../words/sweep-words.ts';
import { type DrawingWidth, drawing, FRAMES, paragraphs, part, sheetHead } from './drawing-sheet.ts';
import { wordsAt } from './labels.ts';
import { type Axes, axesOf, FROM_HZ, TO_HZ } from './response-plot/axes.ts';
import { curvePath } from './response-plot/curve-shapes.ts';
import { circle, d, path, type SvgNode } from './svg.ts';

interface Point {
  readonly hz: number;
  readonly ohm: number;
  readonly degrees: number;
}

export interface ImpedancePicture {
  readonly name: string;
  readonly title: string;
  readonly curve: readonly Point[];
  readonly points: readonly Point[];
  readonly verdict: string | undefined;
}

/** `undefined` where inductance, resistance or the way from hot to ground is not known. */
export function impedancePicture({ pickup }: PickupAnalysis, quick: QuickEstimates): ImpedancePicture | undefined {
  const curve = DRAWN_HZ.map((hz) => pointOf(hz, pickupImpedance(quick, hz)));
  if (curve.some((point) => point === undefined)) return undefined;
  const swept = holdingSweep(quick, 'whole');
  const measured = swept?.sweeps.curves.flatMap((_, at) => measuredPoints(swept.fit, swept.sweeps, at)) ?? [];
  return {
    name: pickup.name,
    title: titleOf(pickup),
    curve: curve.flatMap((point) => point ?? []),
    points: measured.flatMap((point) => pointOf(point.hz, point.measured) ?? []),
    verdict: swept && verdictWords(swept),
  };
}

const POINTS = 240;
const DRAWN_HZ = Array.from({ length: POINTS + 1 }, (_, index) => FROM_HZ * (TO_HZ / FROM_HZ) ** (index / POINTS));

const pointOf = (hz: number, impedance: Complex | undefined): Point | undefined =>
  impedance && {
    hz,
    ohm: magnitude(impedance),
    degrees: (Math.atan2(impedance.im, impedance.re) * 180) / Math.PI,
  };

const PHASE_HEIGHT = 110;
const POINTS_APART = 7;

export function impedancePlot(picture: ImpedancePicture, size: DrawingWidth): string {
  const { name, title, curve, points, verdict } = picture;
  const frame = FRAMES[size];
  const highest = curve.reduce((best, each) => (each.ohm > best.ohm ? each : best));
  const head = sheetHead(
    {
      title,
      subtitle: `Impedance between hot and ground, nothing connected. Highest: ${ohms(highest.ohm)} at ${hertz(highest.hz)}.${points.length > 0 ? ' Points: as measured, the set-up taken out.' : ''}`,
    },
    frame,
  );
  const sizes = [...curve, ...points].filter(({ hz }) => hz >= FROM_HZ && hz <= TO_HZ).map(({ ohm }) => ohm);
  const decades: readonly [number, number] = [
    Math.floor(Math.log10(Math.min(...sizes))),
    Math.ceil(Math.log10(Math.max(...sizes))),
  ];
  const upper = axesOf(size, head.bottom + 24, decades);
  const lower: Axes = {
    ...axesOf(size, upper.bottom + 28, [-100, 100]),
    area: { ...upper.area, y: upper.bottom + 28, height: PHASE_HEIGHT },
    bottom: upper.bottom + 28 + PHASE_HEIGHT,
    y: (degrees) => upper.bottom + 28 + (PHASE_HEIGHT / 200) * (100 - degrees),
  };
  const hz = curve.map((each) => each.hz);
  const foot = paragraphs(verdict === undefined ? [] : [verdict], {
    x: frame.margin,
    y: lower.bottom + 46,
    width: frame.right - frame.margin,
  });
  return drawing(
    {
      t: ENGLISH,
      id: `impedance-${name}`,
      name: `Impedance of ${title}`,
      description: [
        `Size and phase from 20 hertz to 20 kilohertz. ${[100, 1000, 5000].map((each) => spoken(curve, each)).join('; ')}.`,
        `Highest: ${ohms(highest.ohm)} at ${hertz(highest.hz)}.`,
        ...(verdict === undefined ? [] : [verdict]),
      ].join(' '),
    },
    size,
    Math.ceil(Math.max(foot.bottom, lower.bottom + 26) + 20),
    [
      ...head.nodes,
      ...grid(upper, lower, decades),
      path(
        'now',
        curvePath(
          upper,
          hz,
          curve.map(({ ohm }) => Math.log10(ohm)),
        ),
      ),
      path(
        'now',
        curvePath(
          lower,
          hz,
          curve.map(({ degrees }) => degrees),
        ),
      ),
      part(
        'sweep:points',
        'Measured points',
        ...dots(points, upper, ({ ohm }) => Math.log10(ohm)),
        ...dots(points, lower, ({ degrees }) => degrees),
      ),
      ...foot.nodes,
    ],
  );
}

const ohms = (value: number): string => printQuantity({ value, dimension: 'resistance' });
const hertz = (value: number): string => printQuantity({ value, dimension: 'frequency' });

function spoken(curve: readonly Point[], hz: number): string {
  const near = curve.reduce((best, each) =>
    Math.abs(Math.log(each.hz / hz)) < Math.abs(Math.log(best.hz / hz)) ? each : best,
  );
  return `${ohms(near.ohm)} and ${near.degrees.toFixed(0)}° at ${hertz(hz)}`;
}

function dots(points: readonly Point[], axes: Axes, value: (point: Point) => number): readonly SvgNode[] {
  let last = Number.NEGATIVE_INFINITY;
  return points.flatMap((point) => {
    const [x, y] = [axes.x(point.hz), axes.y(value(point))];
    if (point.hz < FROM_HZ || point.hz > TO_HZ || x - last < POINTS_APART) return [];
    last = x;
    return [circle('pt', x, y, 2.5)];
  });
}

/** Decades of both, quarter turns of the phase. */
function grid(upper: Axes, lower: Axes, [low, high]: readonly [number, number]): readonly SvgNode[] {
  const decades = Array.from({ length: high - low + 1 }, (_, index) => low + index);
  const verticals = [FROM_HZ, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, TO_HZ];
  const named = upper.area.width < 500 ? [FROM_HZ, 100, 1000, 10_000] : verticals;
  const { area, right } = upper;
  return [
    path('hair', decades.map((each) => d`M${area.x} ${upper.y(each)}H${right}`).join('')),
    path('hair', [-90, 0, 90].map((each) => d`M${area.x} ${lower.y(each)}H${right}`).join('')),
    path(
      'hair',
      verticals
        .map((each) => d`M${upper.x(each)} ${area.y}V${upper.bottom}M${upper.x(each)} ${lower.area.y}V${lower.bottom}`)
        .join(''),
    ),
    ...decades.map((each) => wordsAt(ohms(10 ** each), area.x - 8, upper.y(each) + 4, { anchor: 'end' })),
    ...[-90, 0, 90].map((each) =>
      wordsAt(`${each > 0 ? '+' : each < 0 ? '−' : ''}${Math.abs(each)}°`, area.x - 8, lower.y(each) + 4, {
        anchor: 'end',
      }),
    ),
    ...named.map((each) =>
      wordsAt(
        each >= 1000 ? `${each / 1000}\u202Fk` : `${each}${each === FROM_HZ ? '\u202FHz' : ''}`,
        upper.x(each),
        lower.bottom + 20,
        { anchor: 'middle' },
      ),
    ),
  ];
}
