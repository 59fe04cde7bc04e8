/** The form of a check (one fault, one file) and the one runner of all of them. */

import { present, type Some } from '../../../grammar/values/present.ts';
import type { Pickup } from '../model/pickup.ts';
import { type Place, samePlace } from '../model/place.ts';
import type { Edit, Finding, Related, Remedy, Severity, Subject } from './finding.ts';
import type { Code } from './pages.ts';
import { inEnglish, inWords, type Said, type Worded } from './say.ts';
import { type Telling, told } from './telling.ts';

export interface Check<Context, C extends Code = Code, Y extends Code = Code> {
  /** Also the name of its file and of its page: `phase/coils-cancel`, `phase-coils-cancel.ts`, `phase-coils-cancel.md`. */
  readonly code: C;
  readonly severity: Severity;
  /**
   * Faults that explain this one: where one of them is found, this check is silent (one cause, one finding). What is said of a
   * selector position explains only what is said of the same position.
   */
  readonly yieldsTo: readonly Y[];
  /** Needs inductances, so it follows the others. */
  readonly late?: true;
  /** What is wrong: nothing, one thing or several. */
  run(context: Context): Some<Found>;
}

/** What a check found; code and severity come from the check. */
export interface Found extends Telling {
  readonly place: Place;
  readonly severity?: Severity;
  readonly related?: Some<FoundRelated>;
  readonly remedies?: (inSight: readonly Pickup[]) => Some<Remedy>;
  readonly subject?: Subject;
}

export interface FoundRelated {
  readonly message: Worded;
  readonly place: Place;
}

/** Whose findings they are. */
export interface Owner {
  readonly place: Place;
  readonly subject: Subject;
  /** The edits with nothing but the owner's own text touched; `undefined` where it cannot be said so. */
  readonly ownEdits: (edits: readonly Edit[]) => readonly Edit[] | undefined;
}

export interface CheckFindings {
  /** Of the checks that need no inductances. */
  readonly findings: readonly Finding[];
  /** Of those that do: run on first use, with all that was found before them. */
  lateFindings(): readonly Finding[];
  /** True once the late checks have run, so that asking costs nothing. */
  lateAreKnown(): boolean;
}

/** Findings of one pickup or instrument, in the order of its checks, late ones last. */
export function runChecks<Context>(checks: readonly Check<Context>[], context: Context, owner: Owner): CheckFindings {
  const round = (late: true | undefined, before: readonly Finding[]) => runRound(checks, late, context, owner, before);
  const findings = round(undefined, []);
  let known: readonly Finding[] | undefined;
  return {
    findings,
    lateFindings: () => {
      known ??= round(true, findings);
      return known;
    },
    lateAreKnown: () => known !== undefined,
  };
}

function runRound<Context>(
  checks: readonly Check<Context>[],
  late: true | undefined,
  context: Context,
  owner: Owner,
  before: readonly Finding[],
): readonly Finding[] {
  const findings: Finding[] = [];
  // There are many checks, and hardly one finds anything.
  for (const check of checks) {
    if (check.late !== late) continue;
    const isCause = ({ code }: Finding): boolean => check.yieldsTo.includes(code);
    const causes = [...before.filter(isCause), ...findings.filter(isCause)];
    if (causes.some(({ subject }) => subject.position === undefined)) continue;
    const some = check.run(context);
    if (some === undefined) continue;
    for (const found of present([some].flat()))
      if (!causes.some(({ subject }) => subject.position === found.subject?.position))
        findings.push(findingOf(check, found, owner));
  }
  return findings;
}

function findingOf({ code, severity }: Check<never>, found: Found, owner: Owner): Finding {
  const { what, hint, action, place, remedies = () => [] } = found;
  const related = present([found.related].flat()).map(toRelated);
  const finding: Finding = {
    ...told({ what, hint, action }),
    code,
    severity: found.severity ?? severity,
    place,
    related: eachOnce(related, place),
    remedies: (inSight = []) =>
      present([remedies(inSight)].flat()).flatMap((remedy) => {
        const edits = owner.ownEdits(remedy.edits);
        return edits ? [{ ...remedy, edits }] : [];
      }),
    subject: { ...owner.subject, ...found.subject },
  };
  if (place.chunk === owner.place.chunk) return finding;
  // A line taken over by `like` belongs to another block, where it may be right: the finding then lies at the owner's first line.
  return {
    ...finding,
    place: owner.place,
    related: eachOnce(
      [toRelated({ message: (t) => t('the line that it is taken over from'), place }), ...related],
      owner.place,
    ),
  };
}

/** Each place once, with all that is said of it; the finding's own place is none of them. */
function eachOnce(related: readonly Related[], own: Place): readonly Related[] {
  const found: Related[] = [];
  for (const each of related) {
    if (samePlace(each.place, own)) continue;
    const at = found.findIndex(({ place }) => samePlace(place, each.place));
    const before = found[at];
    if (before === undefined) found.push(each);
    else if (!before.message.split('; ').includes(each.message)) found[at] = both(before, each);
  }
  return found;
}

const toRelated = ({ message, place }: FoundRelated): Related => ({
  message: inEnglish(message),
  ...inWords(message),
  place,
});

/** In another language only where both are told in it. */
function both(one: Related, other: Related): Related {
  const [first, second] = [one.words, other.words];
  const message = `${one.message}; ${other.message}` as Said;
  return { message, place: one.place, ...(first && second ? { words: (t) => `${first(t)}; ${second(t)}` } : {}) };
}
