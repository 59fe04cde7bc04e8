/**
 * The impedance of a coil as a sweep sees it: Zs = R + jωL (1 − Σ k² s(f)), and C across. How metal takes from L has several forms: a
 * shorted loop, s = jx/(1 + jx), x = f/corner; a solid round core, whose loops have the weights 4/j² and corners that go with j², j the
 * zeros of the Bessel function J0 (field that diffuses into a rod); two of them; or a loop and a resistance across the coil.
 */

export const COIL_FORMS = ['plain', 'loop', 'core', 'two loops', 'core and loop', 'loop and resistance'] as const;
export type CoilForm = (typeof COIL_FORMS)[number];

/** Parts of a form beside R, L and C; each has two parameters, a resistance across has one. */
const PARTS: Readonly<Record<CoilForm, readonly ('loop' | 'core' | 'across')[]>> = {
  plain: [],
  loop: ['loop'],
  core: ['core'],
  'two loops': ['loop', 'loop'],
  'core and loop': ['core', 'loop'],
  'loop and resistance': ['loop', 'across'],
};

export const partsOfForm = (form: CoilForm) => PARTS[form];

/** Parameters: ln R, ln L, ln C, then of each loop or core logit k² and ln corner, of a resistance across its logarithm. */
export const parametersOf = (form: CoilForm): number =>
  PARTS[form].reduce((sum, part) => sum + (part === 'across' ? 1 : 2), 3);

/** Zeros of J0 (Abramowitz and Stegun, table 9.5). */
const ZEROS = [
  2.404825557695773, 5.520078110286311, 8.653727912911013, 11.791534439014281, 14.930917708487787, 18.071063967910924,
  21.21163662987926, 24.352471530749302,
];
const CORE: readonly { readonly weight: number; readonly corner: number }[] = ZEROS.map((zero) => ({
  weight: 4 / zero ** 2,
  corner: (zero / 2.404825557695773) ** 2,
}));
const LOOP = [{ weight: 1, corner: 1 }];

/** Admittance of a coil with what lies across it, and its series impedance; slopes by the coil's own parameters. */
export interface CoilPoint {
  /** Siemens. */
  readonly admittance: Float64Array;
  /** Two numbers a parameter. */
  readonly admittanceSlopes: Float64Array;
  /** Ohm. */
  readonly series: Float64Array;
  readonly seriesSlopes: Float64Array;
}

export const coilPoint = (form: CoilForm): CoilPoint => ({
  admittance: new Float64Array(2),
  admittanceSlopes: new Float64Array(2 * parametersOf(form)),
  series: new Float64Array(2),
  seriesSlopes: new Float64Array(2 * parametersOf(form)),
});

/** Writes a coil's numbers at one frequency into `point`. `values` are its own parameters from `start` on. */
export function coilAt(form: CoilForm, values: Float64Array, start: number, hz: number, point: CoilPoint): void {
  const { admittance, admittanceSlopes, series, seriesSlopes } = point;
  const omega = 2 * Math.PI * hz;
  const ohm = Math.exp(values[start] as number);
  const reactance = omega * Math.exp(values[start + 1] as number);
  const susceptance = omega * Math.exp(values[start + 2] as number);
  seriesSlopes.fill(0);
  seriesSlopes[0] = ohm;
  // What is left of the inductance: 1 − Σ k² s.
  let re = 1;
  let im = 0;
  let across = 0;
  let at = 3;
  let acrossAt = -1;
  for (const part of PARTS[form]) {
    if (part === 'across') {
      across = Math.exp(-(values[start + at] as number));
      acrossAt = at;
      at += 1;
      continue;
    }
    const square = 1 / (1 + Math.exp(-(values[start + at] as number)));
    const corner = Math.exp(values[start + at + 1] as number);
    let sRe = 0;
    let sIm = 0;
    let dRe = 0;
    let dIm = 0;
    for (const { weight, corner: times } of part === 'core' ? CORE : LOOP) {
      const x = hz / (corner * times);
      const below = 1 / (1 + x * x);
      sRe += weight * x * x * below;
      sIm += weight * x * below;
      // d s / d ln corner = −jx/(1 + jx)².
      dRe -= weight * 2 * x * x * below * below;
      dIm -= weight * x * (1 - x * x) * below * below;
    }
    re -= square * sRe;
    im -= square * sIm;
    const bySquare = -square * (1 - square);
    // jωL · (…): the real part turns into the imaginary one.
    seriesSlopes[2 * at] = -reactance * bySquare * sIm;
    seriesSlopes[2 * at + 1] = reactance * bySquare * sRe;
    seriesSlopes[2 * at + 2] = reactance * square * dIm;
    seriesSlopes[2 * at + 3] = -reactance * square * dRe;
    at += 2;
  }
  const zRe = ohm - reactance * im;
  const zIm = reactance * re;
  series[0] = zRe;
  series[1] = zIm;
  seriesSlopes[2] = -reactance * im;
  seriesSlopes[3] = reactance * re;
  const square = zRe * zRe + zIm * zIm;
  const yRe = zRe / square;
  const yIm = -zIm / square;
  admittance[0] = yRe + across;
  admittance[1] = yIm + susceptance;
  // d(1/Z) = −dZ/Z².
  const y2Re = yRe * yRe - yIm * yIm;
  const y2Im = 2 * yRe * yIm;
  for (let index = 0; index < at; index++) {
    const dRe = seriesSlopes[2 * index] as number;
    const dIm = seriesSlopes[2 * index + 1] as number;
    admittanceSlopes[2 * index] = -(dRe * y2Re - dIm * y2Im);
    admittanceSlopes[2 * index + 1] = -(dRe * y2Im + dIm * y2Re);
  }
  admittanceSlopes[5] = (admittanceSlopes[5] as number) + susceptance;
  if (acrossAt >= 0) admittanceSlopes[2 * acrossAt] = (admittanceSlopes[2 * acrossAt] as number) - across;
}
