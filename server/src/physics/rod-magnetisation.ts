import { demagnetisingFactor, sliceDemagnetisingFactors } from './demagnetising-factor.ts';
import { solveInPlace } from './linear-solve.ts';

/** A round pole parallel to the coils' axes, in the coordinates that the coils' centres are given in, metres. */
export interface PoleRod {
  alongM: number;
  acrossM: number;
  bottomM: number;
  topM: number;
  diameterM: number;
  relativePermeability: number;
}

/** How finely rods are cut along their axis: 12 slices, fewer where there are so many rods that solving would be slow. */
export function slicesPerRod(rodCount: number): number {
  return Math.min(12, Math.max(1, Math.floor(288 / Math.max(rodCount, 1))));
}

/** The heights between which the slices of a rod lie, bottom to top. */
export function sliceHeightsM({ bottomM, topM }: PoleRod, slices: number): number[] {
  return Array.from({ length: slices + 1 }, (_, index) => bottomM + ((topM - bottomM) * index) / slices);
}

/** Rods that are magnetised alike for reasons of symmetry; the first stands for all. Never empty. */
export type RodGroup = readonly [PoleRod, ...PoleRod[]];

/**
 * Pairs of rods that are each other's mirror image in the plane `alongM` = `planeM`, and rods in that plane, as groups; where any
 * rod lacks its image every rod is its own group. Half the unknowns take an eighth of the time.
 */
export function mirrorGroups(rods: readonly PoleRod[], planeM: number): RodGroup[] {
  const groups = new Map<string, [PoleRod, ...PoleRod[]]>();
  for (const rod of rods) {
    const { alongM, acrossM, bottomM, topM, diameterM, relativePermeability } = rod;
    const key = [Math.abs(alongM - planeM).toFixed(9), acrossM, bottomM, topM, diameterM, relativePermeability].join(
      ' ',
    );
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [rod]);
    else group.push(rod);
  }
  const whole = [...groups.values()].every(([first, second, ...more]) => {
    if (second === undefined) return Math.abs(first.alongM - planeM) < 1e-9;
    return more.length === 0 && Math.abs(first.alongM - second.alongM) > 1e-9;
  });
  return whole ? [...groups.values()] : rods.map((rod) => [rod]);
}

/**
 * Axial magnetisation of every slice of every group's rods, A/m, in applied fields given per slice (group by group, bottom to
 * top), one result for each applied field. Linear and static.
 *
 * Each slice is magnetised evenly over its section: M/χ = H applied + H of all slices. Slices of one rod act on each other
 * as coaxial solenoids do (Lorenz's exact inductance); slices of other rods by the charge on their faces, as discs seen from
 * afar (monopole and quadrupole). Since the section is not evenly magnetised in truth, each rod gets a constant correction
 * that makes it, alone in a uniform field, have the demagnetising factor of {@link demagnetisingFactor}. Every relative
 * permeability must exceed 1. Rods that overlap give finite numbers without meaning.
 */
export function sliceMagnetisations(
  groups: readonly RodGroup[],
  slices: number,
  applied: readonly Float64Array[],
): Float64Array[] {
  const size = groups.length * slices;
  const matrix = new Float64Array(size * size);
  // A row of equal rods has few distinct distances, so few distinct blocks.
  const blocks = new Map<string, Float64Array>();
  groups.forEach(([rod], p) => {
    groups.forEach((sources, q) => {
      for (const source of sources) {
        const key = source === rod ? ownKey(rod) : pairKey(rod, source);
        const block = blocks.get(key) ?? (source === rod ? ownBlock(rod, slices) : crossBlock(rod, source, slices));
        blocks.set(key, block);
        addBlock(matrix, block, p * slices, q * slices);
      }
    });
  });
  const result = applied.map((field) => Float64Array.from(field));
  solveInPlace(matrix, result);
  return result;
}

function addBlock(matrix: Float64Array, block: Float64Array, row: number, column: number): void {
  const [size, slices] = [Math.round(Math.sqrt(matrix.length)), Math.round(Math.sqrt(block.length))];
  for (let i = 0; i < slices; i++) {
    const start = (row + i) * size + column;
    for (let j = 0; j < slices; j++) matrix[start + j] = (matrix[start + j] ?? 0) + (block[i * slices + j] ?? 0);
  }
}

function ownKey({ topM, bottomM, diameterM, relativePermeability }: PoleRod): string {
  return `${topM - bottomM} ${diameterM} ${relativePermeability}`;
}

function pairKey(rod: PoleRod, source: PoleRod): string {
  const nanometres = Math.hypot(rod.alongM - source.alongM, rod.acrossM - source.acrossM).toFixed(9);
  return [nanometres, rod.bottomM, rod.topM, rod.diameterM, source.bottomM, source.topM, source.diameterM].join(' ');
}

/** 1/χ and the negative self-demagnetisation of the slices of one rod, row by row, corrected to the rod's exact factor. */
function ownBlock(rod: PoleRod, slices: number): Float64Array {
  const lengthM = rod.topM - rod.bottomM;
  const chi = rod.relativePermeability - 1;
  const factors = sliceDemagnetisingFactors({ lengthM: lengthM / slices, diameterM: rod.diameterM }, slices);
  const exact = demagnetisingFactor({ lengthM, diameterM: rod.diameterM }, rod.relativePermeability);
  let diagonal = 1 / chi;
  // The correction shifts the factor of the sliced rod almost one to one, so three rounds settle it.
  for (let round = 0; round < 3; round++) {
    const uniform = new Float64Array(slices).fill(1);
    solveInPlace(toeplitz(factors, diagonal), [uniform]);
    const mean = uniform.reduce((sum, value) => sum + value, 0) / slices;
    diagonal += exact + 1 / chi - 1 / mean;
  }
  return toeplitz(factors, diagonal);
}

function toeplitz(factors: readonly number[], diagonal: number): Float64Array {
  const size = factors.length;
  return Float64Array.from({ length: size * size }, (_, index) => {
    const [i, j] = [Math.floor(index / size), index % size];
    return (i === j ? diagonal : 0) + (factors[Math.abs(i - j)] ?? 0);
  });
}

/** Negative mean axial H over each slice of `rod` from unit magnetisation of each slice of `source`, row by row. */
function crossBlock(rod: PoleRod, source: PoleRod, slices: number): Float64Array {
  const distance = Math.hypot(rod.alongM - source.alongM, rod.acrossM - source.acrossM);
  const potential = discPotential(rod.diameterM / 2, source.diameterM / 2, distance);
  const at = sliceHeightsM(rod, slices);
  const from = sliceHeightsM(source, slices);
  const between = at.map((z) => from.map((z0) => potential(z - z0)));
  const sliceM = (rod.topM - rod.bottomM) / slices;
  return Float64Array.from({ length: slices * slices }, (_, index) => {
    const [i, j] = [Math.floor(index / slices), index % slices];
    const ofPoles = (k: number) => (between[k]?.[j + 1] ?? 0) - (between[k]?.[j] ?? 0);
    return (ofPoles(i + 1) - ofPoles(i)) / sliceM;
  });
}

/** Mean potential over a disc of radius a from unit charge density on a parallel disc of radius b, `distance` aside, z above. */
function discPotential(a: number, b: number, distance: number): (z: number) => number {
  const charge = (b * b) / 4;
  if (distance < 0.8 * (a + b)) {
    // On one axis or nearly so: 16/(3πa) is the mean inverse distance within a disc, which the softened one meets at z = 0.
    const softening = ((3 * Math.PI) / 16) ** 2 * a * b;
    return (z) => charge / Math.sqrt(distance * distance + z * z + softening);
  }
  const quadrupole = (a * a + b * b) / 8;
  return (z) => {
    const r2 = distance * distance + z * z;
    return (charge / Math.sqrt(r2)) * (1 - (quadrupole * (3 * z * z - r2)) / (r2 * r2));
  };
}
