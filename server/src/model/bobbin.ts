import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';

export interface Bobbin extends Plain<typeof language.bobbin, 'core' | 'corner' | 'pole'> {
  readonly name: string;
  readonly place: Place;
  /** The outline that the first layer lies on: length x width; round ends where no corner radius is stated. */
  readonly core:
    | Stated<{ readonly length: Quantity; readonly width: Quantity; readonly corner: Quantity | undefined }>
    | undefined;
  /** `none`: no poles of its own (the lower coil of a stack). */
  readonly pole: Stated<Pole | 'none'> | undefined;
}

export type PoleForm = 'slug' | 'screw' | 'rod' | 'blade';
export type Plastic = NonNullable<Bobbin['plastic']>['value'];

export interface Pole {
  readonly form: PoleForm;
  /** `steel`, or a magnet grade for rods. */
  readonly material: string;
  /** Diameter of round poles; a blade's thickness. */
  readonly diameter: Quantity | undefined;
  readonly length: Quantity | undefined;
}

/** One piece under all strings: it has no poles that could miss one, or be counted. */
export const isBlade = ({ pole }: Bobbin): boolean =>
  pole !== undefined && pole.value !== 'none' && pole.value.form === 'blade';
