import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { PoleUp } from './coil.ts';
import type { LeadPath, Probes } from './lead.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';
import type { Sweep } from './sweep.ts';

/** One block of readings, taken at one time. */
export interface Readings
  extends Plain<
    typeof language.readings,
    'resistance' | 'kick' | 'compass' | 'inductance' | 'capacitance' | 'position' | 'sweep'
  > {
  readonly place: Place;
  readonly title: string | undefined;
  readonly date: string | undefined;
  /** Before the work, as the pickup came in. */
  readonly found: boolean;
  /** Before any joint of the hookup was made. */
  readonly apart: boolean;
  readonly lines: readonly Reading[];
  readonly sweeps: readonly Sweep[];
  /** The words of each line of a kick or a compass that stands there and could not be read. */
  readonly unreadSigns: readonly (readonly string[])[];
}

export type Reading = { readonly place: Place } & (
  | {
      readonly kind: 'coil resistance';
      readonly coil: LeadPath;
      readonly value: Quantity | 'open';
      readonly atC: Quantity | undefined;
    }
  | {
      readonly kind: 'resistance';
      readonly probes: Probes;
      readonly value: Quantity | 'open';
      readonly atC: Quantity | undefined;
    }
  | {
      readonly kind: 'kick';
      readonly probes: Probes;
      /** The coil whose poles the steel was brought near. */
      readonly at: LeadPath | undefined;
      readonly motion: 'approach' | 'pull-off';
      readonly reads: 'positive' | 'negative';
    }
  | { readonly kind: 'compass'; readonly coil: LeadPath; readonly shows: PoleUp }
  | {
      readonly kind: 'inductance';
      readonly probes: Probes;
      readonly value: Quantity;
      readonly atHz: Quantity | undefined;
    }
  | { readonly kind: 'capacitance'; readonly probes: Probes | undefined; readonly value: Quantity }
  | {
      readonly kind: 'position';
      readonly key: Stated<string>;
      readonly value: Quantity | 'open';
      readonly atC: Quantity | undefined;
    }
);

export type ReadingOf<K extends Reading['kind']> = Extract<Reading, { kind: K }>;
