/** The reference curves as the kernel takes them, and the numbers that are asked of each fit. */
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Curve } from '../../server/src/model/curve.ts';
import { curveFile } from '../../server/src/model/curve-file.ts';
import { coilModel, partsOfForm } from '../../server/src/physics/sweep/coil-form.ts';
import { type Figure, figureOf, type SweepFit } from '../../server/src/physics/sweep/sweep-fit.ts';
import type {
  MeasuredCurve,
  SetUpKind,
  SweepProblem,
  SweepsOfCoil,
} from '../../server/src/physics/sweep/sweep-problem.ts';

const FOLDER = path.resolve(import.meta.dirname, '../physics/sweeps');

export interface ReferenceCurve {
  readonly file: string;
  readonly setup: {
    readonly kind: 'impedance' | 'divider' | 'sense' | 'exciter' | 'alone';
    readonly seriesOhm?: number;
    readonly seriesToleranceShare?: number;
    readonly inputOhm?: number;
    readonly inputF?: number;
    readonly inputSdF?: number;
    readonly addedF?: number;
    readonly addedToleranceShare?: number;
  };
  readonly resistanceReading?: { readonly ohm: number; readonly sdShare: number };
  readonly group?: string;
  readonly fault?: string;
  readonly mustNotState?: readonly string[];
  readonly truth: Readonly<Record<string, unknown>>;
  readonly attainable?: Readonly<Record<string, { readonly sdPercent?: number; readonly sdDb?: number }>>;
}

export const referenceCurves: readonly ReferenceCurve[] = JSON.parse(
  readFileSync(path.join(FOLDER, 'curves.json'), 'utf8'),
);

export function curveAt(file: string): Curve {
  const read = curveFile(readFileSync(path.join(FOLDER, file), 'utf8'));
  if (read.kind === 'complaint') throw new Error(`${file}: ${read.reason}`);
  return read;
}

const KINDS: Readonly<Record<ReferenceCurve['setup']['kind'], SetUpKind>> = {
  impedance: 'impedance',
  divider: 'through',
  sense: 'over',
  exciter: 'excited',
  alone: 'alone',
};

export function measuredCurve({ file, setup }: ReferenceCurve): MeasuredCurve {
  const { hz, magnitude, phase, relativeSd } = curveAt(file);
  return {
    kind: KINDS[setup.kind],
    hz,
    magnitude,
    phase,
    relativeSd,
    seriesOhm: setup.seriesOhm ?? 0,
    seriesSd: (setup.seriesToleranceShare ?? 0) / 2,
    addedFarad: setup.addedF ?? 0,
    addedSd: (setup.addedToleranceShare ?? 0) / 2,
    scaleSd: setup.kind === 'impedance' ? 0.001 : 0.03 * (Math.LN10 / 20),
  };
}

/** Alone, or with those that its numbers come from together: an exciter's pair, a recorder swept by itself. */
export function sweepsFor(entry: ReferenceCurve): SweepsOfCoil {
  const together =
    entry.setup.kind === 'exciter' || entry.file === 'curves/c-pickup.csv'
      ? referenceCurves.filter(({ group }) => group !== undefined && group === entry.group)
      : [];
  const entries = together.length > 0 ? together : [entry];
  const { inputOhm = 1e6, inputF = 1.5e-10, inputSdF = 3e-11 } = entry.setup;
  return {
    curves: entries.map(measuredCurve),
    recorder: { ohm: inputOhm, ohmSd: 0.025, farad: inputF, faradSd: inputSdF },
    dc: entries.flatMap(({ resistanceReading }) =>
      resistanceReading ? [{ ohm: resistanceReading.ohm, sd: resistanceReading.sdShare, meterSd: 0 }] : [],
    ),
  };
}

/** Numbers of the bare coil, by the names that the reference has for them. */
export function figuresOf(fit: SweepFit): Readonly<Record<string, Figure>> {
  const parts = partsOfForm(fit.form);
  const ofOneForm: SweepFit = { ...fit, rival: undefined };
  const figure = (f: Parameters<typeof figureOf>[1]) => figureOf(fit, f);
  return {
    inductanceH: figure(([, henry = 0]) => Math.exp(henry)),
    resistanceOhm: figure(([ohm = 0]) => Math.exp(ohm)),
    capacitanceF: figure(([, , farad = 0]) => Math.exp(farad)),
    quality1kHz: figure((values, problem) => {
      const { re, im } = problem.admittanceAt(values, 0, 1000);
      return -im / re;
    }),
    loadedPeakHz: figure((...at) => loadedPeak(...at).hz),
    loadedPeakDb: figure((...at) => loadedPeak(...at).db),
    // A solid core may do as well; of one loop its own numbers are judged.
    ...(parts.length === 1 && parts[0] === 'loop'
      ? {
          eddyCouplingSquared: figureOf(ofOneForm, ([, , , logit = 0]) => 1 / (1 + Math.exp(-logit))),
          eddyCornerHz: figureOf(ofOneForm, ([, , , , corner = 0]) => Math.exp(corner)),
        }
      : {}),
  };
}

/** Behind 500 kohm of volume, 500 kohm and 22 nF of tone, 450 pF of cable and 1 Mohm: where it is highest, and over 10 Hz. */
function loadedPeak(values: Float64Array, problem: SweepProblem): { readonly hz: number; readonly db: number } {
  const coil = coilModel(problem.form, { ohm: 1, henry: 1, farad: 1 });
  coil.take(values, 0);
  const level = (hz: number): number => {
    coil.at(hz, 1);
    const { re: ownRe, im: ownIm } = problem.admittanceAt(values, 0, hz);
    const omega = 2 * Math.PI * hz;
    const [re, im] = [500e3, -1 / (omega * 22e-9)];
    const square = re * re + im * im;
    const yRe = ownRe + 1 / 500e3 + 1e-6 + re / square;
    const yIm = ownIm + omega * 450e-12 - im / square;
    return -20 * Math.log10(Math.hypot(coil.series[0] ?? 0, coil.series[1] ?? 0) * Math.hypot(yRe, yIm));
  };
  let best = 300;
  for (let hz = 300; hz < 20_000; hz *= 1.02) if (level(hz) > level(best)) best = hz;
  let [low, high] = [best / 1.03, best * 1.03];
  for (let round = 0; round < 50; round++) {
    const [a, b] = [low + 0.382 * (high - low), low + 0.618 * (high - low)];
    if (level(a) > level(b)) high = b;
    else low = a;
  }
  const hz = (low + high) / 2;
  return { hz, db: level(hz) - level(10) };
}

/** Of a recorder that was swept by itself. */
export function recorderFigures(fit: SweepFit, { recorder }: SweepsOfCoil): Readonly<Record<string, Figure>> {
  const at = (name: string) => fit.nuisances.find((each) => each.name === name)?.at ?? 0;
  return {
    inputOhm: figureOf(fit, (values) => recorder.ohm * Math.exp(values[at('input resistance')] ?? 0)),
    inputF: figureOf(fit, (values) => recorder.farad * Math.exp(values[at('input capacitance')] ?? 0)),
  };
}
