import { axialFieldPerAmpereTurn } from './coil-field.ts';
import { MU0 } from './constants.ts';
import { DISC_RULE } from './disc-rule.ts';
import { type Offset, offsetBetween } from './filaments.ts';
import { type CoilSection, inductancePerTurnSquaredH } from './inductance.ts';
import { memoByValue } from './memo.ts';
import { mutualInductancePerTurnsProductH } from './mutual-inductance.ts';
import { meanTurnAreaM2 } from './racetrack.ts';
import {
  mirrorGroups,
  type PoleRod,
  type RodGroup,
  sliceHeightsM,
  sliceMagnetisations,
  slicesPerRod,
} from './rod-magnetisation.ts';

export type { PoleRod } from './rod-magnetisation.ts';

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
  total: readonly (readonly number[])[];
  /** Per coil: the turn-area that a uniform field sees, over that of the coil in air. */
  turnAreaOverAir: readonly number[];
}

/**
 * Relative standard uncertainty of L and M with round poles by {@link inductanceWithPoles}: against boundary elements, for
 * permeabilities of 1.05 to 1000 in slim and round coils, L lay between −2.1 and 0 %, M between −2.0 and 0 %, the turn-area within
 * 0.6 %. The permeability of real pole steel is far less certain than this.
 */
export const POLE_MODEL_RELATIVE_SD = 0.012;

/**
 * Inductance matrix of coils that share poles: air-core inductances plus μ0 Σ Hᵢ·Mⱼ·V over slices of the rods, Hᵢ the axial
 * field of coil i per ampere-turn and Mⱼ the magnetisation that coil j's field causes, each rod demagnetised by itself and by its
 * neighbours (see rod-magnetisation.ts). With one slice and no neighbours this is χₐ V H² with the apparent susceptibility
 * χ/(1 + Nχ) of Chen, Brug & Goldfarb (1991). DC and linear: no eddy currents, no saturation. Rods of permeability 1 do nothing.
 * Remembers its results by value.
 */
export const inductanceWithPoles: (arrangement: CoilsWithPoles) => InductanceMatrix = memoByValue(
  (arrangement: CoilsWithPoles) => inductanceMatrix(arrangement),
);

/** The same at any number of slices to a rod, not remembered: what convergence is judged by. */
export function inductanceMatrix({ coils, rods }: CoilsWithPoles, slicesWanted?: number): InductanceMatrix {
  const groups = groupsOf(
    rods.filter((rod) => rod.relativePermeability > 1 && rod.topM > rod.bottomM && rod.diameterM > 0),
    coils,
  );
  const slices = slicesWanted ?? slicesPerRod(groups.length);
  const representatives = groups.map(([rod]) => rod);
  const fields = coils.map((coil) => sliceFields(coil, representatives, slices));
  const magnetisations = sliceMagnetisations(groups, slices, fields);
  const volumes = groups.flatMap((group) =>
    new Array<number>(slices).fill((group.length * rodVolumeM3(group[0])) / slices),
  );
  const air = airMatrix(coils);
  const total = air.map((row, i) =>
    row.map((value, j) => value + MU0 * linkage(fields[i], magnetisations[j], volumes)),
  );
  const uniform = new Float64Array(volumes.length).fill(1);
  const turnAreaOverAir = coils.map(
    ({ section }, i) => 1 + linkage(uniform, magnetisations[i], volumes) / meanTurnAreaM2(section.core, section.buildM),
  );
  return { air, total, turnAreaOverAir };
}

/** Centres of `count` poles in a row about the middle of the coil, `spreadM` from the first to the last, metres. */
export function poleCentresM(count: number, spreadM: number): number[] {
  if (count === 1) return [0];
  return Array.from({ length: count }, (_, index) => spreadM * (index / (count - 1) - 0.5));
}

/**
 * A straight blade as a row of round rods of the same section, side by side. Its demagnetising factor comes out within 2 % of a
 * prism's (Aharoni 1998); what it adds to an inductance is good to about 10 %. At most 40 rods.
 */
export function bladeAsRods(
  blade: Omit<PoleRod, 'diameterM'> & { readonly lengthM: number; readonly thicknessM: number },
): PoleRod[] {
  const { lengthM, thicknessM, alongM, ...rest } = blade;
  const count = Math.min(40, Math.max(1, Math.round(lengthM / thicknessM)));
  const diameterM = 2 * Math.sqrt((lengthM * thicknessM) / count / Math.PI);
  return poleCentresM(count, lengthM * (1 - 1 / count)).map((centreM) => ({
    ...rest,
    alongM: alongM + centreM,
    diameterM,
  }));
}

/** Rods mirrored about the middle of the coils count once, provided that all coils share that middle. */
function groupsOf(rods: readonly PoleRod[], coils: readonly PlacedCoil[]): RodGroup[] {
  const planeM = coils[0]?.centre.alongM ?? 0;
  return coils.every(({ centre }) => centre.alongM === planeM) ? mirrorGroups(rods, planeM) : rods.map((rod) => [rod]);
}

/** Field of one coil per ampere-turn, averaged over each slice of each rod. The mean over a section is taken at seven points (degree five). */
function sliceFields({ section, centre }: PlacedCoil, rods: readonly PoleRod[], slices: number): Float64Array {
  const fields = rods.flatMap((rod) => {
    const at = { alongM: rod.alongM - centre.alongM, acrossM: rod.acrossM - centre.acrossM };
    return meanOverSection(section, at, rod, centre.axialM, slices);
  });
  return Float64Array.from(fields);
}

function meanOverSection(
  section: CoilSection,
  at: { alongM: number; acrossM: number },
  rod: PoleRod,
  centreAxialM: number,
  slices: number,
): number[] {
  const heightsM = sliceHeightsM(rod, slices).map((z) => z - centreAxialM);
  const mean = new Array<number>(slices).fill(0);
  for (const { x, y, weight } of DISC_RULE) {
    const alongM = at.alongM + (x * rod.diameterM) / 2;
    const acrossM = at.acrossM + (y * rod.diameterM) / 2;
    const field = axialFieldPerAmpereTurn(section, { alongM, acrossM, heightsM });
    for (let k = 0; k < slices; k++) mean[k] = (mean[k] ?? 0) + weight * (field[k] ?? 0);
  }
  return mean;
}

function linkage(
  field: Float64Array | undefined,
  magnetisation: Float64Array | undefined,
  volumes: readonly number[],
): number {
  return volumes.reduce((sum, volume, k) => sum + volume * (field?.[k] ?? 0) * (magnetisation?.[k] ?? 0), 0);
}

function rodVolumeM3({ diameterM, bottomM, topM }: PoleRod): number {
  return (Math.PI / 4) * diameterM ** 2 * (topM - bottomM);
}

function airMatrix(coils: readonly PlacedCoil[]): number[][] {
  const matrix = coils.map((coil) =>
    coils.map((other) => (coil === other ? inductancePerTurnSquaredH(coil.section) : 0)),
  );
  coils.forEach((a, i) => {
    coils.slice(0, i).forEach((b, j) => {
      const mutual = mutualInductancePerTurnsProductH({
        first: a.section,
        second: b.section,
        offset: offsetBetween(a.centre, b.centre),
      });
      const [row, mirrored] = [matrix[i], matrix[j]];
      if (row !== undefined) row[j] = mutual;
      if (mirrored !== undefined) mirrored[i] = mutual;
    });
  });
  return matrix;
}
