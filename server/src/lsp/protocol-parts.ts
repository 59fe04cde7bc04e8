/** What several messages hold. */

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

/** Pots from 0 to 10. */
export interface Pots {
  readonly volume: number;
  readonly tone: number;
}

/** The first cell of a row names it. */
export interface FactTable {
  readonly caption: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

export interface DrawnFinding {
  readonly code: string;
  readonly severity: 'error' | 'warning' | 'information' | 'hint';
  readonly message: string;
  readonly range: Range;
}
