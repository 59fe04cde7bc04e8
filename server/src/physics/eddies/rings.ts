import { type AxialLine, axialFieldPerAmpereTurn, seenFrom } from '../coil-field.ts';
import { concentricTurnsMutualH, type Offset, offsetBetween, racetracksMutualH } from '../filaments.ts';
import { gaussLegendre } from '../gauss-legendre.ts';
import type { PlacedCoil } from '../pole-pieces.ts';
import { type Racetrack, turnLengthM } from '../racetrack.ts';
import type { Conductors } from './conductors.ts';
import { halfWidthM, inset, type Sheet, strips } from './sheet.ts';

/** A closed strip of a sheet: its middle line and its section. */
interface Ring {
  readonly line: Racetrack;
  readonly centre: Offset;
  /** In the sheet, and across it. */
  readonly widthM: number;
  readonly thicknessM: number;
  readonly upright: boolean;
  readonly resistanceOhm: number;
}

/**
 * Sheets round one axis, each cut into nested closed strips about `stripM` wide. Each strip carries its current evenly; its
 * self-inductance is that of two filaments a geometric mean distance 0.2235 (width + thickness) apart (Rosa; Grover 1946), mutuals
 * are by Neumann's integral of the middle lines, with a coil averaged over its section. Circles, stadiums and rectangles.
 */
export function nestedRings(sheets: readonly Sheet[], coils: readonly PlacedCoil[], stripM: number): Conductors {
  const rings = sheets.flatMap((sheet) => ringsOf(sheet, stripM));
  const size = rings.length;
  const resistanceOhm = new Float64Array(size * size);
  const inductanceH = new Float64Array(size * size);
  rings.forEach((ring, i) => {
    resistanceOhm[i * size + i] = ring.resistanceOhm;
    for (let j = 0; j <= i; j++) {
      const other = rings[j];
      if (other === undefined) continue;
      const mutual =
        i === j ? selfH(ring) : linesMutualH(ring.line, other.line, offsetBetween(ring.centre, other.centre));
      inductanceH[i * size + j] = mutual;
      inductanceH[j * size + i] = mutual;
    }
  });
  return {
    size,
    resistanceOhm,
    inductanceH,
    toCoils: coils.map((coil) => Float64Array.from(rings, (ring) => withCoilH(ring, coil))),
    fieldAlong: (line) => rings.map((ring) => fieldOf(ring, line)),
  };
}

function ringsOf({ outline, centre, thicknessM, resistivityOhmM, plate, wall }: Sheet, stripM: number): Ring[] {
  const ring = (line: Racetrack, axialM: number, widthM: number, upright: boolean): Ring => {
    const resistanceOhm = (resistivityOhmM * turnLengthM(line, 0)) / (widthM * thicknessM);
    return { line, centre: { ...centre, axialM }, widthM, thicknessM, upright, resistanceOhm };
  };
  const across = plate ? Math.min(plate.rimM ?? Number.POSITIVE_INFINITY, halfWidthM(outline)) : 0;
  const down = wall ? wall.topM - wall.bottomM : 0;
  return [
    ...strips(across, stripM).map(({ middleM, widthM }) =>
      ring(inset(outline, middleM), plate?.heightM ?? 0, widthM, false),
    ),
    ...strips(down, stripM).map(({ middleM, widthM }) => ring(outline, (wall?.topM ?? 0) - middleM, widthM, true)),
  ];
}

function selfH({ line, widthM, thicknessM }: Ring): number {
  return linesMutualH(line, line, { alongM: 0, acrossM: 0, axialM: 0.2235 * (widthM + thicknessM) });
}

function linesMutualH(first: Racetrack, second: Racetrack, offset: Offset): number {
  const concentric = offset.alongM === 0 && offset.acrossM === 0;
  const alike = first.straightM === second.straightM && first.straightAcrossM === second.straightAcrossM;
  if (!concentric || !alike) return racetracksMutualH(first, second, offset);
  const spine = { ...first, innerRadiusM: 0 };
  return concentricTurnsMutualH(spine, first.innerRadiusM, second.innerRadiusM, offset.axialM);
}

/** Radial and axial points over a coil's section: fewer where its turns are not shaped as the rings, which takes many times longer. */
const FINE = [gaussLegendre(4), gaussLegendre(5)] as const;
const COARSE = [gaussLegendre(3), gaussLegendre(3)] as const;

function withCoilH({ line, centre }: Ring, coil: PlacedCoil): number {
  const { core, buildM, heightM } = coil.section;
  const offset = offsetBetween(coil.centre, centre);
  const alike = core.straightM === line.straightM && core.straightAcrossM === line.straightAcrossM;
  const [radials, axials] = alike ? FINE : COARSE;
  let sum = 0;
  for (const radial of radials) {
    const turn = { ...core, innerRadiusM: core.innerRadiusM + buildM * radial.node };
    for (const axial of axials) {
      const axialM = offset.axialM - heightM * (axial.node - 0.5);
      sum += radial.weight * axial.weight * linesMutualH(turn, line, { ...offset, axialM });
    }
  }
  return sum;
}

function fieldOf({ line, centre, widthM, thicknessM, upright }: Ring, along: AxialLine): Float64Array {
  const [buildM, heightM] = upright ? [thicknessM, widthM] : [widthM, thicknessM];
  const section = { core: inset(line, buildM / 2), buildM, heightM };
  return Float64Array.from(axialFieldPerAmpereTurn(section, seenFrom(centre, along)));
}
