/** A pickup's former state is a record: what was wrong with it is told as information, and nothing in it is changed any more. */
import { onceFor, onceForEach } from '../../../grammar/values/remember.ts';
import type { Finding } from '../checks/finding.ts';
import type { PickupAnalysis } from './analysis-types.ts';

/** The same object each time. */
export const recordOf = onceFor((analysis: PickupAnalysis): PickupAnalysis => {
  const late = onceForEach(() => analysis.lateFindings().map(asInformation));
  return { ...analysis, findings: analysis.findings.map(asInformation), lateFindings: () => late(undefined) };
});

const asInformation = (finding: Finding): Finding => ({
  ...finding,
  severity: finding.severity === 'hint' ? 'hint' : 'information',
  remedies: () => [],
});
