/**
 * A fitted coil under a load: of a voltage e in the winding, V/e = Ys/(Ys + jωC + Y) is left at the leads, with the series admittance Ys of
 * winding and metal, C across and the load's admittance Y.
 */
import { add, type Complex, divide, magnitude, subtract } from '../complex.ts';
import type { MeasuredPoint } from './measured-impedance.ts';
import type { SweepProblem } from './sweep-problem.ts';

/** V/e between the probes of a curve. What else lay across while it was measured is left out. */
export function throughFitted(
  problem: SweepProblem,
  values: Float64Array,
  curve: number,
  hz: number,
  load: Complex,
): Complex {
  // Far above every resonance only what lies across is left.
  const far = problem.admittanceAt(values, curve, FAR_HZ);
  const capacitive: Complex = { re: 0, im: (far.im * hz) / FAR_HZ };
  const series = subtract(problem.admittanceAt(values, curve, hz), { re: far.re, im: capacitive.im });
  return divide(series, add(series, add(capacitive, load)));
}

const FAR_HZ = 1e7;

/** 20 lg of V/e of what was measured over that of the fit: what a point lies off the curve, under whatever load. */
export function offFitted({ hz, measured, fitted }: MeasuredPoint, farad: number, load: Complex): number {
  const own: Complex = { re: 0, im: -2 * Math.PI * hz * farad };
  const voltage = (impedance: Complex) => {
    const admittance = divide(ONE, impedance);
    return magnitude(divide(add(admittance, own), add(admittance, load)));
  };
  return (20 / Math.LN10) * Math.log(voltage(measured) / voltage(fitted));
}

const ONE: Complex = { re: 1, im: 0 };
