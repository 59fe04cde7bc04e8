/** A sweep in the response plot: its points brought to the load that is shown, what the fit leaves of them, its numbers beside the computed ones. */
import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import { type Load, loadAdmittance } from '../../estimates/pickup-estimates.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { ResponseBand } from '../../estimates/response-band.ts';
import { computedBeside, LOSS_TOLD_HZ } from '../../estimates/sweep-comparison.ts';
import { lossesBeside } from '../../estimates/sweep-diagnosis.ts';
import type { SweptCoil } from '../../estimates/sweeps-measured.ts';
import { holdingSweep } from '../../estimates/sweeps-used.ts';
import { type MeasuredPoint, measuredPoints } from '../../physics/sweep/measured-impedance.ts';
import { offFitted } from '../../physics/sweep/under-load.ts';
import type { Estimate } from '../../quantities/estimate.ts';
import { printNumber, printQuantity } from '../../quantities/print.ts';
import type { Language } from '../../words/languages/language.ts';
import { numberText } from '../../words/number-text.ts';
import { keysOf, type NumberName } from '../../words/numbers.ts';
import { deviationsApart, SWEPT_NUMBERS, sweptNumberText, verdictWords } from '../../words/sweep-words.ts';

export interface MeasuredPicture {
  /** As the curve of the band has it, dB. */
  readonly points: PointsPicture;
  /** Of the curve before. */
  readonly pointsBefore?: PointsPicture;
  readonly strips: readonly StripPicture[];
  /** Whether the circuit holds, or what has changed. */
  readonly verdict: string;
  /** What the points and the strip are. */
  readonly legend: readonly string[];
  readonly numbers?: NumbersPicture;
}

export interface NumbersPicture {
  readonly heads: NumberRow;
  readonly rows: readonly NumberRow[];
  /** True where the last column is a change, with its own ±. */
  readonly isChange: boolean;
}

export interface PointsPicture {
  readonly hz: readonly number[];
  readonly levelDb: readonly number[];
}

/** What is left between two lines that nearly coincide, in a band of two deviations. */
export interface StripPicture {
  /** Before its axis. */
  readonly word: string;
  readonly title: string;
  readonly unit: 'dB' | '°';
  readonly hz: readonly number[];
  readonly off: readonly number[];
  readonly offSd: readonly number[];
  /** True where what it shows is not expected to lie in the band. */
  readonly isChange: boolean;
}

/** Its name, the number it is held against, the number measured, how far they are apart; the same in deviations where it is drawn as a dot, too. */
export type NumberRow = readonly [string, string, string, string, number?];

const DB = 20 / Math.LN10;
const DEGREES = 180 / Math.PI;

/**
 * `undefined` where no sweep of the whole pickup is used. A point lies off the drawn curve by as much as the response of what was measured
 * lies off that of the fit, under the same load: so it moves with pots and cable as the curve does.
 */
export function measuredPicture(
  { netlist }: PickupAnalysis,
  quick: QuickEstimates,
  band: ResponseBand,
  load: Load,
  t: Language,
): MeasuredPicture | undefined {
  const swept = holdingSweep(quick, 'whole');
  if (!swept) return undefined;
  const farad = swept.capacitanceF.value;
  const points = swept.sweeps.curves.flatMap((_, at) => measuredPoints(swept.fit, swept.sweeps, at));
  if (points.length === 0) return undefined;
  const shown = points.filter(({ hz }) => hz >= 20 && hz <= 20_000);
  const computed = computedBeside(swept, netlist, quick.bench);
  const hz = shown.map((point) => point.hz);
  return {
    points: {
      hz,
      levelDb: shown.map((point) => levelAt(band, point.hz) + offFitted(point, farad, loadAdmittance(load, point.hz))),
    },
    strips: [
      restStrip({ hz, off: shown.map(({ rest }) => rest * DB), offSd: shown.map(({ sd }) => sd * DB) }, t),
      ...phaseStrips(shown, t),
    ],
    verdict: verdictWords(swept, t),
    legend: [
      t('Points: as measured, brought to this load.'),
      shown.some(({ phaseRest }) => phaseRest !== undefined)
        ? t('Rest in decibels, below it of the phase in degrees, each in a band of two deviations of the points.')
        : t('Rest in decibels, in a band of two deviations of the points. The sweep holds no phase.'),
    ],
    numbers: numbersOf(swept, computed, quick, t),
  };
}

/** Of a closed pickup nothing is computed: there is nothing to hold its numbers against. */
function numbersOf(
  swept: SweptCoil,
  computed: ReturnType<typeof computedBeside>,
  quick: QuickEstimates,
  t: Language,
): NumbersPicture {
  const rows = [
    ...keysOf(SWEPT_NUMBERS).map((key) =>
      numberRow(
        t(SWEPT_NUMBERS[key].what),
        SWEPT_NUMBERS[key],
        computed[key],
        swept[key],
        t,
        sweptNumberText(swept, key, t),
      ),
    ),
    ...lossRows(swept, quick, t),
  ];
  const isBeside = rows.some(([, held]) => held !== '');
  return {
    isChange: false,
    heads: [
      t('from the sweep'),
      isBeside ? t('computed') : '',
      t('measured'),
      isBeside ? t('apart, in deviations') : '',
    ],
    rows,
  };
}

type StripPoints = Pick<StripPicture, 'hz' | 'off' | 'offSd'>;

/** Of level. */
export const restStrip = (points: StripPoints, t: Language): StripPicture => ({
  word: t('rest'),
  title: t('What is left, measured less fitted'),
  unit: 'dB',
  isChange: false,
  ...points,
});

export const phaseStrip = (points: StripPoints, t: Language): StripPicture => ({
  word: t('phase'),
  title: t('What is left of the phase, measured less fitted'),
  unit: '°',
  isChange: false,
  ...points,
});

/** Of the points that hold phase; of several sweeps one may hold none. */
function phaseStrips(shown: readonly MeasuredPoint[], t: Language): readonly StripPicture[] {
  const points = shown.flatMap(({ hz, phaseRest, sd }) => (phaseRest === undefined ? [] : [{ hz, phaseRest, sd }]));
  if (points.length === 0) return [];
  return [
    phaseStrip(
      {
        hz: points.map(({ hz }) => hz),
        off: points.map(({ phaseRest }) => phaseRest * DEGREES),
        offSd: points.map(({ sd }) => sd * DEGREES),
      },
      t,
    ),
  ];
}

function numberRow(
  what: string,
  name: Omit<NumberName, 'what'>,
  computed: Estimate | undefined,
  measured: Estimate,
  t: Language,
  text = numberText(measured, name, t),
): NumberRow {
  const words = [what, computed ? numberText(computed, name, t) : '', text] as const;
  if (!computed) return [...words, ''];
  const apart = deviationsApart(measured, computed);
  return [...words, printNumber(apart, 1, t.numbers), measured.value < computed.value ? -apart : apart];
}

/** Share in all and corner go together, and far up nobody hears them: how far apart is told where a resonance lies. */
function lossRows(swept: SweptCoil, quick: QuickEstimates, t: Language): readonly NumberRow[] {
  const { losses, tooWeak } = swept;
  if (!losses || tooWeak.includes('losses')) return [];
  const { measured, computed, inAll } = lossesBeside(swept, quick);
  const hz = (value: number) => printQuantity({ value, dimension: 'frequency', digits: 2, style: t.numbers });
  const corner = inAll && Number.isFinite(inAll.cornerHz) ? hz(inAll.cornerHz) : '';
  return [
    numberRow(t('lost to metal at {0}', hz(LOSS_TOLD_HZ)), PART, computed, measured, t),
    [t('lost far above'), inAll ? numberText(inAll.share, PART, t) : '', numberText(losses.share, PART, t), ''],
    [t('corner of that loss'), corner, numberText(losses.cornerHz, CORNER, t), ''],
  ];
}

const PART = { dimension: 'percentage' } as const;
const CORNER = { dimension: 'frequency' } as const;

/** Between the computed points the level is straight over the logarithm of frequency. */
export const levelAt = ({ frequencyHz, levelDb }: ResponseBand, hz: number): number =>
  levelBetween(frequencyHz, levelDb, hz);

export function levelBetween(frequencyHz: readonly number[], levelDb: readonly number[], hz: number): number {
  const above = frequencyHz.findIndex((each) => each >= hz);
  const upper = Math.max(1, above < 0 ? frequencyHz.length - 1 : above);
  const [f1 = hz, f2 = hz] = [frequencyHz[upper - 1], frequencyHz[upper]];
  const [level1 = 0, level2 = 0] = [levelDb[upper - 1], levelDb[upper]];
  return f1 === f2 ? level1 : level1 + ((level2 - level1) * Math.log(hz / f1)) / Math.log(f2 / f1);
}
