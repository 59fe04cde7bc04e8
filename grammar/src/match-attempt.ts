/** What matching one line keeps track of: the items, how far any reading of them came, and the problems with values. */
import type { Dimension } from '../values/unit-table.ts';
import type { Shape } from './schema/shape.ts';
import type { SyntaxProblem } from './syntax-problem.ts';
import type { Item } from './syntax-tree.ts';

export interface Attempt {
  readonly items: readonly Item[];
  /** Problems with values of items that otherwise fit; cut back where a reading is given up. */
  readonly problems: SyntaxProblem[];
  /** What matched has a problem that leaves its value open. */
  broken: boolean;
  furthest: { index: number; wanted: Wanted[] };
}

/** What would have fitted where a reading ended. */
export interface Wanted {
  /** In words: `a length`, `` `toward` ``. */
  readonly label: string;
  /** The exact words that fit. */
  readonly words?: readonly string[];
  /** The shape that would take the item. */
  readonly shape?: Shape;
  /** A unit of this dimension would have fitted. */
  readonly unitOf?: Dimension;
  /** A problem that says more than `label` could. */
  readonly problem?: SyntaxProblem;
}

/** A value and the index of the item behind it. */
export interface Match {
  readonly value: unknown;
  readonly next: number;
}

export const attemptOf = (items: readonly Item[]): Attempt => ({
  items,
  problems: [],
  broken: false,
  furthest: { index: 0, wanted: [] },
});

/** Notes what would have fitted at `index`; the furthest place counts. */
export function fail(attempt: Attempt, index: number, wanted: Wanted): undefined {
  if (index > attempt.furthest.index) attempt.furthest = { index, wanted: [wanted] };
  else if (index === attempt.furthest.index && !attempt.furthest.wanted.some((known) => known.label === wanted.label)) {
    attempt.furthest.wanted.push(wanted);
  }
  return undefined;
}

/** A problem with the value of what otherwise fits; a slip whose meaning is plain leaves the value standing. */
export function tell(attempt: Attempt, problem: SyntaxProblem, isPlain = false): void {
  attempt.problems.push(problem);
  if (!isPlain) attempt.broken = true;
}

export function wordOf(item: Item | undefined): string | undefined {
  return item?.kind === 'word' ? item.text : undefined;
}

const NAME = /^\p{L}[\p{L}\p{M}\p{N}_-]*$/u;

export function nameOf(item: Item | undefined): string | undefined {
  const text = wordOf(item);
  return text !== undefined && NAME.test(text) ? text : undefined;
}

export const isPunctuation = (item: Item | undefined, text: string): boolean =>
  item?.kind === 'punctuation' && item.text === text;
