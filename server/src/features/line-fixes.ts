/** Lines that settle or keep a finding, ready to be filled in: what they say of the build is left to the person who knows or measures it. */

import type { Span } from '../../../grammar/src/span.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { mayBeAccepted } from '../checks/accepted.ts';
import type { Edit, Finding } from '../checks/finding.ts';
import { samePlace } from '../model/place.ts';
import { ENGLISH } from '../words/languages/language.ts';
import type { QuickFix } from './code-actions.ts';
import { findingSpan } from './diagnostics.ts';
import { insertLines, insertReadings } from './insert-lines.ts';
import { type ReadingLine, settlingReadings } from './missing-readings.ts';
import { type OwnPickup, ownPickups } from './own-blocks.ts';
import { sweepFixes } from './sweep-fixes.ts';
import { blocksOf } from './syntax-at.ts';
import { locateEdits } from './text-edits.ts';

/** Of the findings that touch the span: the readings that settle what is open, sweeps that would tell it, and the acceptance that keeps it. */
export function lineFixes(analysis: Analysis, span: Span, t = ENGLISH): readonly QuickFix[] {
  return analysis.findings.flatMap((finding) => {
    const at = findingSpan(analysis, finding);
    if (at === undefined || at.start > span.end || at.end < span.start) return [];
    return [
      settling(finding, analysis) ?? [],
      sweepFixes(finding, analysis, t),
      accepting(finding, analysis) ?? [],
    ].flat();
  });
}

/** A line whose gaps are open, and the same with a stop at each of them. */
interface GapLine {
  readonly text: string;
  readonly snippet: string;
}

/** Whatever the edit is made for, made of the lines as text and of those with stops. */
function gapFix(
  { finding, analysis, title }: { readonly finding: Finding; readonly analysis: Analysis; readonly title: string },
  lines: readonly GapLine[],
  insert: (lines: readonly string[]) => Edit | undefined,
): QuickFix | undefined {
  const written = insert(lines.map(({ text }) => text));
  const snippet = insert(lines.map((line) => line.snippet))?.newText;
  const edits = written && locateEdits(analysis, [written]);
  if (edits === undefined || snippet === undefined) return undefined;
  return { title, preferred: false, cautions: [], edits: edits.map((edit) => ({ ...edit, snippet })), finding };
}

/** In the innermost block around it. It says nothing of the build and covers what is found in its block: there is nothing to solve again. */
function accepting(finding: Finding, analysis: Analysis): QuickFix | undefined {
  if (!mayBeAccepted(finding)) return undefined;
  const { chunk, span } = finding.place;
  const around = blocksOf(chunk).filter(({ block }) => block.span.start <= span.start && span.end <= block.span.end);
  const [outermost, block] = [around[0]?.block.keyword.text, around.at(-1)?.block];
  if (block === undefined || (outermost !== 'pickup' && outermost !== 'instrument')) return undefined;
  const before = `accept ${finding.code}`;
  return gapFix(
    { finding, analysis, title: 'Accept this finding, because…' },
    [{ text: `${before} …`, snippet: `${before} "\${1:…}"` }],
    (lines) => insertLines(chunk, block, lines),
  );
}

/** What is open, of the codes that say so. */
const OPEN = { 'phase/unproven': 'signs', 'winding/turns-unknown': 'turns' } as const;

/** An editor asks at every move of the cursor. */
const settling = onceFor((finding: Finding, analysis: Analysis): QuickFix | undefined => {
  const { code, subject, place, related } = finding;
  if (code !== 'phase/unproven' && code !== 'winding/turns-unknown') return undefined;
  // The coils that are open are where the finding points to.
  const places = [place, ...related.map((each) => each.place)];
  const [found, ...others] = ownPickups(analysis).flatMap((own) => {
    if (subject.pickup !== undefined && subject.pickup !== own.analysed.pickup.name) return [];
    const coils = own.analysed.pickup.coils.filter((coil) => places.some((each) => samePlace(each, coil.place)));
    return coils.length > 0 ? [{ own, coils }] : [];
  });
  if (found === undefined || others.length > 0) return undefined;
  const { own, coils } = found;
  const readings = coils.flatMap((coil) => settlingReadings(analysis, own.analysed, coil, OPEN[code]));
  if (readings.length === 0 || !settles(readings, own, finding, analysis)) return undefined;
  const lines = gapLines(readings);
  const title = `Insert the reading that settles it: ${lines.map(({ text }) => text).join('; ')}`;
  return gapFix({ finding, analysis, title }, lines, (written) => insertReadings(own, written));
});

/** Solved again with the gaps filled in, whichever way: the finding is gone. */
function settles(readings: readonly ReadingLine[], own: OwnPickup, finding: Finding, analysis: Analysis): boolean {
  const filled = readings.map(({ line, words }) => line.replace(GAP, words?.[0] ?? '5'));
  const edit = insertReadings(own, filled);
  const after = edit && analysis.edited([edit]);
  return after !== undefined && !after.findings.some((each) => isSame(each, finding));
}

const isSame = (one: Finding, { code, subject }: Finding): boolean =>
  one.code === code && JSON.stringify(one.subject) === JSON.stringify(subject);

/** Stops are counted through all the lines that are written together. A stop that is left alone leaves the gap: no reading was taken. */
function gapLines(readings: readonly ReadingLine[]): readonly GapLine[] {
  let stops = 0;
  const stop = (gap: string): string => {
    stops += 1;
    return `\${${stops}:${gap}}`;
  };
  return readings.map(({ line }) => ({ text: line, snippet: line.replace(GAP, stop) }));
}

const GAP = /…/g;
