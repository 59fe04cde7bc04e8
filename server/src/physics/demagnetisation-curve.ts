import { MU0 } from './constants.ts';
import type { MagnetMaterial } from './magnet-grades.ts';

/**
 * Second quadrant of a magnet's major loop: J(h) = Br (Hci − h)/(Hci − a h), h = −H ≥ 0 the demagnetising field, J the
 * polarisation in tesla. a = 0 is a straight line, a → 1 a rectangle.
 */
export interface DemagnetisationCurve {
  remanenceT: number;
  intrinsicCoercivityAPerM: number;
  shape: number;
}

/**
 * The curve through remanence and intrinsic coercivity whose largest B·H is the energy product; `shape` by bisection. Where
 * the intrinsic coercivity is unknown it follows from the coercivity of B (J = μ0 Hc there). A hyperbola of this kind is a usual
 * fit of alnico (Fröhlich-Kennelly); real curves of alnico 5 have a sharper knee. Where the energy product cannot be reached the
 * nearest shape is taken.
 */
export function demagnetisationCurve(
  material: Omit<MagnetMaterial, 'recoilRelativePermeability'>,
): DemagnetisationCurve {
  const { remanenceT, energyProductJPerM3 } = material;
  let [low, high] = [-2, 0.9999];
  for (let step = 0; step < 60; step++) {
    const shape = (low + high) / 2;
    if (energyProduct(curveOfShape(material, shape)) < energyProductJPerM3) low = shape;
    else high = shape;
  }
  const curve = curveOfShape(material, (low + high) / 2);
  return { ...curve, remanenceT };
}

/** Polarisation J, T, at the demagnetising field h = −H, A/m; held at zero beyond the intrinsic coercivity and at Br below h = 0. */
export function polarisationT(
  { remanenceT, intrinsicCoercivityAPerM, shape }: DemagnetisationCurve,
  demagnetisingAPerM: number,
): number {
  if (demagnetisingAPerM <= 0) return remanenceT;
  if (demagnetisingAPerM >= intrinsicCoercivityAPerM) return 0;
  return (
    (remanenceT * (intrinsicCoercivityAPerM - demagnetisingAPerM)) /
    (intrinsicCoercivityAPerM - shape * demagnetisingAPerM)
  );
}

/** The inverse: the demagnetising field h at which the polarisation has fallen to J, 0 ≤ J ≤ Br. */
export function demagnetisingFieldAPerM(
  { remanenceT, intrinsicCoercivityAPerM, shape }: DemagnetisationCurve,
  polarisation: number,
): number {
  return (intrinsicCoercivityAPerM * (remanenceT - polarisation)) / (remanenceT - shape * polarisation);
}

/** Where a uniformly magnetised magnet of demagnetising factor N works: h = N J/μ0. */
export interface WorkingPoint {
  polarisationT: number;
  demagnetisingAPerM: number;
  fluxDensityT: number;
}

/** Intersection of the curve with the load line of `demagnetisingFactor` (0 to 1), by bisection: J falls and the line rises with h. */
export function workingPoint(curve: DemagnetisationCurve, demagnetisingFactor: number): WorkingPoint {
  let [low, high] = [0, curve.intrinsicCoercivityAPerM];
  for (let step = 0; step < 60; step++) {
    const h = (low + high) / 2;
    if (MU0 * h < demagnetisingFactor * polarisationT(curve, h)) low = h;
    else high = h;
  }
  const demagnetisingAPerM = (low + high) / 2;
  const polarisation = polarisationT(curve, demagnetisingAPerM);
  return { polarisationT: polarisation, demagnetisingAPerM, fluxDensityT: polarisation - MU0 * demagnetisingAPerM };
}

/**
 * Energy product to assume, J/m³, where only remanence and coercivity are known: Br·Hc/4 for a straight line through both
 * (ferrite, rare earth), and 0.42 Br·Hc for a curved one as alnico 2 to 4 have. The straight line is recognised by
 * μ0 Hc > 0.6 Br.
 */
export function assumedEnergyProductJPerM3(remanenceT: number, coercivityAPerM: number): number {
  const straight = MU0 * coercivityAPerM > 0.6 * remanenceT;
  return (straight ? 0.25 : 0.42) * remanenceT * coercivityAPerM;
}

function curveOfShape(
  {
    remanenceT,
    coercivityAPerM,
    intrinsicCoercivityAPerM,
  }: { remanenceT: number; coercivityAPerM: number; intrinsicCoercivityAPerM?: number },
  shape: number,
): DemagnetisationCurve {
  const knee = MU0 * coercivityAPerM;
  const fromCoercivity =
    (coercivityAPerM * (remanenceT - shape * knee)) / Math.max(remanenceT - knee, 1e-3 * remanenceT);
  return { remanenceT, intrinsicCoercivityAPerM: intrinsicCoercivityAPerM ?? fromCoercivity, shape };
}

/** max (J − μ0 h) h over the curve, by golden-section search; the product has one maximum. */
function energyProduct(curve: DemagnetisationCurve): number {
  const product = (h: number) => (polarisationT(curve, h) - MU0 * h) * h;
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [0, curve.intrinsicCoercivityAPerM];
  for (let step = 0; step < 60; step++) {
    const left = high - ratio * (high - low);
    const right = low + ratio * (high - low);
    if (product(left) < product(right)) low = left;
    else high = right;
  }
  return product((low + high) / 2);
}
