import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Bobbin } from './bobbin.ts';
import type { LeadPath } from './lead.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';
import type { Spool, Wire } from './wire.ts';

/** Seen from the strings, from start (inner end) to finish (outer end). */
export type Rotation = 'clockwise' | 'counterclockwise';
export type PoleUp = 'north-up' | 'south-up';
export type Sign = 1 | -1;

export const COIL_ENDS = ['start', 'finish'] as const;
export type CoilEnd = (typeof COIL_ENDS)[number];

export interface Coil
  extends Plain<
    typeof language.coil,
    'kept' | 'isNew' | 'bobbin' | 'wire' | 'spool' | 'polarity' | 'start' | 'finish' | 'tap' | 'serves' | 'below'
  > {
  readonly name: string;
  /**
   * Whether the work left it as it was found: as stated, or by the pickup that is reworked, of which it was taken over as it was wound.
   * `undefined`: not said.
   */
  readonly work: Stated<'kept' | 'new'> | undefined;
  /** The block's first line. */
  readonly place: Place;
  readonly bobbin: Bobbin | undefined;
  /** The line that names the bobbin. */
  readonly bobbinPlace: Place | undefined;
  /** Named itself or through the spool. */
  readonly wire: Wire | undefined;
  readonly wirePlace: Place | undefined;
  readonly spool: Spool | undefined;
  readonly polarity: Stated<PoleUp> | undefined;
  /** What the work did to its rods; `undefined`: not said. */
  readonly rods: MagnetWork | undefined;
  readonly start: Stated<CoilLead> | undefined;
  readonly finish: Stated<CoilLead> | undefined;
  readonly taps: readonly Stated<CoilTap>[];
  /** Strings that the coil senses, from the first to the last; `none` for a dummy coil; all where not stated. */
  readonly serves: Stated<'none' | { readonly from: number; readonly to: number }> | undefined;
  /** The coil above it in a stack. */
  readonly below: Stated<string> | undefined;
  /** Fields whose line stands there and could not be read. */
  readonly unread: readonly string[];
}

/** The same way round as before the work, turned over so that its poles changed places, or exchanged. */
export type MagnetWork = 'kept' | 'turned' | 'new';

export interface CoilLead {
  /** The colour (or name) of the coil's own lead. */
  readonly own: Stated<string> | undefined;
  /** What it is soldered to: a conductor, the shield or a metal part. */
  readonly to: Stated<LeadPath> | undefined;
}

export interface CoilTap {
  readonly turns: Quantity;
  /** The lead brought out. */
  readonly lead: Stated<string>;
}

/** +1 for a coil wound counterclockwise from start to finish, seen from the strings. */
export const rotationSign = (rotation: Rotation): Sign => (rotation === 'counterclockwise' ? 1 : -1);

/** The winding direction that a sign stands for. */
export const rotationOf = (sign: Sign): Rotation => (sign > 0 ? 'counterclockwise' : 'clockwise');

/** +1 for poles north-up. */
export const poleSign = (pole: PoleUp): Sign => (pole === 'north-up' ? 1 : -1);

/** The poles that a sign stands for. */
export const poleOf = (sign: Sign): PoleUp => (sign > 0 ? 'north-up' : 'south-up');

/** The pole of a bar that lies against a coil's poles. */
export const barPole = (pole: PoleUp): 'north' | 'south' => (pole === 'north-up' ? 'north' : 'south');

const OPPOSITES = {
  clockwise: 'counterclockwise',
  counterclockwise: 'clockwise',
  'north-up': 'south-up',
  'south-up': 'north-up',
  north: 'south',
  south: 'north',
  start: 'finish',
  finish: 'start',
  top: 'bottom',
  bottom: 'top',
  positive: 'negative',
  negative: 'positive',
} as const;

/** The other one of a pair of words: the other way round, the other pole, the other end. */
export const opposite = <W extends keyof typeof OPPOSITES>(word: W): (typeof OPPOSITES)[W] => OPPOSITES[word];

export const oppositeSign = (sign: Sign): Sign => (sign > 0 ? -1 : 1);

/**
 * The winding direction that a spindle gives, seen from the strings. Facing the spindle, one looks at the face that is
 * away from it; a bobbin that turns clockwise lays its wire counterclockwise, seen from the same side.
 */
export const rotationFromSpindle = (spindle: { rotation: Rotation; towardIt: 'top' | 'bottom' }): Rotation => {
  const laid = opposite(spindle.rotation);
  return spindle.towardIt === 'bottom' ? laid : opposite(laid);
};

/** True where no string is heard by both: such coils never sound together. */
export const servesDifferentStrings = (a: Coil, b: Coil): boolean => {
  const [first, second] = [a.serves?.value, b.serves?.value];
  if (first === undefined || second === undefined || first === 'none' || second === 'none') return false;
  return first.to < second.from || second.to < first.from;
};
