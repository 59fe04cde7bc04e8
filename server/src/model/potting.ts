import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Place, Stated } from './place.ts';

export interface Potting {
  readonly place: Place;
  /** The mix: ingredient and its percentage by mass. */
  readonly wax: Stated<readonly WaxPart[]> | undefined;
  readonly bath: Stated<Quantity> | undefined;
  readonly soak: Stated<Quantity> | undefined;
  readonly batch: Stated<Quantity> | undefined;
}

export interface WaxPart {
  readonly ingredient: string;
  /** 0 to 1. */
  readonly share: number;
  readonly place: Place;
}
