/** What a curve shows by eye, the set-up taken out as it is believed to be: where a fit begins, and what needs none. */
import { divide, multiply } from '../complex.ts';
import { type MeasuredCurve, median, type RecorderInput, type SweepsOfCoil, wrapped } from './sweep-problem.ts';

/**
 * ln R, ln L, ln C: the resistance a meter read, or what the low end shows; the inductance as the median of reactance over frequency well
 * below the resonance; the capacitance from where the impedance is greatest.
 */
export function startOf({ curves, recorder, dc }: SweepsOfCoil): readonly number[] | undefined {
  const curve =
    curves.find(({ kind }) => kind !== 'alone' && kind !== 'excited') ?? curves.find(({ kind }) => kind === 'excited');
  if (!curve) return curves.length > 0 ? [0, 0, 0] : undefined;
  const { hz } = curve;
  const read = dc[0]?.ohm;
  if (curve.kind === 'excited') {
    const peak = hz[curve.magnitude.indexOf(Math.max(...curve.magnitude))] ?? 0;
    return [Math.log(read ?? 7000), Math.log(3), Math.log(capacitanceFor(3, peak, recorder.farad + curve.addedFarad))];
  }
  const impedance = hz.map((each, at) => impedanceSeen(curve, recorder, at, each));
  const sizes = impedance.map(({ re, im }) => Math.hypot(re, im));
  const peakAt = sizes.indexOf(Math.max(...sizes));
  const peak = hz[peakAt] ?? 0;
  const ohm =
    read ?? median(impedance.slice(0, 5).map(({ re, im }) => (curve.phase ? Math.max(re, 1) : Math.hypot(re, im))));
  const henries = impedance.flatMap(({ re, im }, at) => {
    const each = hz[at] ?? 0;
    if (each < peak / 15 || each > peak / 4) return [];
    const reactance = curve.phase ? im : Math.sqrt(Math.max(0, re * re + im * im - ohm * ohm));
    return reactance > 0 ? [reactance / (2 * Math.PI * each)] : [];
  });
  const henry = henries.length > 0 ? median(henries) : undefined;
  if (henry === undefined || !(henry > 0)) return undefined;
  return [Math.log(ohm), Math.log(henry), Math.log(capacitanceFor(henry, peak, curve.addedFarad))];
}

const capacitanceFor = (henry: number, peakHz: number, beside: number): number =>
  Math.max(1e-11, 1 / ((2 * Math.PI * peakHz) ** 2 * henry) - beside);

/** Impedance between the pickup's leads, what the set-up adds taken out as it is believed to be. Without phase only its size means something. */
export function impedanceSeen(
  { kind, magnitude, phase, seriesOhm }: MeasuredCurve,
  recorder: RecorderInput,
  at: number,
  hz: number,
) {
  const size = magnitude[at] ?? 1;
  const angle = wrapped(phase?.[at] ?? 0);
  const ratio = { re: size * Math.cos(angle), im: size * Math.sin(angle) };
  if (kind === 'impedance') return ratio;
  const omega = 2 * Math.PI * hz;
  const input = { re: 1 / recorder.ohm, im: omega * recorder.farad };
  if (kind === 'over') {
    const load = { re: 1 / seriesOhm + input.re, im: input.im };
    // Z = (1 − H)/(H · Yl).
    if (!phase) return { re: 0, im: (1 / size - 1) / load.re };
    return divide({ re: 1 - ratio.re, im: -ratio.im }, multiply(ratio, load));
  }
  // 1/Z = (1 − H)/(H · Rs) − Yin.
  if (!phase) return { re: 0, im: (size * seriesOhm) / Math.max(0.05, 1 - size) };
  const whole = divide({ re: 1 - ratio.re, im: -ratio.im }, { re: ratio.re * seriesOhm, im: ratio.im * seriesOhm });
  return divide({ re: 1, im: 0 }, { re: whole.re - input.re, im: whole.im - input.im });
}

/** The resistance that the low end of a curve shows, ohm; `undefined` of an exciter, which shows none. */
export function resistanceSeen(curve: MeasuredCurve, recorder: RecorderInput): number | undefined {
  if (curve.kind === 'excited' || curve.kind === 'alone' || !curve.phase) return undefined;
  const low = curve.hz.slice(0, LOW_POINTS).map((hz, at) => impedanceSeen(curve, recorder, at, hz).re);
  return median(low);
}

const LOW_POINTS = 5;

/**
 * The capacitance of what passes no current but through one, farad, with the scatter of the points: a winding that is broken. `undefined`
 * where anything else lies there.
 */
export function capacitanceAlone(
  curve: MeasuredCurve,
  recorder: RecorderInput,
): { readonly farad: number; readonly scatter: number } | undefined {
  if (curve.kind === 'excited' || curve.kind === 'alone' || !curve.phase) return undefined;
  const farads = curve.hz.flatMap((hz, at) => {
    if (hz < LEAST_HZ) return [];
    const { re, im } = divide({ re: 1, im: 0 }, impedanceSeen(curve, recorder, at, hz));
    // Less passes by resistance than through what input and leads leave unsure.
    return Math.abs(re) < 0.2 * Math.abs(im) + LEAST_SIEMENS ? [im / (2 * Math.PI * hz)] : [Number.NaN];
  });
  if (farads.length < 3 || farads.some((each) => !(each > 0))) return undefined;
  const farad = median(farads);
  const scatter = median(farads.map((each) => Math.abs(each - farad)));
  return scatter < farad / 4 ? { farad, scatter } : undefined;
}

/** Above this a capacitance of some 100 pF passes more than an input resistance that is known to some per cent. */
const LEAST_HZ = 1000;
const LEAST_SIEMENS = 3e-7;
