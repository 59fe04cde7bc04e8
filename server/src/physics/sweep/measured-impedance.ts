/** The impedance that the points of a curve stand for, the set-up taken out as it was fitted. */
import { type Complex, divide } from '../complex.ts';
import type { SweepFit } from './sweep-fit.ts';
import type { MeasuredCurve, SweepsOfCoil } from './sweep-problem.ts';
import { impedanceSeen } from './sweep-start.ts';

export interface MeasuredPoint {
  readonly hz: number;
  /** Between the leads, its capacitance in it; ohm. */
  readonly measured: Complex;
  readonly fitted: Complex;
  /** Measured less fitted: of ln of what was measured, and of its angle where there is one, in radians; both scatter alike. */
  readonly rest: number;
  readonly phaseRest: number | undefined;
  readonly sd: number;
}

/** Of an exciter nothing: its strength is not known. A curve without phase takes that of the fit. */
export function measuredPoints(
  fit: SweepFit,
  { curves, recorder }: SweepsOfCoil,
  at: number,
): readonly MeasuredPoint[] {
  const curve = curves[at];
  if (!curve || curve.kind === 'excited' || curve.kind === 'alone') return [];
  const { problem, values, noise } = fit;
  const { scale, resistor, added, inputOhm, inputFarad } = problem.setUpAt(values, at);
  const { level, phase } = problem.rest(values, at);
  const { share = 0, floor = 0 } = noise[at] ?? {};
  const plain: MeasuredCurve = {
    ...curve,
    seriesOhm: curve.seriesOhm * resistor,
    magnitude: curve.magnitude.map((each) => each / scale),
    phase: curve.hz.map((hz, index) => problem.modelled(values, at, hz)[1] + (phase?.[index] ?? 0)),
  };
  const input = { ...recorder, ohm: recorder.ohm * inputOhm, farad: recorder.farad * inputFarad };
  return curve.hz.map((hz, index) => {
    const seen = divide(ONE, impedanceSeen(plain, input, index, hz));
    const farad = curve.addedFarad * added;
    return {
      hz,
      measured: divide(ONE, { re: seen.re, im: seen.im - 2 * Math.PI * hz * farad }),
      fitted: divide(ONE, problem.admittanceAt(values, at, hz)),
      rest: level[index] ?? 0,
      phaseRest: phase?.[index],
      sd: curve.relativeSd?.[index] ?? Math.hypot(share, floor / (curve.magnitude[index] ?? 1)),
    };
  });
}

const ONE: Complex = { re: 1, im: 0 };
