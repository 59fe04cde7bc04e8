/** Impedance between hot and ground over frequency, as a meter shows it: its size on a scale of equal ratios, its phase below, points of a sweep on both. */
import { given } from '../../../grammar/values/present.ts';
import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { pickupImpedance } from '../estimates/inductance-meter.ts';
import { responseBasis } from '../estimates/measured-basis.ts';
import type { QuickOf } from '../estimates/position-network.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { holdingSweep } from '../estimates/sweeps-used.ts';
import { asSwept } from '../estimates/swept-whole.ts';
import { withoutSweeps } from '../model/sweeps.ts';
import { type Complex, magnitude } from '../physics/complex.ts';
import { measuredPoints } from '../physics/sweep/measured-impedance.ts';
import { printQuantity } from '../quantities/print.ts';
import { ENGLISH, type Language } from '../words/languages/language.ts';
import { titleOf } from '../words/parts.ts';
import { verdictWords } from '../words/sweep-words.ts';
import { drawing, type FactTable, FRAMES, type PlotWidth, paragraphs, part, sheetHead } from './drawing-sheet.ts';
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
  readonly t: Language;
  readonly name: string;
  readonly title: string;
  readonly curve: readonly Point[];
  /** What is computed without the sweep. */
  readonly computed?: readonly Point[];
  readonly points: readonly Point[];
  /** True where the curve rests on what was measured alone. */
  readonly isMeasured: boolean;
  readonly verdict: string | undefined;
}

/** `undefined` where inductance, resistance or the way from hot to ground is not known. */
export function impedancePicture(
  { pickup }: PickupAnalysis,
  quickOf: QuickOf,
  t: Language = ENGLISH,
): ImpedancePicture | undefined {
  const quick = quickOf(pickup);
  const curve = curveOf(quick);
  if (curve === undefined) return undefined;
  const swept = holdingSweep(quick, 'whole');
  const measured = swept?.sweeps.curves.flatMap((_, at) => measuredPoints(swept.fit, swept.sweeps, at)) ?? [];
  return {
    t,
    name: pickup.name,
    title: titleOf(pickup),
    curve,
    ...given({ computed: swept && curveOf(quickOf(withoutSweeps(pickup))) }),
    points: measured.flatMap((point) => pointOf(point.hz, point.measured) ?? []),
    isMeasured: responseBasis(asSwept(quick)).height === 'reading',
    verdict: swept && verdictWords(swept, t),
  };
}

function curveOf(quick: QuickEstimates): readonly Point[] | undefined {
  const curve = DRAWN_HZ.map((hz) => pointOf(hz, pickupImpedance(quick, hz)));
  return curve.every((point) => point !== undefined) ? curve : undefined;
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

export function impedancePlot(picture: ImpedancePicture, size: PlotWidth): string {
  const { t, name, title, curve, computed, points, isMeasured, verdict } = picture;
  const frame = FRAMES[size];
  const head = sheetHead(
    {
      title,
      subtitle: [
        t('Impedance between hot and ground, nothing connected.'),
        highestWords(picture),
        ...(points.length > 0 ? [t('Points: as measured, the set-up taken out.')] : []),
        ...(computed ? [t('Dashed: computed, without the sweep.')] : []),
      ].join(' '),
    },
    frame,
  );
  const sizes = [...curve, ...(computed ?? []), ...points].filter(({ hz }) => hz >= FROM_HZ && hz <= TO_HZ);
  const decades: readonly [number, number] = [
    Math.floor(Math.log10(Math.min(...sizes.map(({ ohm }) => ohm)))),
    Math.ceil(Math.log10(Math.max(...sizes.map(({ ohm }) => ohm)))),
  ];
  const upper = axesOf(size, head.bottom + 24, decades);
  const lower: Axes = {
    ...axesOf(size, upper.bottom + 28, [-100, 100]),
    area: { ...upper.area, y: upper.bottom + 28, height: PHASE_HEIGHT },
    bottom: upper.bottom + 28 + PHASE_HEIGHT,
    y: (degrees) => upper.bottom + 28 + (PHASE_HEIGHT / 200) * (100 - degrees),
  };
  const both = (of: readonly Point[], className: 'now' | 'was') => {
    const hz = of.map((each) => each.hz);
    return [
      path(className, curvePath(upper, hz, of.map(logSize))),
      path(
        className,
        curvePath(
          lower,
          hz,
          of.map(({ degrees }) => degrees),
        ),
      ),
    ];
  };
  const foot = paragraphs(verdict === undefined ? [] : [verdict], {
    x: frame.margin,
    y: lower.bottom + 46,
    width: frame.right - frame.margin,
  });
  return drawing(
    {
      t,
      id: `impedance-${name}`,
      name: t('Impedance of {0}', title),
      description: [
        t('Size and phase from 20 hertz to 20 kilohertz.'),
        `${[100, 1000, 5000].map((each) => spoken(curve, each, t)).join('; ')}.`,
        highestWords(picture),
        ...(verdict === undefined ? [] : [verdict]),
      ].join(' '),
    },
    size,
    Math.ceil(Math.max(foot.bottom, lower.bottom + 26) + 20),
    [
      ...head.nodes,
      ...grid(upper, lower, decades, t),
      ...(computed ? [part('impedance:computed', t('computed'), ...both(computed, 'was'))] : []),
      part(
        'impedance:now',
        t(isMeasured ? 'measured' : computed ? 'measured in part' : 'computed'),
        ...both(curve, 'now'),
      ),
      ...(points.length > 0
        ? [
            part(
              'sweep:points',
              t('Measured points, {0} of them', String(points.length)),
              ...dots(points, upper, logSize),
              ...dots(points, lower, ({ degrees }) => degrees),
            ),
          ]
        : []),
      ...foot.nodes,
    ],
  );
}

/** The same as rows; with a sweep, what is computed without it and what was measured beside each other. */
export function impedanceTable({ t, title, curve, computed, isMeasured, verdict }: ImpedancePicture): FactTable {
  const curves = [...(computed ? [computed] : []), curve];
  const rows = TABLE_HZ.map((hz) => [
    hertz(hz, t),
    ...curves.map((of) => {
      const { ohm, degrees } = nearestTo(of, hz);
      return `${ohms(ohm, t)}, ${phaseText(degrees)}`;
    }),
  ]);
  return {
    caption: [t('Impedance of {0}', title), ...(verdict === undefined ? [] : [verdict])].join('. '),
    columns: [
      '',
      ...(computed ? [t('computed')] : []),
      t(isMeasured ? 'measured' : computed ? 'measured in part' : 'computed'),
    ],
    rows,
  };
}

const TABLE_HZ = [20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];

const logSize = ({ ohm }: Point): number => Math.log10(ohm);

const ohms = (value: number, t: Language): string =>
  printQuantity({ value, dimension: 'resistance', digits: 3, style: t.numbers });
const hertz = (value: number, t: Language): string =>
  printQuantity({ value, dimension: 'frequency', digits: 3, style: t.numbers });
const phaseText = (degrees: number): string =>
  `${degrees > 0.5 ? '+' : degrees < -0.5 ? '−' : ''}${Math.abs(degrees).toFixed(0)}°`;

function highestWords({ t, curve }: ImpedancePicture): string {
  const { ohm, hz } = curve.reduce((best, each) => (each.ohm > best.ohm ? each : best));
  return t('Highest: {0} at {1}.', ohms(ohm, t), hertz(hz, t));
}

const nearestTo = (curve: readonly Point[], hz: number): Point =>
  curve.reduce((best, each) => (Math.abs(Math.log(each.hz / hz)) < Math.abs(Math.log(best.hz / hz)) ? each : best));

function spoken(curve: readonly Point[], hz: number, t: Language): string {
  const { ohm, degrees } = nearestTo(curve, hz);
  return t('{0} and {1} at {2}', ohms(ohm, t), phaseText(degrees), hertz(hz, t));
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
function grid(upper: Axes, lower: Axes, [low, high]: readonly [number, number], t: Language): readonly SvgNode[] {
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
    ...decades.map((each) =>
      wordsAt(
        printQuantity({ value: 10 ** each, dimension: 'resistance', style: t.numbers }),
        area.x - 8,
        upper.y(each) + 4,
        { anchor: 'end' },
      ),
    ),
    ...[-90, 0, 90].map((each) => wordsAt(phaseText(each), area.x - 8, lower.y(each) + 4, { anchor: 'end' })),
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
