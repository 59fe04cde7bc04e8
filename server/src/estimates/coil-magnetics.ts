/** Inductances, capacitance and eddy losses of each coil of a pickup, and of the whole, as the estimates hand them on. */
import type { Coil } from '../model/coil.ts';
import type { EddyBranch } from '../physics/eddy-currents.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { CoilCapacitances } from './coil-capacitance.ts';

export interface CoilMagnetics {
  readonly coil: Coil;
  readonly airH: Estimate;
  readonly totalH: Estimate;
  readonly capacitances: CoilCapacitances;
  readonly eddies: readonly EddyBranch[];
  /** Turn-area that a uniform field sees, over that of the coil in air. */
  readonly turnAreaOverAir: number;
}

export interface PickupMagnetics {
  readonly coils: ReadonlyMap<Coil, CoilMagnetics>;
  /** Between hot and ground; a reading of it stands in its place, and then scales the coils' too. */
  readonly inductanceH: Estimate | undefined;
  /** Seen between hot and ground, the pickup's own cable included. */
  readonly capacitanceF: Estimate | undefined;
  /** The pickup's own cable, across the output. */
  readonly leadF: number;
  /** Between the outermost turns of neighbours side by side. */
  readonly between: readonly { readonly coils: readonly [Coil, Coil]; readonly farad: Estimate }[];
  /** Mutual inductance of two coils, H, both counted the same way round. */
  mutualSameSenseH(a: Coil, b: Coil): number;
}
