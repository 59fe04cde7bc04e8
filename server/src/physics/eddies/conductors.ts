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
  /** Axial field, A/m per ampere, that each path makes along a line; see {@link AxialLine}. One row per path. */
  fieldAlong(line: AxialPoints): readonly Float64Array[];
}

/** Points on a line parallel to the coils' axes. */
export interface AxialPoints {
  readonly alongM: number;
  readonly acrossM: number;
  readonly heightsM: readonly number[];
}
