/**
 * A fitted coil under a load: of a voltage e in the winding, V/e = 1/(Zs (1/Zs + jωC + Y)) is left at the leads, with the series
 * impedance Zs of winding and metal, C across and the load's admittance Y.
 */
import { add, type Complex, divide, magnitude, multiply } from '../complex.ts';
import { type CoilForm, coilAt, coilPoint } from './coil-form.ts';
import type { MeasuredPoint } from './measured-impedance.ts';

/** V/e. What else lay across while it was measured is left out. */
export function throughFitted(form: CoilForm, values: Float64Array, hz: number, load: Complex): Complex {
  const point = coilPoint(form);
  coilAt(form, values, 0, hz, point);
  const series: Complex = { re: point.series[0] ?? 1, im: point.series[1] ?? 0 };
  const across: Complex = { re: load.re, im: load.im + 2 * Math.PI * hz * Math.exp(values[2] ?? 0) };
  return divide(ONE, add(ONE, multiply(series, across)));
}

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
