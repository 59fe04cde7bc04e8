/** Findings matched by what they are about, wherever they stand now. */
import type { Finding } from '../checks/finding.ts';

export interface FindingComparison {
  readonly gone: readonly Finding[];
  readonly come: readonly Finding[];
  /** In both states; the severity of one that was accepted or meant has changed. */
  readonly changed: readonly { readonly before: Finding; readonly after: Finding }[];
}

export function compareFindings(
  before: readonly Finding[],
  after: readonly Finding[],
  renamed: ReadonlyMap<string, string>,
): FindingComparison {
  const left = [...before];
  const come: Finding[] = [];
  const changed: { before: Finding; after: Finding }[] = [];
  for (const finding of after) {
    const about = subjectOf(finding, new Map());
    const candidates = left.filter((each) => subjectOf(each, renamed) === about);
    // Of several about one subject, the one with the same words is the same.
    const same = candidates.find(({ message }) => message === finding.message) ?? candidates[0];
    if (same === undefined) {
      come.push(finding);
      continue;
    }
    left.splice(left.indexOf(same), 1);
    if (same.severity !== finding.severity) changed.push({ before: same, after: finding });
  }
  return { gone: left, come, changed };
}

function subjectOf({ code, subject, message }: Finding, renamed: ReadonlyMap<string, string>): string {
  const nameAfter = (name: string | undefined): string | undefined =>
    name === undefined ? undefined : (renamed.get(name) ?? name);
  const about = [
    nameAfter(subject.pickup),
    nameAfter(subject.instrument),
    subject.position,
    subject.coils?.toSorted(),
    subject.nodes?.toSorted(),
  ];
  const nothing = about.every((each) => each === undefined);
  return JSON.stringify([code, ...about, nothing ? message : '']);
}
