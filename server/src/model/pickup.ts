import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Acceptance } from './acceptance.ts';
import type { Coil, MagnetWork } from './coil.ts';
import type { LeadPath } from './lead.ts';
import type { Magnet } from './magnet.ts';
import type { AnyBlock } from './merged-block.ts';
import type { Place, Stated } from './place.ts';
import type { Potting } from './potting.ts';
import type { Plain } from './reading.ts';
import type { Readings } from './readings.ts';

export interface Pickup
  extends Plain<
    typeof language.pickup,
    'coilsApart' | 'conductors' | 'shield' | 'magnet' | 'baseplate' | 'cover' | 'takenAway'
  > {
  readonly name: string;
  /** The block's first line. */
  readonly place: Place;
  /** The same pickup as it was, where this is a later state of it. Its readings are not repeated here. */
  readonly reworks: Pickup | undefined;
  readonly title: string | undefined;
  /** Centre lines of two coils and which lies toward bridge or neck. */
  readonly coilsApart:
    | Stated<{
        readonly distance: Quantity;
        readonly coil: string | undefined;
        readonly toward: 'bridge' | 'neck' | undefined;
      }>
    | undefined;
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
        /** What the work did to it; `undefined`: not said. */
        readonly work: MagnetWork | undefined;
      }>
    | undefined;
  readonly metal: readonly MetalFitting[];
  /** Parts stated as absent. */
  readonly without: readonly ('baseplate' | 'cover')[];
  readonly hookup: Hookup | undefined;
  readonly readings: readonly Readings[];
  readonly potting: Potting | undefined;
  readonly target: Target | undefined;
  readonly accepted: readonly Acceptance[];
  /** Fields whose line stands there and could not be read. */
  readonly unread: readonly string[];
  /** Its block as it stands in the text, with what `like` brings. */
  readonly written: AnyBlock;
}

export interface MetalFitting {
  readonly part: 'baseplate' | 'cover';
  readonly material: string;
  /** Of its sheet. */
  readonly thickness: Quantity | undefined;
  readonly tiedTo: LeadPath | undefined;
  readonly place: Place;
}

/** One line of the hookup that joins leads. */
export interface Joint {
  readonly kind: Exclude<keyof typeof language.hookup.facts, 'onPurpose' | 'accept'>;
  readonly leads: readonly LeadPath[];
  readonly place: Place;
}

export const leadTexts = ({ leads }: Joint): readonly string[] => leads.map(({ text }) => text);

/** The first line of the hookup of this kind. */
export const jointOf = ({ hookup }: Pick<Pickup, 'hookup'>, of: Joint['kind']): Joint | undefined =>
  hookup?.joints.find(({ kind }) => kind === of);

export interface Hookup {
  /** The block's first line. */
  readonly place: Place;
  readonly joints: readonly Joint[];
  readonly onPurpose: Place | undefined;
  /** Fields whose line stands there and could not be read. */
  readonly unread: readonly string[];
}

export interface Target extends Plain<typeof language.target, 'resonance' | 'output'> {
  readonly place: Place;
  readonly resonance: Stated<{ readonly frequency: Quantity; readonly load: 'loaded' | 'unloaded' }> | undefined;
  /** `against`: `undefined` where no such pickup is known. */
  readonly output: Stated<{ readonly level: Quantity; readonly against: Pickup | undefined }> | undefined;
}

/** What a target is of. */
export type AimKind = NonNullable<Target['first']>['value'][number];
