import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Place, Stated } from './place.ts';

export interface Bobbin {
  readonly name: string;
  readonly place: Place;
  /** The outline that the first layer lies on: length x width; round ends where no corner radius is stated. */
  readonly core:
    | Stated<{ readonly length: Quantity; readonly width: Quantity; readonly corner: Quantity | undefined }>
    | undefined;
  /** Winding space. */
  readonly window: Stated<{ readonly height: Quantity; readonly depth: Quantity }> | undefined;
  readonly poles: Stated<{ readonly count: number; readonly spread: Quantity | undefined }> | undefined;
  /** `none`: no poles of its own (the lower coil of a stack). */
  readonly pole: Stated<Pole | 'none'> | undefined;
  readonly plastic: Stated<Plastic> | undefined;
}

export type PoleForm = 'slug' | 'screw' | 'rod' | 'blade';
export type Plastic = 'abs' | 'butyrate' | 'fibre';

export interface Pole {
  readonly form: PoleForm;
  /** `steel`, or a magnet grade for rods. */
  readonly material: string;
  /** Diameter of round poles; a blade's thickness. */
  readonly diameter: Quantity | undefined;
  readonly length: Quantity | undefined;
}
