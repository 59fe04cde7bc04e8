import { memoByValue } from '../memo.ts';
import { inductanceWithPoles, type PlacedCoil } from '../pole-pieces.ts';
import type { Conductors } from './conductors.ts';
import { type EddyNetwork, eddyNetwork, type PoleRow, type StringPoint } from './eddy-network.ts';
import { type MagneticPart, magneticPart, together } from './magnetic-parts.ts';
import { nestedRectangles, opposedHalves } from './rectangles.ts';
import { nestedRings } from './rings.ts';
import { type SharedLoop, sharedLoops } from './shared-loops.ts';
import { halfWidthM, type Sheet } from './sheet.ts';

/** Coils with all the metal about them, as plain numbers. */
export interface MetalByCoils {
  readonly coils: readonly PlacedCoil[];
  readonly sheets: readonly Sheet[];
  /** Whether the sheets lie over two coils side by side, midway between them; else all are round one axis. */
  readonly sideBySide: boolean;
  readonly poles: readonly PoleRow[];
  readonly strings: readonly StringPoint[];
  /** Which of the coils have a string over them. */
  readonly heard: readonly boolean[];
  readonly magnetic: readonly MagneticPart[];
}

export interface ReducedMetal {
  readonly loops: readonly SharedLoop[];
  /** Which part of the added resistance at 3 kHz is the poles' own, 0 to 1. */
  readonly polesShare: number;
}

const LOSSES_TOLD_APART_HZ = 3000;
const FINEST_STRIP_M = 0.8e-3;
/** Wider sheets are cut into this many strips to either side of their middle: the finest ones do not matter there. */
const MOST_STRIPS = 14;

/** Remembers its results by value. */
export const reducedMetal: (arrangement: MetalByCoils) => ReducedMetal = memoByValue(reduced, 200);

function reduced({ coils, sheets, sideBySide, poles, strings, heard, magnetic }: MetalByCoils): ReducedMetal {
  const airH = inductanceWithPoles({ coils, rods: [] }).air;
  const stripM = Math.max(FINEST_STRIP_M, ...sheets.map(({ outline }) => halfWidthM(outline) / MOST_STRIPS));
  const conductors: readonly Conductors[] =
    sheets.length === 0
      ? []
      : sideBySide
        ? [nestedRectangles(sheets, coils, stripM), opposedHalves(sheets, coils, stripM)]
        : [nestedRings(sheets, coils, stripM)];
  const network = eddyNetwork({ coils, airH, conductors, poles, strings });
  const table = magnetic.length > 0 ? together(magnetic.map(magneticPart)) : undefined;
  const tabulated = table ? -table.inductance(LOSSES_TOLD_APART_HZ).im : 0;
  const all = relativeLoss(network);
  const ofPoles =
    poles.length === 0
      ? 0
      : sheets.length === 0
        ? all
        : relativeLoss(eddyNetwork({ coils, airH, conductors: [], poles, strings }));
  return {
    loops: sharedLoops(network, heard, table),
    polesShare: ofPoles > 0 ? Math.min(1, ofPoles / (all + tabulated)) : 0,
  };
}

/** Added resistance over reactance, the sum over the coils. */
function relativeLoss({ inductanceH }: EddyNetwork): number {
  const still = inductanceH(0);
  return inductanceH(LOSSES_TOLD_APART_HZ).reduce(
    (sum, row, i) => sum - (row[i]?.im ?? 0) / (still[i]?.[i]?.re ?? 1),
    0,
  );
}
