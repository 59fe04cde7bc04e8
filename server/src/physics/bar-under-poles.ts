import { blockDemagnetisingFactor } from './demagnetising-factor.ts';
import { DISC_RULE } from './disc-rule.ts';
import { cylinderAxialFieldT } from './magnet-field.ts';
import { memoByValue } from './memo.ts';
import {
  mirrorGroups,
  type PoleRod,
  type RodGroup,
  sliceHeightsM,
  sliceMagnetisations,
  slicesPerRod,
} from './rod-magnetisation.ts';

/** A bar magnetised across its width, its centre at along = across = 0, its north face toward positive `acrossM`. */
export interface BarMagnet {
  lengthM: number;
  widthM: number;
  thicknessM: number;
  /** Height of its centre, in the coordinates of the poles. */
  centreAxialM: number;
}

/** A bar between rows of steel poles, and the distance over the tops of the poles where the field is wanted. */
export interface BarWithPoles {
  bar: BarMagnet;
  rods: readonly PoleRod[];
  aboveTopM: number;
}

export interface BarField {
  /** Of the bar with its poles in place, for its working point (demagnetisation-curve.ts); the bare bar's is larger. */
  demagnetisingFactor: number;
  /** Per rod, on its axis: axial flux density over the bar's polarisation. Positive points away from the bar: a north pole up. */
  fieldOverPolarisation: readonly number[];
}

/**
 * Relative standard uncertainty of the field above a pole. The model is linear and knows nothing of keepers, air gaps between bar and
 * poles, screws' threads or saturation, and no outside value was found to check the whole of it, so it is wide; the ratio of two
 * magnets under the same poles is better, see magnet-change.ts.
 */
export const BAR_FIELD_RELATIVE_SD = 0.35;

/**
 * What a bar magnet with steel poles at its faces makes at the strings. The bar is uniformly magnetised: two charged rectangles in
 * closed form. Their field magnetises the poles slice by slice (rod-magnetisation.ts); by reciprocity the poles give back to the bar
 * the field Σ V M H/V_bar, which lowers its demagnetising factor (Aharoni's for the bare bar). Everything scales with the polarisation
 * of the bar's working point. Remembers its results by value.
 */
export const barUnderPoles: (arrangement: BarWithPoles) => BarField = memoByValue(
  ({ bar, rods, aboveTopM }: BarWithPoles) => {
    const steel = rods.filter(({ relativePermeability }) => relativePermeability > 1);
    const groups = mirrorGroups(steel, 0);
    const slices = slicesPerRod(groups.length);
    // Per ampere per metre of the bar's magnetisation.
    const applied = Float64Array.from(groups.flatMap(([rod]) => fieldOverSlices(bar, rod, slices)));
    const magnetisation = sliceMagnetisations(groups, slices, [applied])[0] ?? new Float64Array(0);
    const returned = magnetisation.reduce(
      (sum, value, index) =>
        sum + value * (applied[index] ?? 0) * sliceVolumeM3(groups[Math.floor(index / slices)], slices),
      0,
    );
    const bare = blockDemagnetisingFactor({ alongM: bar.widthM, acrossM: bar.lengthM, otherM: bar.thicknessM });
    return {
      demagnetisingFactor: Math.max(0, bare - returned / (bar.lengthM * bar.widthM * bar.thicknessM)),
      fieldOverPolarisation: rods.map((rod) => fieldAbove(bar, groups, magnetisation, rod, aboveTopM)),
    };
  },
);

/** Flux density over polarisation: the bar's own, the pole's own discs exactly, the other poles' faces as points. */
function fieldAbove(
  bar: BarMagnet,
  groups: readonly RodGroup[],
  magnetisation: Float64Array,
  above: PoleRod,
  aboveTopM: number,
): number {
  const z = above.topM + aboveTopM;
  const slices = groups.length > 0 ? magnetisation.length / groups.length : 0;
  const step = 1e-5;
  const below = barPotential(bar, above.alongM, above.acrossM, z - step);
  let field = (below - barPotential(bar, above.alongM, above.acrossM, z + step)) / (2 * step);
  groups.forEach((group, index) => {
    for (const rod of group) {
      const heights = sliceHeightsM(rod, slices);
      const distance = Math.hypot(rod.alongM - above.alongM, rod.acrossM - above.acrossM);
      for (let k = 0; k < slices; k++) {
        const [bottom, top] = [heights[k] ?? 0, heights[k + 1] ?? 0];
        const unit =
          distance < rod.diameterM / 2
            ? cylinderAxialFieldT({
                polarisationT: 1,
                diameterM: rod.diameterM,
                lengthM: top - bottom,
                distanceM: z - top,
              })
            : (sectionM2(rod) / (4 * Math.PI)) * (pointField(distance, z - top) - pointField(distance, z - bottom));
        field += (magnetisation[index * slices + k] ?? 0) * unit;
      }
    }
  });
  return field;
}

function pointField(distance: number, height: number): number {
  return height / Math.hypot(distance, height) ** 3;
}

function sliceVolumeM3(group: RodGroup | undefined, slices: number): number {
  if (group === undefined) return 0;
  const [rod] = group;
  return (group.length * sectionM2(rod) * (rod.topM - rod.bottomM)) / slices;
}

function fieldOverSlices(bar: BarMagnet, rod: PoleRod, slices: number): number[] {
  const potentials = sliceHeightsM(rod, slices).map((height) =>
    DISC_RULE.reduce(
      (sum, { x, y, weight }) =>
        sum +
        weight * barPotential(bar, rod.alongM + (x * rod.diameterM) / 2, rod.acrossM + (y * rod.diameterM) / 2, height),
      0,
    ),
  );
  const sliceM = (rod.topM - rod.bottomM) / slices;
  return potentials.slice(1).map((above, k) => ((potentials[k] ?? 0) - above) / sliceM);
}

/** Magnetic scalar potential, A, of a bar of unit magnetisation: its north face less its south face. */
function barPotential(bar: BarMagnet, alongM: number, acrossM: number, axialM: number): number {
  const at = (away: number) => rectanglePotential(bar.lengthM, bar.thicknessM, alongM, axialM - bar.centreAxialM, away);
  return (at(acrossM - bar.widthM / 2) - at(acrossM + bar.widthM / 2)) / (4 * Math.PI);
}

/** ∬ 1/R over a rectangle centred at the origin, from a point at (x, y) over its plane and `away` from it. Closed form. */
function rectanglePotential(length: number, width: number, x: number, y: number, away: number): number {
  const d = Math.max(Math.abs(away), 1e-12);
  const corner = (u: number, v: number) =>
    u * Math.asinh(v / Math.hypot(u, d)) +
    v * Math.asinh(u / Math.hypot(v, d)) -
    d * Math.atan((u * v) / (d * Math.hypot(u, v, d)));
  const [left, right, low, high] = [x - length / 2, x + length / 2, y - width / 2, y + width / 2];
  return corner(right, high) - corner(left, high) - corner(right, low) + corner(left, low);
}

function sectionM2({ diameterM }: PoleRod): number {
  return (Math.PI / 4) * diameterM ** 2;
}
