import type { Analysis } from '../analysis/analysis-types.ts';

/** True where a rewritten text has the same findings of the same things, and so says the same of the build. */
export function isSameMeaning(before: Analysis, after: Analysis | undefined): boolean {
  return after !== undefined && told(before) === told(after);
}

const told = ({ findings }: Analysis): string =>
  findings
    .map(({ code, severity, subject, isAccepted }) => JSON.stringify([code, severity, subject, isAccepted === true]))
    .sort()
    .join('\n');
