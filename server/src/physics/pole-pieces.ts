import { meanAxialFieldPerAmpereTurn } from './coil-field.ts';
import { MU0 } from './constants.ts';
import { demagnetisingFactor } from './demagnetising-factor.ts';
import type { Offset } from './filaments.ts';
import { type CoilSection, inductancePerTurnSquaredH } from './inductance.ts';
import { memoByValue } from './memo.ts';
import { mutualInductancePerTurnsProductH } from './mutual-inductance.ts';
import { meanTurnAreaM2 } from './racetrack.ts';

/** A round pole parallel to the coils' axes, in the coordinates that the coils' centres are given in, metres. */
export interface PoleRod {
  alongM: number;
  acrossM: number;
  bottomM: number;
  topM: number;
  diameterM: number;
  relativePermeability: number;
}

/** A coil and where its centre lies. */
export interface PlacedCoil {
  section: CoilSection;
  centre: Offset;
}

/** Coils and the poles they share. */
export interface CoilsWithPoles {
  coils: readonly PlacedCoil[];
  rods: readonly PoleRod[];
}

/** Inductances per product of turns, H: multiply entry (i, j) by NᵢNⱼ. All coils counted the same way round. */
export interface InductanceMatrix {
  air: readonly (readonly number[])[];
  /** What the poles add. */
  poles: readonly (readonly number[])[];
  total: readonly (readonly number[])[];
  /** Per coil: the turn-area that a uniform field sees, over that of the coil in air. */
  turnAreaOverAir: readonly number[];
}

/**
 * Relative standard uncertainty of the factor L(with poles)/L(air) by this model: against boundary elements it lay between
 * −3.1 and +2.4 % for round rods of permeability 1.05 to 1000 in slim and round coils.
 */
export const POLE_MODEL_RELATIVE_SD = 0.02;

/**
 * Inductance matrix of coils that share poles. Each rod is magnetised along its axis by the mean axial field H that the coils
 * make over its volume, with apparent susceptibility χₐ = χ/(1 + Nχ), N the magnetometric demagnetising factor of the cylinder
 * (Chen, Brug & Goldfarb 1991); by reciprocity it adds μ0 χₐ V Hᵢ Hⱼ to Lᵢⱼ. DC and linear.
 *
 * Left out: that neighbouring rods magnetise each other (they weaken each other by about N d³/(s³) of a few per cent at a
 * spacing s of two diameters), and that the field is not even along the rod (which works the other way). Together they stay
 * within −3.1 and +2.4 % of the factor, see {@link POLE_MODEL_RELATIVE_SD}. Remembers its results by value.
 */
export const inductanceWithPoles: (arrangement: CoilsWithPoles) => InductanceMatrix = memoByValue(keyOf, (arrangement: CoilsWithPoles) => {
  const { coils, rods } = arrangement;
  const fields = coils.map((coil) => rods.map((rod) => meanFieldOverRodPerAmpereTurn(coil, rod)));
  const strengths = rods.map((rod) => rodVolumeM3(rod) * apparentSusceptibility(rod));
  const air = coils.map((a, i) => coils.map((b, j) => airInductance(a, b, i === j)));
  const poles = coils.map((_a, i) =>
    coils.map((_b, j) => MU0 * sum(strengths.map((strength, rod) => strength * (fields[i]?.[rod] ?? 0) * (fields[j]?.[rod] ?? 0)))),
  );
  const total = air.map((row, i) => row.map((value, j) => value + (poles[i]?.[j] ?? 0)));
  const turnAreaOverAir = coils.map(({ section }, i) => {
    const added = sum(strengths.map((strength, rod) => strength * (fields[i]?.[rod] ?? 0)));
    return 1 + added / meanTurnAreaM2(section.core, section.buildM);
  });
  return { air, poles, total, turnAreaOverAir };
});

/**
 * Mean axial field over the volume of a rod, A/m per ampere-turn of the coil: the mean along the axis in closed form, over the
 * cross-section by a seven-point rule of degree five.
 */
export function meanFieldOverRodPerAmpereTurn({ section, centre }: PlacedCoil, rod: PoleRod): number {
  const stretch = {
    alongM: rod.alongM - centre.alongM,
    acrossM: rod.acrossM - centre.acrossM,
    bottomM: rod.bottomM - centre.axialM,
    topM: rod.topM - centre.axialM,
  };
  const mean = DISC_RULE.map(({ x, y, weight }) => {
    const alongM = stretch.alongM + (x * rod.diameterM) / 2;
    const acrossM = stretch.acrossM + (y * rod.diameterM) / 2;
    return weight * meanAxialFieldPerAmpereTurn(section, { ...stretch, alongM, acrossM });
  });
  return sum(mean);
}

/** Apparent susceptibility χ/(1 + Nχ) of a cylinder of a linear material in an axial field. */
export function apparentSusceptibility(rod: PoleRod): number {
  const chi = rod.relativePermeability - 1;
  const shape = { lengthM: rod.topM - rod.bottomM, diameterM: rod.diameterM };
  return chi / (1 + demagnetisingFactor(shape, rod.relativePermeability) * chi);
}

/** Centres of `count` poles in a row about the middle of the coil, `spreadM` from the first to the last, metres. */
export function poleCentresM(count: number, spreadM: number): number[] {
  if (count === 1) return [0];
  return Array.from({ length: count }, (_, index) => spreadM * (index / (count - 1) - 0.5));
}

/** Stroud, Approximate Calculation of Multiple Integrals (1971), S2: 5-1 (recalled): seven points on the unit disc, degree 5. */
const DISC_RULE = [
  { x: 0, y: 0, weight: 1 / 4 },
  ...[0, 1, 2, 3, 4, 5].map((sixth) => ({
    x: Math.sqrt(2 / 3) * Math.cos((Math.PI * sixth) / 3),
    y: Math.sqrt(2 / 3) * Math.sin((Math.PI * sixth) / 3),
    weight: 1 / 8,
  })),
];

function rodVolumeM3({ diameterM, bottomM, topM }: PoleRod): number {
  return (Math.PI / 4) * diameterM ** 2 * (topM - bottomM);
}

function airInductance(a: PlacedCoil, b: PlacedCoil, same: boolean): number {
  if (same) return inductancePerTurnSquaredH(a.section);
  return mutualInductancePerTurnsProductH({
    first: a.section,
    second: b.section,
    offset: {
      alongM: b.centre.alongM - a.centre.alongM,
      acrossM: b.centre.acrossM - a.centre.acrossM,
      axialM: b.centre.axialM - a.centre.axialM,
    },
  });
}

function keyOf({ coils, rods }: CoilsWithPoles): number[] {
  return [
    coils.length,
    ...coils.flatMap(({ section: { core, buildM, heightM }, centre }) => [
      core.straightM,
      core.straightAcrossM,
      core.innerRadiusM,
      buildM,
      heightM,
      centre.alongM,
      centre.acrossM,
      centre.axialM,
    ]),
    ...rods.flatMap((rod) => [rod.alongM, rod.acrossM, rod.bottomM, rod.topM, rod.diameterM, rod.relativePermeability]),
  ];
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
