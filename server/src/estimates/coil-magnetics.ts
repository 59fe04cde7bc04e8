/** Inductances, capacitance and eddy currents of the coils of a pickup, and of the whole, as the estimates hand them on. */
import type { Coil } from '../model/coil.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { CoilCapacitances } from './coil-capacitance.ts';

export interface CoilMagnetics {
  readonly coil: Coil;
  /** Without poles; `undefined` of a coil that was measured and of which nothing else is known. */
  readonly airH: Estimate | undefined;
  readonly totalH: Estimate;
  readonly capacitances: CoilCapacitances;
  /** Turn-area that a uniform field sees, over that of the coil in air. */
  readonly turnAreaOverAir: number;
}

/** A shorted turn that stands for metal: coupling with each coil and what a string over that coil drives in it, coils counted alike. */
export interface EddyTurn {
  readonly cornerHz: number;
  readonly beside: ReadonlyMap<Coil, { readonly coupling: number; readonly drive: number }>;
}

export interface PickupEddies {
  readonly turns: readonly EddyTurn[];
  /** Time constants of the eddy currents, and what they take from the string's field, as factors about 1. */
  readonly losses: Estimate;
  readonly screening: Estimate;
}

export interface PickupMagnetics {
  readonly coils: ReadonlyMap<Coil, CoilMagnetics>;
  /** Between hot and ground; a reading of it stands in its place, and then scales the coils' too. */
  readonly inductanceH: Estimate | undefined;
  /** Share of that inductance which eddy currents take at a frequency. */
  lostShare(frequencyHz: number): number;
  /** Seen between hot and ground, the pickup's own cable included. */
  readonly capacitanceF: Estimate | undefined;
  /** Made on first use: what asks for an inductance alone does not wait for it. */
  readonly eddies: () => PickupEddies;
  /** The pickup's own cable, across the output. */
  readonly leadF: number;
  /** Between the outermost turns of neighbours side by side. */
  readonly between: readonly { readonly coils: readonly [Coil, Coil]; readonly farad: Estimate }[];
  /** Mutual inductance of two coils, H, both counted the same way round. */
  mutualSameSenseH(a: Coil, b: Coil): number;
}
