/** The form of a check: one fault, one file. */
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Bench } from '../model/bench.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import type { Finding, Related, Remedy, Severity, Subject } from './finding.ts';
import { ownEdits } from './own-edits.ts';

export interface PickupContext {
  readonly pickup: Pickup;
  readonly netlist: PickupNetlist;
  readonly quick: QuickEstimates;
  readonly bench: Bench | undefined;
}

export interface PickupCheck {
  readonly code: string;
  readonly severity: Severity;
  /** Faults of the same pickup that explain this one: where one of them stands, this check is silent (one cause, one finding). */
  readonly yieldsTo: readonly string[];
  run(context: PickupContext): readonly Found[];
}

/** What a check found; code and severity come from the check. */
export interface Found {
  readonly message: string;
  readonly place: Place;
  readonly severity?: Severity;
  readonly related?: readonly Related[];
  readonly remedies?: () => readonly Remedy[];
  readonly subject?: Subject;
}

export const definePickupCheck = (check: PickupCheck): PickupCheck => check;

/** Findings of one pickup, in the order of the checks. */
export function runPickupChecks(checks: readonly PickupCheck[], context: PickupContext): readonly Finding[] {
  const findings: Finding[] = [];
  for (const check of checks) {
    if (check.yieldsTo.some((code) => findings.some((finding) => finding.code === code))) continue;
    for (const found of check.run(context))
      findings.push(
        atHome(
          findingOf(check, withOwnEdits(found, context.pickup), { pickup: context.pickup.name, ...found.subject }),
          context.pickup,
        ),
      );
  }
  return findings;
}

/** A line taken over by `like` stands in another block, where it may be right: the finding then lies at this pickup's first line. */
function atHome(finding: Finding, { place }: Pickup): Finding {
  if (finding.place.chunk === place.chunk) return finding;
  return {
    ...finding,
    place,
    related: [{ message: 'the line that it is taken over from', place: finding.place }, ...finding.related],
  };
}

/** A remedy for this pickup leaves the one that it is `like` alone. */
function withOwnEdits(found: Found, pickup: Pickup): Found {
  const { remedies } = found;
  if (!remedies) return found;
  return {
    ...found,
    remedies: () =>
      remedies().flatMap((remedy) => {
        const edits = ownEdits(remedy.edits, pickup);
        return edits ? [{ ...remedy, edits }] : [];
      }),
  };
}

export function findingOf(
  { code, severity }: { readonly code: string; readonly severity: Severity },
  found: Found,
  subject: Subject = found.subject ?? {},
): Finding {
  return {
    code,
    severity: found.severity ?? severity,
    message: found.message,
    place: found.place,
    related: found.related ?? [],
    remedies: found.remedies ?? (() => []),
    subject,
  };
}
