import type { AxialLine } from '../coil-field.ts';

/**
 * A set of closed current paths in metal, with everything that the rest needs to know of them. Currents run counterclockwise seen
 * from the strings. `resistanceOhm` and `inductanceH` are square and symmetric, row by row.
 */
export interface Conductors {
  readonly size: number;
  readonly resistanceOhm: Float64Array;
  readonly inductanceH: Float64Array;
  /** Mutual inductance with each coil, H per turn. */
  readonly toCoils: readonly Float64Array[];
  /** Axial field, A/m per ampere, that each path makes between each two heights of a line, as {@link AxialLine} has it. One row per path. */
  fieldAlong(line: AxialLine): readonly Float64Array[];
}
