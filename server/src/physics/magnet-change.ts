import { type DemagnetisationCurve, demagnetisationCurve } from './demagnetisation-curve.ts';
import type { MagnetMaterial } from './magnet-grades.ts';
import { propagate, type UncertainValue } from './uncertainty.ts';

/** A magnet to compare: its nominal properties and how far pieces of it differ, one relative standard deviation. */
export type ComparedMagnet = MagnetMaterial & { relativeSpread: number };

/** What changing the magnet does, new over old. */
export interface MagnetChange {
  /** Flux density at the string. */
  fieldRatio: UncertainValue;
  /** 20 lg of it: the string's magnetisation, and with it the signal, goes with the field. */
  outputDb: UncertainValue;
  /** Square of it: the pull goes with field times magnetisation. */
  pullRatio: UncertainValue;
}

/**
 * Relative standard uncertainty that the geometry's model leaves in a ratio of two magnets: most of its error is common to both. For
 * alnico rods it was at most 10 % against a finite-volume solution, 3 to 4 mm above the rod.
 */
export const MAGNET_RATIO_MODEL_SD = 0.06;

/**
 * Change of field, output and pull from one magnet to another of the same size in the same place. `fieldOf` gives the field at the
 * string, in any unit, for a demagnetisation curve: a rod's (magnet-field.ts) or a bar's under its poles (bar-under-poles.ts). Remanence
 * and coercivity of each piece scale together by its spread. Both fully charged; the string taken as linear (it saturates only within
 * about a millimetre of a strong pole).
 */
export function magnetChange(
  before: ComparedMagnet,
  after: ComparedMagnet,
  fieldOf: (curve: DemagnetisationCurve) => number,
): MagnetChange {
  const sources = [
    { name: 'old magnet', value: 1, sd: before.relativeSpread },
    { name: 'new magnet', value: 1, sd: after.relativeSpread },
    { name: 'model', value: 1, sd: MAGNET_RATIO_MODEL_SD },
  ] as const;
  const ratio = (values: Record<(typeof sources)[number]['name'], number>) =>
    (values.model * fieldOf(curveOf(after, values['new magnet']))) / fieldOf(curveOf(before, values['old magnet']));
  return {
    fieldRatio: propagate(ratio, sources),
    outputDb: propagate((values) => 20 * Math.log10(ratio(values)), sources),
    pullRatio: propagate((values) => ratio(values) ** 2, sources),
  };
}

function curveOf(material: ComparedMagnet, scale: number): DemagnetisationCurve {
  const curve = demagnetisationCurve(material);
  return {
    ...curve,
    remanenceT: curve.remanenceT * scale,
    intrinsicCoercivityAPerM: curve.intrinsicCoercivityAPerM * scale,
  };
}
