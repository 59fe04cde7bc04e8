/**
 * The impedance of a coil as a sweep sees it: Zs = R + jωL (1 − Σ k² s(f)), and C across. How metal takes from L has several forms: a
 * shorted loop, s = jx/(1 + jx), x = f/corner; a solid round core, whose loops have the weights 4/j² and corners that go with j², j the
 * zeros of the Bessel function J0 (field that diffuses into a rod); two of them; three loops, as short rods need; or a loop and a
 * resistance across the coil.
 */

export const COIL_FORMS = [
  'plain',
  'loop',
  'core',
  'two loops',
  'core and loop',
  'three loops',
  'loop and resistance',
] as const;
export type CoilForm = (typeof COIL_FORMS)[number];

/** Parts of a form beside R, L and C; each has two parameters, a resistance across has one. */
const PARTS: Readonly<Record<CoilForm, readonly ('loop' | 'core' | 'across')[]>> = {
  plain: [],
  loop: ['loop'],
  core: ['core'],
  'two loops': ['loop', 'loop'],
  'core and loop': ['core', 'loop'],
  'three loops': ['loop', 'loop', 'loop'],
  'loop and resistance': ['loop', 'across'],
};

export const partsOfForm = (form: CoilForm) => PARTS[form];

/** Of them those that are metal. */
export const metalPartsOf = (form: CoilForm): number => PARTS[form].filter((part) => part !== 'across').length;

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

/** Ohm, henry and farad of a coil over those that its parameters say. */
export interface CoilFactors {
  readonly ohm: number;
  readonly henry: number;
  readonly farad: number;
}

/** A coil's numbers at one frequency, each as its real and imaginary part, and their slopes by its own parameters, two numbers each. */
export interface CoilModel {
  henry: number;
  /** Of the winding and what metal adds, ohm. */
  readonly series: Float64Array;
  readonly seriesSlopes: Float64Array;
  /** Of what lies across, siemens. */
  readonly shunt: Float64Array;
  readonly shuntSlopes: Float64Array;
  /** Share of the inductance that each part of the metal takes, k² s. */
  readonly taken: Float64Array;
  readonly takenSlopes: Float64Array;
  /** Reads the parameters, which stand from `start` on, once for all frequencies. */
  take(values: ArrayLike<number>, start: number): void;
  /** `copper`: factor on the resistance, of its temperature. */
  at(hz: number, copper: number): void;
}

export function coilModel(form: CoilForm, factors: CoilFactors): CoilModel {
  const parts = PARTS[form];
  const parameters = parametersOf(form);
  const pairs = () => new Float64Array(2 * parameters);
  const [seriesSlopes, shuntSlopes, takenSlopes] = [pairs(), pairs(), pairs()];
  const [series, shunt, taken] = [new Float64Array(2), new Float64Array(2), new Float64Array(2 * parts.length)];
  const [squares, corners] = [new Float64Array(parts.length), new Float64Array(parts.length)];
  const acrossAt = parts.includes('across') ? 3 + 2 * parts.indexOf('across') : -1;
  let [ohm, farad] = [0, 0];
  const model: CoilModel = {
    henry: 0,
    series,
    seriesSlopes,
    shunt,
    shuntSlopes,
    taken,
    takenSlopes,
    take: (values, start) => {
      const exp = (at: number) => Math.exp(values[start + at] as number);
      ohm = factors.ohm * exp(0);
      model.henry = factors.henry * exp(1);
      farad = factors.farad * exp(2);
      parts.forEach((part, index) => {
        if (part === 'across') return;
        squares[index] = 1 / (1 + 1 / exp(3 + 2 * index));
        corners[index] = exp(4 + 2 * index);
      });
      if (acrossAt < 0) return;
      shunt[0] = 1 / exp(acrossAt);
      shuntSlopes[2 * acrossAt] = -(shunt[0] as number);
    },
    at: (hz, copper) => {
      const omega = 2 * Math.PI * hz;
      const reactance = omega * model.henry;
      let lostRe = 0;
      let lostIm = 0;
      for (let index = 0; index < parts.length; index++) {
        const part = parts[index];
        if (part === 'across') continue;
        let sRe = 0;
        let sIm = 0;
        let dRe = 0;
        let dIm = 0;
        for (const { weight, corner: times } of part === 'core' ? CORE : LOOP) {
          const x = hz / ((corners[index] as number) * times);
          const below = 1 / (1 + x * x);
          sRe += weight * x * x * below;
          sIm += weight * x * below;
          // d s / d ln corner = −jx/(1 + jx)².
          dRe -= weight * 2 * x * x * below * below;
          dIm -= weight * x * (1 - x * x) * below * below;
        }
        const square = squares[index] as number;
        taken[2 * index] = square * sRe;
        taken[2 * index + 1] = square * sIm;
        lostRe += square * sRe;
        lostIm += square * sIm;
        const at = 6 + 4 * index;
        takenSlopes[at] = square * (1 - square) * sRe;
        takenSlopes[at + 1] = square * (1 - square) * sIm;
        takenSlopes[at + 2] = square * dRe;
        takenSlopes[at + 3] = square * dIm;
      }
      // jωL (1 − taken): the imaginary part turns into a resistance.
      series[0] = copper * ohm + reactance * lostIm;
      series[1] = reactance * (1 - lostRe);
      for (let at = 6; at < 2 * parameters; at += 2) {
        seriesSlopes[at] = reactance * (takenSlopes[at + 1] as number);
        seriesSlopes[at + 1] = -reactance * (takenSlopes[at] as number);
      }
      seriesSlopes[0] = copper * ohm;
      seriesSlopes[2] = reactance * lostIm;
      seriesSlopes[3] = series[1] as number;
      shunt[1] = omega * farad;
      shuntSlopes[5] = omega * farad;
    },
  };
  return model;
}

/** A shorted turn beside a coil: its coupling, squared, and the frequency from which on it takes that part of the inductance. */
export interface MetalLoop {
  readonly squaredCoupling: number;
  readonly cornerHz: number;
}

/** What metal takes at a frequency: of the reactance, and what it adds to the resistance, as a part of that; the latter of one coil only. */
export interface Taken {
  readonly lost: number;
  readonly resists?: number;
}

export function takenBy(loops: readonly MetalLoop[], hz: number): Taken {
  return loops.reduce(
    (sum, { squaredCoupling, cornerHz }) => {
      const x = hz / cornerHz;
      const part = squaredCoupling / (1 + x * x);
      return { lost: sum.lost + part * x * x, resists: sum.resists + part * x };
    },
    { lost: 0, resists: 0 },
  );
}

/** The parts of the metal of a coil whose parameters stand from `start` on; a solid core as its first loops, what is left of it in the last. */
export function metalLoops(
  form: CoilForm,
  values: ArrayLike<number>,
  start: number,
): readonly (readonly MetalLoop[])[] {
  return PARTS[form].flatMap((part, index): readonly (readonly MetalLoop[])[] => {
    if (part === 'across') return [];
    const squaredCoupling = 1 / (1 + Math.exp(-(values[start + 3 + 2 * index] ?? 0)));
    const cornerHz = Math.exp(values[start + 4 + 2 * index] ?? 0);
    return part === 'loop'
      ? [[{ squaredCoupling, cornerHz }]]
      : [
          CORE_LOOPS.map(({ weight, corner }) => ({
            squaredCoupling: squaredCoupling * weight,
            cornerHz: cornerHz * corner,
          })),
        ];
  });
}

/** Weights 4/j² and corners j² of the first zeros of J0, all others in the last. */
const CORE_LOOPS = [
  { weight: 0.6917, corner: 1 },
  { weight: 0.1313, corner: 5.269 },
  { weight: 0.177, corner: 28 },
];
