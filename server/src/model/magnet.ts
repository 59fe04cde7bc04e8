import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Place, Stated } from './place.ts';

export interface Magnet {
  readonly name: string;
  readonly place: Place;
  /** A grade, such as `alnico-5`. */
  readonly material: Stated<string> | undefined;
  readonly remanence: Stated<Quantity> | undefined;
  readonly coercivity: Stated<Quantity> | undefined;
  /** Length x width x thickness; magnetised across the width. */
  readonly size:
    | Stated<{ readonly length: Quantity; readonly width: Quantity; readonly thickness: Quantity }>
    | undefined;
}

/** True of a magnet among the things that a file names. */
export const isMagnet = (thing: object): thing is Magnet => 'remanence' in thing && 'size' in thing;
