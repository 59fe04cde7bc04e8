import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';

export type Enamel = NonNullable<Wire['enamel']>['value'];

export interface Wire extends Plain<typeof language.wire, 'gauge'> {
  readonly name: string;
  readonly place: Place;
  readonly gaugeAwg: Stated<number> | undefined;
}

/** One spool of wire on the shelf. */
export interface Spool extends Plain<typeof language.spool, 'wire' | 'measures'> {
  readonly name: string;
  readonly place: Place;
  readonly wire: Wire | undefined;
  /** What this reel really measures; serves every coil wound from it. */
  readonly measured:
    | Stated<{ readonly resistancePerLength: Quantity; readonly temperatureC: number | undefined }>
    | undefined;
}
