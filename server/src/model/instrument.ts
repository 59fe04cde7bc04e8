import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Acceptance } from './acceptance.ts';
import type { LeadPath } from './lead.ts';
import type { Pickup } from './pickup.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';
import type { Readings } from './readings.ts';
import type { SwitchSlot, Wiring } from './wiring.ts';

export interface Instrument extends Plain<typeof language.instrument, 'strings' | 'pickup' | 'switches'> {
  readonly name: string;
  readonly place: Place;
  readonly title: string | undefined;
  readonly strings:
    | Stated<{ readonly count: number; readonly atBridge: Quantity | undefined; readonly atNut: Quantity | undefined }>
    | undefined;
  readonly slots: readonly Slot[];
  readonly switches: readonly SwitchSlot[];
  readonly controls: readonly Control[];
  /** What is soldered to the lugs; `undefined`: not written. */
  readonly wiring: Wiring | undefined;
  readonly readings: readonly Readings[];
  readonly selectorPlace: Place | undefined;
  readonly positions: readonly Position[];
  /** True where a position's line stands there and could not be read: what seems to be missing may stand on it. */
  readonly positionsUnread: boolean;
  readonly accepted: readonly Acceptance[];
}

/** A place of the instrument that a pickup is fitted in. */
export interface Slot {
  readonly name: string;
  readonly pickup: Pickup | undefined;
  readonly pickupName: Stated<string>;
  /** Pole centre line to the saddle. */
  readonly distance: Quantity | undefined;
  readonly place: Place;
}

export type Taper = 'linear' | 'audio' | 'reverse-audio';

export type Control = {
  readonly place: Place;
  /** By which a wiring names its lugs; most have none. */
  readonly name?: string | undefined;
  /** Serves that slot only and sits before the selector. */
  readonly forSlot: Stated<string> | undefined;
  /** Keys of the positions that it is connected in; `undefined`: all. */
  readonly inPositions: readonly Stated<string>[] | undefined;
} /** `wiperToPickup`: the pickup feeds the wiper, and the signal leaves at the top of the track. */ & (
  | { readonly kind: 'volume'; readonly track: Quantity; readonly taper: Taper; readonly wiperToPickup: boolean }
  /** `noLoad`: its track ends open at 10. `atWiper`: it hangs behind the volume, not before it. */
  | {
      readonly kind: 'tone';
      readonly track: Quantity;
      readonly taper: Taper;
      readonly capacitor: Quantity;
      readonly noLoad: boolean;
      readonly atWiper: boolean;
    }
  /** The half that serves one of the two pickups, told once for each: `forSlot` is its own, `other` is the one at the far end. */
  | {
      readonly kind: 'blend';
      readonly track: Quantity;
      readonly taper: Taper;
      /** Each of the two has a track, dead over half of the travel; else both share one, its wiper where the signal leaves. */
      readonly twoGang: boolean;
      /** The one that sounds alone at 0, or the one at 10. */
      readonly end: 'first' | 'second';
      readonly forSlot: Stated<string>;
      readonly other: Stated<string>;
    }
  | {
      readonly kind: 'bleed';
      readonly capacitor: Quantity;
      readonly resistor: Quantity | undefined;
      readonly joined: 'series' | 'parallel';
    }
);

/** A switch and the detent that it stands in. */
export interface SwitchedAt {
  readonly slot: Stated<string>;
  readonly detent: Stated<string>;
}

export interface Position {
  readonly key: Stated<string>;
  readonly title: string | undefined;
  readonly selection: Selection | undefined;
  /** Where switches stand for it, as stated. */
  readonly at: readonly SwitchedAt[];
  readonly onPurpose: Place | undefined;
  /** The line from the key to its end. */
  readonly place: Place;
}

/** How a position joins pickups and their coils. */
export type Selection = { readonly place: Place } & (
  | { readonly kind: 'pickup'; readonly slot: Slot; readonly path: LeadPath }
  | {
      readonly kind: 'coil';
      readonly slot: Slot;
      readonly coil: string;
      readonly throughOhm: Stated<Quantity> | undefined;
      readonly path: LeadPath;
    }
  | { readonly kind: 'tap'; readonly slot: Slot; readonly lead: string; readonly path: LeadPath }
  | { readonly kind: 'reversed'; readonly of: Selection }
  | { readonly kind: 'series'; readonly of: readonly Selection[] }
  | { readonly kind: 'parallel'; readonly of: readonly Selection[] }
  | SolderedNets
);

/** What stands in a state of the switches as it is soldered, by nets. */
export interface SolderedNets {
  readonly kind: 'nets';
  /** What sounds, where series and parallel have words for it. */
  readonly words: Selection | undefined;
  /** Of coils that sound, those of tapped ones part by part; none where hot lies on ground or hangs in the air. */
  readonly parts: readonly NetPart[];
  readonly components: readonly NetComponent[];
  /** Pickups of which a coil lies in the circuit, heard or not. */
  readonly slots: readonly Slot[];
  readonly fault: 'open' | 'shorted' | undefined;
  /** Terminals that are one have one name: `ground`, `hot` or `jack`, else that of the first of them. */
  netOf(terminal: string): string;
}

/** A coil that sounds, and the nets of its ends: the one toward hot first, as its hookup has it. */
export interface NetPart {
  readonly part: Extract<Selection, { readonly kind: 'pickup' | 'coil' | 'tap' }>;
  readonly coil: string;
  readonly ends: readonly [string, string];
}

/** A resistor or capacitor of the wiring. */
export interface NetComponent {
  readonly kind: 'resistor' | 'capacitor';
  readonly value: Quantity;
  readonly ends: readonly [string, string];
  readonly isHeard: boolean;
}
