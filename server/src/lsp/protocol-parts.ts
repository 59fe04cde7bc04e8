/** What several messages hold. */

export type { FactTable } from '../documents/drawing-sheet.ts';

/** What each message carries. */
export interface Message {
  readonly protocol: number;
}

export interface AboutFile extends Message {
  readonly uri: string;
}

export interface Position {
  readonly line: number;
  readonly character: number;
}

export interface Range {
  readonly start: Position;
  readonly end: Position;
}

/**
 * What the view is about. Pickups and instruments have names of their own; one of each may be called the same. `parts`: all that a
 * file declares for the shelf, and its bench.
 */
export interface Subject {
  readonly kind: 'pickup' | 'instrument' | 'parts';
  readonly name: string;
}

/**
 * Where pots stand, 0 to 10, by the ids of their knobs: `volume`, `tone`, `blend`, and `neck.volume` for the one of a slot. One of a
 * slot that is not named stands where all of its kind stand; all stand full up unless named, a blend in its middle.
 */
export type Pots = Readonly<Record<string, number>>;

/** A control that can be turned. */
export interface Knob {
  readonly id: string;
  /** `neck volume`. */
  readonly label: string;
  /** Where it stands where nobody has turned it. */
  readonly rest: number;
}

export interface DrawnFinding {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly message: string;
  /** Set where it is told in English to a reader of another language. */
  readonly foreign?: 'en';
  readonly range: Range;
  /** Its number in the drawing, where that tells it in words. */
  readonly mark?: number;
}
