/** What a plan is for: a pickup by itself, or an instrument with every pickup in it; and what is found there. */
import type { Analysis } from '../analysis/analysis-types.ts';
import { pickupAnalysis } from '../analysis/pickup-analysis.ts';
import { acceptedFindings } from '../checks/accepted.ts';
import type { Finding } from '../checks/finding.ts';
import type { Code } from '../checks/pages.ts';
import { asWired } from '../estimates/switch-states.ts';
import type { Instrument } from '../model/instrument.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Fault, FaultKind, Judge } from './faults.ts';

export interface RepairSubject {
  readonly pickup?: string;
  readonly instrument?: string;
}

export interface Scope {
  readonly pickups: readonly Pickup[];
  /** Its positions as they are wired, where a wiring is written. */
  readonly instrument: Instrument | undefined;
}

export function scopeOf({ model }: Analysis, { pickup, instrument }: RepairSubject): Scope | undefined {
  if (instrument !== undefined) {
    const found = model.instruments.find(({ name }) => name === instrument);
    const pickups = [...new Set((found?.slots ?? []).flatMap((slot) => slot.pickup ?? []))];
    return found && { pickups, instrument: asWired(found) };
  }
  const found = model.pickups.find(({ name }) => name === pickup);
  return found && { pickups: [found], instrument: undefined };
}

/** Findings of the scope, those of pickups that another file declares among them. */
export function findingsIn(analysis: Analysis, { pickups, instrument }: Scope): readonly Finding[] {
  const own = analysis.findings.filter(({ subject }) =>
    subject.instrument !== undefined
      ? subject.instrument === instrument?.name
      : pickups.some(({ name }) => name === subject.pickup),
  );
  const elsewhere = pickups.filter((pickup) => !analysis.model.pickups.includes(pickup));
  return [
    ...own,
    ...elsewhere.flatMap((pickup) =>
      acceptedFindings(pickupAnalysis(pickup, analysis.bench).findings, [pickup], false).filter(
        ({ subject }) => subject.pickup !== undefined,
      ),
    ),
  ];
}

const KIND_OF: ReadonlyMap<Code, FaultKind> = new Map([
  ['phase/coils-cancel', 'phase'],
  ['phase/position-cancels', 'phase'],
  ['hum/not-cancelled', 'hum'],
  ['hum/position-hums', 'hum'],
  ['ground/metal-hot', 'metal'],
]);

/** What a plan puts right. */
export const isFault = ({ code, severity }: Finding): boolean =>
  KIND_OF.has(code) && (severity === 'error' || severity === 'warning');

/** The judge without what the spec accepts as it is: faults that are there before and are no findings to be put right. */
export function withoutAccepted(judge: Judge, faults: readonly Finding[]): Judge {
  const isFound = ({ kind, pickup, position }: Fault): boolean =>
    kind === 'meant' ||
    faults.some(({ code, subject }) =>
      kind === 'metal'
        ? KIND_OF.get(code) === 'metal'
        : KIND_OF.get(code) === kind &&
          (position ? subject.position === position.key.value : subject.pickup === pickup?.name),
    );
  return without(
    judge,
    (judge.faults([]) ?? []).filter((fault) => !isFound(fault)),
  );
}

/** The judge without what is said to be meant out of phase and is not even now. */
export function withoutMeant(judge: Judge): Judge {
  return without(
    judge,
    (judge.faults([]) ?? []).filter(({ kind }) => kind === 'meant'),
  );
}

function without(judge: Judge, left: readonly Fault[]): Judge {
  if (left.length === 0) return judge;
  const isLeft = (fault: Fault) =>
    left.some(
      ({ kind, pickup, position }) => kind === fault.kind && pickup === fault.pickup && position === fault.position,
    );
  return { ...judge, faults: (moves) => judge.faults(moves)?.filter((fault) => !isLeft(fault)) };
}
