/** A sweep in the response plot: its points brought to the load that is shown, what the fit leaves of them, its numbers beside the computed ones. */
import type { PickupAnalysis } from '../../analysis/analysis-types.ts';
import type { Load } from '../../estimates/pickup-estimates.ts';
import type { QuickEstimates } from '../../estimates/quick.ts';
import type { ResponseBand } from '../../estimates/response-band.ts';
import { computedBeside } from '../../estimates/sweep-comparison.ts';
import { holdingSweep } from '../../estimates/sweeps-used.ts';
import { add, type Complex, divide, magnitude } from '../../physics/complex.ts';
import { type MeasuredPoint, measuredPoints } from '../../physics/sweep/measured-impedance.ts';
import { printNumber } from '../../quantities/print.ts';
import type { Language } from '../../words/languages/language.ts';
import { numberText } from '../../words/number-text.ts';
import { keysOf } from '../../words/numbers.ts';
import { deviationsApart, SWEPT_NUMBERS, verdictWords } from '../../words/sweep-words.ts';

export interface MeasuredPicture {
  readonly hz: readonly number[];
  /** As the curve of the band has it, dB. */
  readonly levelDb: readonly number[];
  readonly restDb: readonly number[];
  readonly sdDb: readonly number[];
  /** Whether the circuit holds. */
  readonly verdict: string;
  readonly rows: readonly MeasuredRow[];
}

export interface MeasuredRow {
  readonly what: string;
  readonly measured: string;
  /** Empty where nothing is computed. */
  readonly computed: string;
  readonly apart: string;
}

const DB = 20 / Math.LN10;

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
  return {
    hz: shown.map(({ hz }) => hz),
    levelDb: shown.map((point) => levelAt(band, point.hz) + offCurve(point, farad, loadAt(load, point.hz))),
    restDb: shown.map(({ rest }) => rest * DB),
    sdDb: shown.map(({ sd }) => sd * DB),
    verdict: verdictWords(swept, t),
    rows: keysOf(SWEPT_NUMBERS).map((key) => {
      const beside = computed[key];
      return {
        what: t(SWEPT_NUMBERS[key].what),
        measured: numberText(swept[key], SWEPT_NUMBERS[key], t),
        computed: beside ? numberText(beside, SWEPT_NUMBERS[key], t) : '',
        apart: beside ? printNumber(deviationsApart(swept[key], beside), 1, t.numbers) : '',
      };
    }),
  };
}

/** 20 lg of V/e of what was measured over that of the fit; e lies in the winding: V/e = 1/(Zs (1/Z + Y)), 1/Zs = 1/Z − jωC. */
function offCurve({ hz, measured, fitted }: MeasuredPoint, farad: number, load: Complex): number {
  const own: Complex = { re: 0, im: -2 * Math.PI * hz * farad };
  const voltage = (impedance: Complex) => {
    const admittance = divide({ re: 1, im: 0 }, impedance);
    return magnitude(divide(add(admittance, own), add(admittance, load)));
  };
  return DB * Math.log(voltage(measured) / voltage(fitted));
}

function loadAt({ volumeOhm, toneOhm, toneF, cableF, inputOhm }: Load, hz: number): Complex {
  const omega = 2 * Math.PI * hz;
  const tone: Complex =
    toneOhm === undefined
      ? { re: 0, im: 0 }
      : divide({ re: 0, im: omega * toneF }, { re: 1, im: omega * toneF * toneOhm });
  const plain = (volumeOhm === undefined ? 0 : 1 / volumeOhm) + (inputOhm === undefined ? 0 : 1 / inputOhm);
  return add(tone, { re: plain, im: omega * cableF });
}

/** Between the computed points the level is straight over the logarithm of frequency. */
export function levelAt({ frequencyHz, levelDb }: ResponseBand, hz: number): number {
  const above = Math.max(
    1,
    frequencyHz.findIndex((each) => each >= hz),
  );
  const [f1 = hz, f2 = hz] = [frequencyHz[above - 1], frequencyHz[above]];
  const [level1 = 0, level2 = 0] = [levelDb[above - 1], levelDb[above]];
  return f1 === f2 ? level1 : level1 + ((level2 - level1) * Math.log(hz / f1)) / Math.log(f2 / f1);
}
