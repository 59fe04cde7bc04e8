/** Curves over frequency as lines of a spec name them: which file, and what they were measured through. */
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Curve, CurveFile } from './curve.ts';
import type { Probes } from './lead.ts';
import type { Place, Stated } from './place.ts';

/** What stands at the path of a curve. */
export type CurveAt =
  | CurveFile
  | { readonly kind: 'outside' | 'pending' | 'left out' }
  /** `meant`: the name of a curve beside where it should be that is spelled almost alike. */
  | { readonly kind: 'missing'; readonly meant?: string | undefined }
  | { readonly kind: 'unreadable'; readonly reason: string };

/** The circuit that a sweep was recorded in; `impedance`: a meter's own table. */
export type SetUp =
  | { readonly kind: 'impedance'; readonly accuracy: Quantity | undefined }
  | { readonly kind: 'through' | 'over' | 'excited'; readonly seriesOhm: Quantity };

export interface Sweep {
  readonly place: Place;
  /** Red lies toward the signal. */
  readonly probes: Probes;
  readonly file: Stated<string>;
  /** `undefined` where the file cannot be had or read; that has been told. */
  readonly curve: Curve | undefined;
  readonly setUp: SetUp;
  /** A capacitor put across. */
  readonly addedF: Quantity | undefined;
  readonly atC: Quantity | undefined;
}
