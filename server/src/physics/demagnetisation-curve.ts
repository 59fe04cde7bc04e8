import { MU0 } from './constants.ts';
import type { MagnetMaterial } from './magnet-grades.ts';
import { solveIncreasing } from './solve-increasing.ts';

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
 * The curve through remanence and intrinsic coercivity whose largest B·H is the energy product; `shape` by bracketing. Where
 * the intrinsic coercivity is unknown it follows from the coercivity of B (J = μ0 Hc there). A hyperbola of this kind is a usual
 * fit of alnico (Fröhlich-Kennelly); real curves of alnico 5 have a sharper knee. Where the energy product cannot be reached the
 * nearest shape is taken.
 */
export function demagnetisationCurve(
  material: Omit<MagnetMaterial, 'recoilRelativePermeability'>,
): DemagnetisationCurve {
  const { remanenceT, energyProductJPerM3 } = material;
  const product = (shape: number) => energyProduct(curveOfShape(material, shape));
  const shape =
    solveIncreasing(product, { ...SHAPES, target: energyProductJPerM3, tolerance: EXACT }) ??
    (product(SHAPES.low) > energyProductJPerM3 ? SHAPES.low : SHAPES.high);
  return { ...curveOfShape(material, shape), remanenceT };
}

const SHAPES = { low: -2, high: 0.9999 } as const;
/** Relative; what doubles resolve. */
const EXACT = 1e-14;

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

/** Intersection of the curve with the load line of `demagnetisingFactor` (0 to 1), which rises with h while J falls. */
export function workingPoint(curve: DemagnetisationCurve, demagnetisingFactor: number): WorkingPoint {
  const high = curve.intrinsicCoercivityAPerM;
  const over = (h: number) => MU0 * h - demagnetisingFactor * polarisationT(curve, h);
  const demagnetisingAPerM = solveIncreasing(over, { target: 0, low: 0, high, tolerance: EXACT }) ?? high;
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

/** max (J − μ0 h) h over the curve: where its slope J + h J′ − 2 μ0 h, which falls with h, is zero. */
function energyProduct(curve: DemagnetisationCurve): number {
  const { remanenceT, intrinsicCoercivityAPerM: high, shape } = curve;
  const slope = (h: number) =>
    polarisationT(curve, h) - (h * remanenceT * high * (1 - shape)) / (high - shape * h) ** 2 - 2 * MU0 * h;
  const h = solveIncreasing((at) => -slope(at), { target: 0, low: 0, high, tolerance: EXACT }) ?? high;
  return (polarisationT(curve, h) - MU0 * h) * h;
}
