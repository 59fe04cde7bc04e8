import { MU0 } from './constants.ts';
import { apparentSusceptibility, demagnetisingFactor } from './demagnetising-factor.ts';
import { concentricTurnsMutualH, racetracksMutualH } from './filaments.ts';
import { gaussLegendre } from './gauss-legendre.ts';
import { type CoilSection, inductancePerTurnSquaredH, selfInductance } from './inductance.ts';
import { solveInPlace } from './linear-solve.ts';
import type { PoleRod } from './rod-magnetisation.ts';

/**
 * Depth, m, at which the current density in a thick conductor has fallen to 1/e: √(2ρ/(ω μ0 μr)). Sheets much thinner than this
 * carry their current evenly, which every loop below assumes.
 */
export function skinDepthM({
  resistivityOhmM,
  relativePermeability,
  frequencyHz,
}: {
  resistivityOhmM: number;
  relativePermeability: number;
  frequencyHz: number;
}): number {
  return Math.sqrt(resistivityOhmM / (Math.PI * frequencyHz * MU0 * relativePermeability));
}

/**
 * Eddy currents as one shorted loop coupled to a coil of inductance L: coupling k and time constant τ = L_loop/R_loop. The coil's
 * impedance is then jωL (1 − k² jωτ/(1 + jωτ)): k²L is what its inductance loses at high frequency, and ω² k² τ L the series
 * resistance it gains at low frequency. In a netlist: a loop of any inductance l with the resistance l/τ, coupled by k.
 */
export interface EddyBranch {
  coupling: number;
  timeConstantS: number;
}

/** A sheet of non-magnetic metal by a coil, centred on the coil's axis, its length along the coil's. All lengths in metres. */
export type MetalSheet =
  /** A flat plate across the axis: top of a cover, baseplate. */
  | {
      kind: 'plate';
      lengthM: number;
      widthM: number;
      thicknessM: number;
      fromCoilCentreM: number;
      resistivityOhmM: number;
    }
  /** A band around the coil: the side walls of a cover. */
  | {
      kind: 'band';
      lengthM: number;
      widthM: number;
      thicknessM: number;
      heightM: number;
      fromCoilCentreM: number;
      resistivityOhmM: number;
    };

/**
 * The loop that stands for a sheet of non-magnetic metal. The sheet is cut into nested closed strips (a band is one), each with its
 * resistance ρ P/(section) and its inductances by Neumann's integral; the single loop returned takes up the same power at low
 * frequency (Σ M²/R) and leaves the same inductance at high frequency (M·L⁻¹·M). Between the two it is an approximation, good to
 * about 10 % of the effect; slots, seams and holes for screws make the real effect smaller, steel is not covered. Valid for
 * sheets thinner than the skin depth (nickel silver 0.5 mm: below 290 kHz).
 */
export function eddyBranchOfSheet(coil: CoilSection, sheet: MetalSheet): EddyBranch {
  const strips = sheet.kind === 'plate' ? stripsOfPlate(sheet) : [stripOfBand(sheet)];
  const toCoil = Float64Array.from(strips, (strip) => mutualWithCoil(coil, strip, sheet.fromCoilCentreM));
  const power = strips.reduce((sum, strip, index) => sum + (toCoil[index] ?? 0) ** 2 / strip.resistanceOhm, 0);
  const size = strips.length;
  const inductances = new Float64Array(size * size);
  strips.forEach((strip, i) => {
    strips.forEach((other, j) => {
      inductances[i * size + j] =
        i === j ? strip.selfH : concentricTurnsMutualH(strip.spine, strip.middleM, other.middleM, 0);
    });
  });
  const currents = toCoil.slice();
  solveInPlace(inductances, [currents]);
  const lostH = currents.reduce((sum, current, index) => sum + current * (toCoil[index] ?? 0), 0);
  return { coupling: Math.sqrt(Math.max(lostH, 0) / inductancePerTurnSquaredH(coil)), timeConstantS: power / lostH };
}

/**
 * The loop that stands for eddy currents in solid round poles. A cylinder of radius a in an axial field of angular frequency ω keeps
 * the flux factor F = 2 I₁(x)/(x I₀(x)), x = a√(jωμσ), so that χₐ(ω) = (μrF − 1)/(1 + N(μrF − 1)). The loop agrees with it at low
 * frequency to first order in ω (F ≈ 1 − jωμσa²/8) and when the flux is expelled (F → 0). In between, a real pole spreads over more
 * decades than one loop; good to 20 % of the effect. `polesShare` is the part of the coil's inductance that the poles make.
 */
export function eddyBranchOfPoles({
  polesShare,
  rod,
  resistivityOhmM,
}: {
  polesShare: number;
  rod: PoleRod;
  resistivityOhmM: number;
}): EddyBranch {
  const shape = { lengthM: rod.topM - rod.bottomM, diameterM: rod.diameterM };
  const mu = rod.relativePermeability;
  const factor = demagnetisingFactor(shape, mu);
  const still = apparentSusceptibility(shape, mu);
  const expelled = -1 / (1 - factor);
  const lost = polesShare * (1 - expelled / still);
  const diffusionS = (MU0 * mu * (rod.diameterM / 2) ** 2) / (8 * resistivityOhmM);
  const firstOrder = (polesShare / still) * (mu / (1 + factor * (mu - 1)) ** 2) * diffusionS;
  return { coupling: Math.sqrt(Math.min(lost, 0.99)), timeConstantS: firstOrder / lost };
}

/**
 * Several loops by one coil as one loop: the same losses at low frequency, Σk²τ, and a flux that each loop in turn leaves
 * 1 − k² of, so that however many there are the coil keeps a positive inductance. None gives a coupling of 0.
 */
export function combinedEddyBranch(branches: readonly EddyBranch[]): EddyBranch {
  const left = branches.reduce((product, { coupling }) => product * (1 - coupling ** 2), 1);
  const weighted = branches.reduce((sum, { coupling, timeConstantS }) => sum + coupling ** 2 * timeConstantS, 0);
  if (left >= 1) return { coupling: 0, timeConstantS: 0 };
  return { coupling: Math.sqrt(1 - left), timeConstantS: weighted / (1 - left) };
}

/** Series resistance, ohm, and inductance, H, that a coil of inductance L shows at a frequency beside a shorted loop. */
export function impedanceWithEddy(
  inductanceH: number,
  { coupling, timeConstantS }: EddyBranch,
  frequencyHz: number,
): { resistanceOhm: number; inductanceH: number } {
  const omega = 2 * Math.PI * frequencyHz;
  const x = omega * timeConstantS;
  const takenH = (coupling ** 2 * inductanceH) / (1 + x * x);
  return { resistanceOhm: takenH * omega * x, inductanceH: inductanceH - takenH * x * x };
}

/** A closed strip: its outline around a spine, its inductance for one turn, its resistance. */
interface Strip {
  spine: { straightM: number; straightAcrossM: number; innerRadiusM: number };
  middleM: number;
  selfH: number;
  resistanceOhm: number;
}

const STRIPS = 6;

function stripsOfPlate({
  lengthM,
  widthM,
  thicknessM,
  resistivityOhmM,
}: Extract<MetalSheet, { kind: 'plate' }>): Strip[] {
  const [longM, shortM] = [Math.max(lengthM, widthM), Math.min(lengthM, widthM)];
  const stripM = shortM / 2 / STRIPS;
  return Array.from({ length: STRIPS }, (_, index) =>
    strip(longM - shortM, index * stripM, stripM, thicknessM, resistivityOhmM),
  );
}

function stripOfBand({
  lengthM,
  widthM,
  thicknessM,
  heightM,
  resistivityOhmM,
}: Extract<MetalSheet, { kind: 'band' }>): Strip {
  return strip(lengthM - widthM, widthM / 2 - thicknessM, thicknessM, heightM, resistivityOhmM);
}

function strip(
  straightM: number,
  innerRadiusM: number,
  buildM: number,
  heightM: number,
  resistivityOhmM: number,
): Strip {
  const spine = { straightM, straightAcrossM: 0, innerRadiusM: 0 };
  const middleM = innerRadiusM + buildM / 2;
  const core = { ...spine, innerRadiusM };
  const perimeterM = 2 * straightM + 2 * Math.PI * middleM;
  return {
    spine,
    middleM,
    selfH: selfInductance({ core, buildM, heightM }, { radialPoints: 3, axialPoints: 3 }),
    resistanceOhm: (resistivityOhmM * perimeterM) / (buildM * heightM),
  };
}

/** Mutual inductance of a strip's middle line with one turn of the coil, averaged over the coil's section. */
function mutualWithCoil({ core, buildM, heightM }: CoilSection, { spine, middleM }: Strip, axialM: number): number {
  const { nodes, weights } = gaussLegendre(3);
  let sum = 0;
  nodes.forEach((radial, i) => {
    nodes.forEach((axial, j) => {
      const turn = { ...core, innerRadiusM: core.innerRadiusM + buildM * radial };
      const offset = { alongM: 0, acrossM: 0, axialM: axialM - heightM * (axial - 0.5) };
      const weight = (weights[i] ?? 0) * (weights[j] ?? 0);
      sum += weight * racetracksMutualH(turn, { ...spine, innerRadiusM: middleM }, offset);
    });
  });
  return sum;
}
