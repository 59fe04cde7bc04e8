/** What the schematic of an instrument shows, as plain data: words and numbers are ready to print. */
import type { SheetWords } from '../drawing-sheet.ts';
import type { Run } from '../labels.ts';
import type { Polarity } from '../symbols.ts';

export interface InstrumentPicture extends SheetWords {
  /** One where all positions fit into one drawing by contacts; else one for each position that is shown. */
  readonly sections: readonly Schematic[];
}

export interface Schematic {
  readonly facts: FactsPicture | undefined;
  /** Keys of the selector's positions, for the cells above the contacts; empty where no contacts are drawn. */
  readonly keys: readonly string[];
  readonly liveKey: string | undefined;
  readonly pickups: readonly PickupBlock[];
  /** After the selector. */
  readonly controls: readonly ControlPicture[];
  /** Something sounds in the live position. */
  readonly sounds: boolean;
}

export interface FactsPicture {
  readonly key: string;
  readonly heading: string;
  readonly rows: readonly { readonly name: string; readonly value: string; readonly number: boolean }[];
}

export interface PickupBlock {
  readonly slot: string;
  /** Hot to ground. */
  readonly resistance: string;
  /** Said instead of the coils where the pickup is not known. */
  readonly unknown?: string;
  /** A resistor, a capacitor or a control of the wiring, drawn as pickups are. */
  readonly isPart?: true;
  /** From hot to ground, as they stand. */
  readonly coils: readonly CoilBlock[];
  readonly nodes: ReadonlyMap<string, NodePicture>;
  /** Controls that serve this pickup only, and the node that feeds them. */
  readonly own?: {
    readonly controls: readonly ControlPicture[];
    readonly from: string;
    readonly to: string;
    readonly live: boolean;
  };
}

export interface CoilBlock {
  /** `bridge.slug`. */
  readonly id: string;
  readonly name: string;
  readonly turns: string;
  readonly polarity: Polarity;
  /** Where its start lies. */
  readonly startAt: 'top' | 'bottom' | undefined;
  /** Of what is no coil. */
  readonly symbol?: 'resistor' | 'capacitor' | undefined;
  readonly live: boolean;
  readonly top: string;
  readonly bottom: string;
}

/** A point where coil ends meet, and where it goes from there. */
export interface NodePicture {
  readonly label: readonly Run[];
  readonly exits: readonly Exit[];
}

export type Target = 'bus' | 'earth' | { readonly rail: string };

export interface Exit {
  readonly to: Target;
  /** Carries the signal of the live position. */
  readonly live: boolean;
  readonly through?: string | undefined;
  /** A contact of the selector; without one the way is always there. */
  readonly contact?: {
    readonly title: string;
    /** One for each position. */
    readonly closed: readonly boolean[];
    readonly closedNow: boolean;
  };
}

export type ControlPicture =
  /** Turned round: the signal comes in at the wiper and leaves at the top of the track. */
  | { readonly kind: 'volume'; readonly track: string; readonly isTurnedRound: boolean }
  /** At the wiper: it hangs on the line that leaves the volume. */
  | {
      readonly kind: 'tone';
      readonly track: string;
      readonly capacitor: string;
      readonly isAtWiper: boolean;
      readonly isNoLoad: boolean;
    }
  /** The half that serves this pickup: a track of its own, fed at the wiper, or what lies between this end of a shared one and its wiper. */
  | { readonly kind: 'blend'; readonly track: string; readonly isTwoGang: boolean }
  | {
      readonly kind: 'bleed';
      readonly capacitor: string;
      readonly resistor: string | undefined;
      readonly joined: 'series' | 'parallel';
    };
