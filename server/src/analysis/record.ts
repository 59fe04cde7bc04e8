/** A pickup's former state is a record: what was wrong with it is told as information, and nothing in it is changed any more. */
import type { Finding } from '../checks/finding.ts';
import type { PickupAnalysis } from './analysis-types.ts';

const known = new WeakMap<PickupAnalysis, PickupAnalysis>();

/** The same object each time. */
export function recordOf(analysis: PickupAnalysis): PickupAnalysis {
  const before = known.get(analysis);
  if (before) return before;
  let late: readonly Finding[] | undefined;
  const record: PickupAnalysis = {
    ...analysis,
    findings: analysis.findings.map(asInformation),
    lateFindings: () => {
      late ??= analysis.lateFindings().map(asInformation);
      return late;
    },
  };
  known.set(analysis, record);
  return record;
}

const asInformation = (finding: Finding): Finding => ({ ...finding, severity: 'information', remedies: () => [] });
