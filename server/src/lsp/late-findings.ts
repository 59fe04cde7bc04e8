import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Steps } from '../physics/switching/steps.ts';

export interface LateFindings {
  /** The findings that need no heavy numbers are out for this document. */
  wanted(document: TextDocument): void;
  /** Something was typed: heavy work rests until the hands do. */
  interrupted(): void;
  dropped(document: TextDocument): void;
}

export interface LateFindingsTarget {
  readonly analysisOf: (document: TextDocument) => Analysis | undefined;
  /** Everything that these findings need has been computed. */
  readonly ready: (document: TextDocument) => void;
  /** Runs the callback after a rest; returns what calls it off. */
  readonly afterRest: (callback: () => void) => () => void;
  /** Runs the callback in a turn of its own, so that requests come in between. */
  readonly soon: (callback: () => void) => void;
  /** Begins a turn, and tells when it is over. */
  readonly slice: () => () => boolean;
}

/**
 * Findings that need inductances follow the others once nobody types: one pickup or instrument a turn, and what an
 * instrument's searches take in turns of their own, so that whatever is asked meanwhile is answered first.
 */
export function createLateFindings({ analysisOf, ready, afterRest, soon, slice }: LateFindingsTarget): LateFindings {
  const waiting = new Set<TextDocument>();
  let callOff: (() => void) | undefined;
  let rests = 0;

  const rest = (): void => {
    callOff?.();
    callOff = undefined;
    rests += 1;
    if (waiting.size === 0) return;
    const current = rests;
    callOff = afterRest(() => work(current, 0));
  };
  /** Pickups and instruments up to `done` have been worked out; a newer rest has taken over where the number is another. */
  const work = (current: number, done: number, begun?: Steps<void>): void => {
    if (current !== rests) return;
    const [document] = waiting;
    if (document === undefined) return;
    const { pickups = [], instruments = [] } = analysisOf(document) ?? {};
    const instrument = instruments[done - pickups.length];
    const steps = begun ?? instrument?.preparingLate();
    if (steps && !isFinished(steps, slice())) {
      soon(() => work(current, done, steps));
      return;
    }
    const next = pickups[done] ?? instrument;
    if (next) next.lateFindings();
    else {
      waiting.delete(document);
      ready(document);
    }
    soon(() => work(current, next ? done + 1 : 0));
  };
  return {
    wanted: (document) => {
      waiting.add(document);
      rest();
    },
    interrupted: () => {
      if (waiting.size > 0) rest();
    },
    dropped: (document) => {
      waiting.delete(document);
    },
  };
}

/** Goes on with it while the turn lasts. */
function isFinished(steps: Steps<void>, isOver: () => boolean): boolean {
  while (!steps.next().done) if (isOver()) return false;
  return true;
}
