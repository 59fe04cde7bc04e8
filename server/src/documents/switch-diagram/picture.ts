/** What the drawing of an instrument's switches shows: lugs, what is soldered to them, which contacts are closed. */
import type { SheetWords } from '../drawing-sheet.ts';
import type { LeadLook } from '../symbols.ts';

export interface SwitchPicture extends SheetWords {
  /** What a verified fix would move, in words; its ends are drawn dashed. */
  readonly mending: string | undefined;
  readonly bodies: readonly SwitchBody[];
  readonly states: readonly StateRow[];
}

/** One switch, seen from the soldering side. */
export interface SwitchBody {
  /** Its name as a part of the drawing. */
  readonly part: string;
  readonly title: string;
  readonly rows: readonly (readonly LugPicture[])[];
  readonly nets: readonly NetPicture[];
  readonly contacts: readonly ContactPicture[];
}

export interface LugPicture {
  readonly terminal: string;
  readonly name: string;
  /** Something is soldered to it. */
  readonly used: boolean;
  /** A finding says that what is on it is to be moved. */
  readonly toMove: boolean;
  /** The fix takes off what is on it. */
  readonly takenOff: boolean;
}

/** What is soldered together on this switch. */
export interface NetPicture {
  readonly part: string;
  readonly title: string;
  /** Lugs of this switch, by terminal. */
  readonly lugs: readonly string[];
  /** What sounds in the live position goes through it. */
  readonly live: boolean;
  readonly look: LeadLook;
  /** What comes in from outside; none in a jumper from lug to lug. */
  readonly entries: readonly EntryPicture[];
  /** Not soldered so: it would be by the fix. */
  readonly mended: boolean;
}

export interface EntryPicture {
  /** `bridge`, `hot`, `on to pull`. */
  readonly words: string;
  /** Letters of IEC 60757 where it is a lead. */
  readonly letters: string | undefined;
  readonly look: LeadLook;
  /** A finding says that it is to be moved. */
  readonly toMove: boolean;
}

export interface ContactPicture {
  readonly lugs: readonly string[];
  /** Two and more of them are soldered to anything. */
  readonly joins: boolean;
}

/** A state of the switches, in a row. */
export interface StateRow {
  readonly part: string | undefined;
  readonly state: string;
  readonly position: string;
  readonly contacts: string;
  readonly heard: string;
  readonly silent: string;
  readonly live: boolean;
}
