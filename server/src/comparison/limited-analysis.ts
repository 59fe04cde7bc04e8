import type { Analysis, InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { acceptedFindings } from '../checks/accepted.ts';
import type { Finding } from '../checks/finding.ts';

/** The analysis as if the file held nothing but these. */
export function limitedTo(
  analysis: Analysis,
  pickups: readonly PickupAnalysis[],
  instruments: readonly InstrumentAnalysis[],
): Analysis {
  const parts = [...pickups, ...instruments];
  const accepting = [...pickups.map(({ pickup }) => pickup), ...instruments.map(({ instrument }) => instrument)];
  const told = (found: readonly Finding[], isComplete: boolean) => acceptedFindings(found, accepting, isComplete);
  const findings = told(
    parts.flatMap((each) => each.findings),
    false,
  );
  return {
    ...analysis,
    pickups,
    instruments,
    findings,
    knownFindings: () => findings,
    allFindings: () =>
      told(
        parts.flatMap((each) => [...each.findings, ...each.lateFindings()]),
        true,
      ),
  };
}
