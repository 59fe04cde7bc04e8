/** The equations of one regime: at angular frequency ω the entry k at (row, column) is g + jω·b. */
export interface LinearSystem {
  readonly size: number;
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly g: Float64Array;
  readonly b: Float64Array;
}
