import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Coil } from './coil.ts';
import type { LeadPath } from './lead.ts';
import type { Magnet } from './magnet.ts';
import type { Place, Stated } from './place.ts';
import type { Potting } from './potting.ts';
import type { Readings } from './readings.ts';

export interface Pickup {
  readonly name: string;
  /** The block's first line. */
  readonly place: Place;
  readonly title: string | undefined;
  readonly serial: Stated<string> | undefined;
  readonly customer: Stated<string> | undefined;
  readonly position: Stated<string> | undefined;
  readonly strings: Stated<number> | undefined;
  /** Centre lines of two coils and which lies toward bridge or neck. */
  readonly coilsApart:
    | Stated<{
        readonly distance: Quantity;
        readonly coil: string | undefined;
        readonly toward: 'bridge' | 'neck' | undefined;
      }>
    | undefined;
  readonly made: Stated<string> | undefined;
  readonly notes: readonly Stated<string>[];
  /** Conductors of the cable that leaves the pickup; empty where the coils' own leads leave it. */
  readonly conductors: readonly Stated<string>[];
  /** The line that declares the conductors. */
  readonly conductorsPlace: Place | undefined;
  /** The drain wire or braid. */
  readonly shield: Stated<string> | undefined;
  readonly coils: readonly Coil[];
  /** A bar under the coils. */
  readonly barMagnet:
    | Stated<{
        readonly magnet: Magnet | undefined;
        readonly pole: 'north' | 'south';
        readonly towardCoil: Stated<string>;
      }>
    | undefined;
  readonly metal: readonly MetalFitting[];
  /** Parts stated as absent. */
  readonly without: readonly ('baseplate' | 'cover')[];
  /** Cable of the pickup itself. */
  readonly cable:
    | Stated<{ readonly length: Quantity; readonly capacitancePerLength: Quantity | undefined }>
    | undefined;
  readonly hookup: Hookup | undefined;
  readonly readings: readonly Readings[];
  readonly potting: Potting | undefined;
  readonly target: Target | undefined;
  readonly accepted: readonly Acceptance[];
  /** Fields whose line stands there and could not be read. */
  readonly unread: readonly string[];
}

export interface MetalFitting {
  readonly part: 'baseplate' | 'cover';
  readonly material: string;
  readonly tiedTo: LeadPath | undefined;
  readonly place: Place;
}

/** One line of the hookup that joins leads. */
export interface Joint {
  readonly kind: 'hot' | 'link' | 'ground' | 'shield' | 'free';
  readonly leads: readonly LeadPath[];
  readonly place: Place;
}

export interface Hookup {
  /** The block's first line. */
  readonly place: Place;
  readonly joints: readonly Joint[];
  readonly onPurpose: Place | undefined;
  /** Fields whose line stands there and could not be read. */
  readonly unread: readonly string[];
}

export interface Target {
  readonly place: Place;
  readonly resistance: Stated<Quantity> | undefined;
  readonly inductance: Stated<Quantity> | undefined;
  readonly resonance: Stated<{ readonly frequency: Quantity; readonly load: 'loaded' | 'unloaded' }> | undefined;
}

export interface Acceptance {
  readonly code: Stated<string>;
  readonly reason: string | undefined;
  readonly place: Place;
  /** The block that it stands in: it covers that block and what is in it. */
  readonly scope: Place;
}
