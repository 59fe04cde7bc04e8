/** What is not analysed, with the reason: faults of the program itself are caught where they happen, and told there. */
import type { Finding, Subject } from '../checks/finding.ts';
import { type Said, say } from '../checks/say.ts';
import { told } from '../checks/telling.ts';
import type { Place } from '../model/place.ts';

export interface Faults {
  readonly found: readonly Finding[];
  /** What `make` gives in a list, or nothing, and the fault is noted. */
  guard<T>(what: Said, place: Place, subject: Subject, make: () => T): readonly T[];
  add(what: Said, place: Place, subject: Subject, error: unknown): void;
  /** Something is left out on purpose. */
  note(finding: Finding): void;
}

export function createFaults(): Faults {
  const found: Finding[] = [];
  const add: Faults['add'] = (what, place, subject, error) => {
    found.push(notAnalysed(what, place, subject, error));
  };
  return {
    found,
    add,
    note: (finding) => {
      found.push(finding);
    },
    guard: (what, place, subject, make) => {
      try {
        return [make()];
      } catch (error) {
        add(what, place, subject, error);
        return [];
      }
    },
  };
}

export function notAnalysed(what: Said, place: Place, subject: Subject, error: unknown): Finding {
  const reason = error instanceof Error ? error.message : String(error);
  return {
    code: 'analysis/incomplete',
    severity: 'error',
    ...told({
      what: say`${what} is not analysed: the program failed at it (${reason}).`,
      action: say`Report this with the text that brought it about.`,
    }),
    place,
    related: [],
    remedies: () => [],
    subject,
  };
}
