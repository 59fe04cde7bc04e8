import type { language } from '../../../grammar/src/schema/index.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';

export interface Potting extends Plain<typeof language.potting, 'wax'> {
  readonly place: Place;
  /** The mix: ingredient and its percentage by mass. */
  readonly wax: Stated<readonly WaxPart[]> | undefined;
}

export interface WaxPart {
  readonly ingredient: string;
  /** 0 to 1. */
  readonly share: number;
  readonly place: Place;
}
