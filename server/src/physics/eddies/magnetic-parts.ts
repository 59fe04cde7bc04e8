import { type Complex, multiply } from '../complex.ts';
import type { TabulatedMetal } from './shared-loops.ts';

/** A magnetic part by a coil, and what stands in the coil. */
export type MagneticPart =
  | 'steel-cover'
  | 'steel-cover-over-steel'
  | 'steel-plate'
  | 'steel-plate-under-alnico'
  | 'steel-under-steel'
  | 'alnico-under-steel';

export interface MagneticPartRule extends TabulatedMetal {
  /** Factor on the coil's inductance at 0 Hz. */
  readonly stillFactor: number;
}

/**
 * What steel sheets, keepers and bars do to a coil, as factors on what it is without them: no rule is known for them, so these are the
 * cases themselves of a finite-element solution of round coils (method and cases: test/physics/reference/eddies.json): a closed
 * steel cover of 0.5 mm, μr 100; a steel plate of 1 mm, μr 200, 1 mm below the coil or beneath an alnico rod; a steel keeper and an alnico
 * disk touching a steel pole, 12 mm wide. Other shapes differ; the ratio with and without the part is believed to half of what it takes.
 */
export function magneticPart(part: MagneticPart): MagneticPartRule {
  const { stillFactor, inductance, string } = TABLE[part];
  return { stillFactor, inductance: (hz) => interpolated(inductance, hz), string: (hz) => interpolated(string, hz) };
}

/** Parts beside each other: their factors multiplied. */
export const together = (parts: readonly TabulatedMetal[]): TabulatedMetal => ({
  inductance: (hz) =>
    parts.reduce<Complex>((product, each) => multiply(product, each.inductance(hz)), { re: 1, im: 0 }),
  string: (hz) => parts.reduce<Complex>((product, each) => multiply(product, each.string(hz)), { re: 1, im: 0 }),
});

interface Curve {
  readonly re: readonly number[];
  readonly im: readonly number[];
}

/** Straight between the table's points over the logarithm of frequency, even beyond its ends. */
function interpolated({ re, im }: Curve, frequencyHz: number): Complex {
  const above = FREQUENCIES_HZ.findIndex((hz) => hz >= frequencyHz);
  if (above <= 0) {
    const end = above === 0 ? 0 : FREQUENCIES_HZ.length - 1;
    return { re: re[end] ?? 1, im: im[end] ?? 0 };
  }
  const [low = 1, high = 1] = FREQUENCIES_HZ.slice(above - 1, above + 1);
  const share = Math.log(frequencyHz / low) / Math.log(high / low);
  const at = (values: readonly number[]) => (values[above - 1] ?? 0) * (1 - share) + (values[above] ?? 0) * share;
  return { re: at(re), im: at(im) };
}

const FREQUENCIES_HZ: readonly number[] = [300, 1000, 2000, 3000, 5000, 7000, 10_000, 14_000, 20_000];

const TABLE: Readonly<
  Record<MagneticPart, { readonly stillFactor: number; readonly inductance: Curve; readonly string: Curve }>
> = {
  'steel-cover': {
    stillFactor: 1.306,
    inductance: {
      re: [0.9997, 0.9966, 0.9872, 0.9742, 0.9456, 0.921, 0.8939, 0.869, 0.8424],
      im: [-0.0078, -0.0256, -0.0483, -0.0664, -0.0889, -0.0996, -0.1066, -0.1115, -0.117],
    },
    string: {
      re: [0.9964, 0.9614, 0.856, 0.709, 0.3907, 0.1318, -0.1042, -0.2238, -0.2213],
      im: [-0.0696, -0.2263, -0.4192, -0.5587, -0.6761, -0.6478, -0.5015, -0.2955, -0.0887],
    },
  },
  'steel-cover-over-steel': {
    stillFactor: 1.634,
    inductance: {
      re: [0.9917, 0.9682, 0.933, 0.897, 0.835, 0.7908, 0.748, 0.7127, 0.6782],
      im: [-0.029, -0.0702, -0.111, -0.1366, -0.1583, -0.1612, -0.157, -0.1509, -0.1451],
    },
    string: {
      re: [0.9878, 0.9278, 0.7919, 0.6248, 0.3053, 0.0749, -0.1179, -0.2072, -0.1941],
      im: [-0.0882, -0.2593, -0.4482, -0.5684, -0.6367, -0.5798, -0.4297, -0.2435, -0.0648],
    },
  },
  'steel-plate': {
    stillFactor: 1.066,
    inductance: {
      re: [0.9995, 0.9968, 0.9942, 0.9925, 0.99, 0.9879, 0.9852, 0.9822, 0.9786],
      im: [-0.0024, -0.0055, -0.0072, -0.0084, -0.0104, -0.0121, -0.014, -0.016, -0.0183],
    },
    string: {
      re: [0.9999, 0.9991, 0.9984, 0.9979, 0.9973, 0.9967, 0.9959, 0.9951, 0.9942],
      im: [-0.0007, -0.0015, -0.0019, -0.0023, -0.0028, -0.0033, -0.0038, -0.0043, -0.0049],
    },
  },
  'steel-plate-under-alnico': {
    stillFactor: 1.031,
    inductance: {
      re: [0.9997, 0.9979, 0.9961, 0.9946, 0.9919, 0.9891, 0.9853, 0.9811, 0.9766],
      im: [-0.0017, -0.0043, -0.0062, -0.0078, -0.0103, -0.0121, -0.0135, -0.014, -0.0131],
    },
    string: {
      re: [0.9999, 0.9991, 0.9983, 0.9976, 0.9961, 0.9949, 0.9935, 0.9917, 0.989],
      im: [-0.0008, -0.0019, -0.0028, -0.0036, -0.0047, -0.0052, -0.0057, -0.0062, -0.006],
    },
  },
  'steel-under-steel': {
    stillFactor: 1.193,
    inductance: {
      re: [0.9846, 0.9602, 0.9409, 0.928, 0.9107, 0.8991, 0.8872, 0.8766, 0.8663],
      im: [-0.0244, -0.0372, -0.0433, -0.0457, -0.0469, -0.0463, -0.0446, -0.0418, -0.038],
    },
    string: {
      re: [0.987, 0.9663, 0.9501, 0.9394, 0.9251, 0.9157, 0.9061, 0.8976, 0.8896],
      im: [-0.0205, -0.0311, -0.0359, -0.0376, -0.0381, -0.0373, -0.0355, -0.0328, -0.0292],
    },
  },
  'alnico-under-steel': {
    stillFactor: 1.084,
    inductance: {
      re: [0.9963, 0.9882, 0.9794, 0.9715, 0.9576, 0.9461, 0.9332, 0.9222, 0.9132],
      im: [-0.0091, -0.0183, -0.0265, -0.032, -0.0381, -0.0401, -0.039, -0.0349, -0.0285],
    },
    string: {
      re: [0.9967, 0.9898, 0.9823, 0.9758, 0.9647, 0.9558, 0.946, 0.9379, 0.9316],
      im: [-0.0076, -0.015, -0.0213, -0.0254, -0.0295, -0.0305, -0.0289, -0.0252, -0.0198],
    },
  },
};
