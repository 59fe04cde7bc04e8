/** A switch by its contact table. */
import type { language } from '../../../grammar/src/schema/index.ts';
import type { Place } from './place.ts';
import type { Plain } from './reading.ts';

export interface Switch extends Plain<typeof language.switch, 'rows' | 'poles' | 'detents' | 'travel'> {
  readonly name: string;
  readonly place: Place;
  readonly title: string | undefined;
  readonly lugs: readonly string[];
  /** How the lugs lie, seen from the soldering side. */
  readonly rows: readonly (readonly string[])[];
  /** In the order of travel. */
  readonly detents: readonly Detent[];
  /** `undefined`: not known. */
  readonly travel: 'make-before-break' | 'break-before-make' | undefined;
}

export interface Detent {
  readonly name: string;
  readonly title: string | undefined;
  /** Groups of lugs that are one while the switch rests here. */
  readonly joins: readonly (readonly string[])[];
}
