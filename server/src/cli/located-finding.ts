/** Findings with their places resolved to lines and characters, as every output of `check` needs them. */
import { given } from '../../../grammar/values/present.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Edit, Finding, Remedy, Severity } from '../checks/finding.ts';
import type { Code } from '../checks/pages.ts';
import { type Told, told } from '../checks/telling.ts';
import type { Place } from '../model/place.ts';
import { plansFor } from '../repair/plan-repairs.ts';
import { isFault } from '../repair/scope.ts';
import { heardWords } from '../words/heard.ts';
import { pathOf, shownPath } from './files.ts';
import { type LineMap, lineMap, type Range } from './line-map.ts';

export interface CheckedFile {
  readonly path: string;
  readonly findings: readonly LocatedFinding[];
}

export interface LocatedFinding extends Told {
  readonly code: Code;
  readonly severity: Severity;
  readonly at: Location;
  readonly related: readonly { readonly message: string; readonly at: Location }[];
  readonly fixes: readonly LocatedFix[];
  /** At the first of the faults that one plan settles together. */
  readonly plan?: OfferedPlan;
}

export interface OfferedPlan {
  readonly minutes: number;
  readonly steps: readonly string[];
  /** What is heard afterwards where a fault is now. */
  readonly leaves: readonly string[];
  readonly settles: number;
}

export interface LocatedFix {
  readonly title: string;
  readonly edits: readonly { readonly at: Location; readonly newText: string }[];
}

export interface Location {
  readonly path: string;
  readonly range: Range;
  readonly lines: LineMap;
}

/**
 * Fixes are verified by analysing again what they touch, so a file with thousands of findings must not ask for all. That costs about the
 * length of the piece, a share of the text's and something whatever they are; as many are asked for as this allows, at least one.
 */
const VERIFICATION_BUDGET = 2_000_000;
const COST_OF_A_FINDING = 2000;
const SHARE_OF_THE_TEXT = 0.01;

export function locateFindings(analysis: Analysis, cwd: string, isPlanned: boolean): readonly LocatedFinding[] {
  const findings = analysis.allFindings();
  const locate = locator(analysis, cwd);
  const cost = COST_OF_A_FINDING + SHARE_OF_THE_TEXT * analysis.text.length;
  const planned = new Set<string>();
  let left = VERIFICATION_BUDGET;
  return findings.flatMap((finding): readonly LocatedFinding[] => {
    const at = locate(finding.place);
    if (at === undefined) return [];
    const remedies = left > 0 ? analysis.verifiedFixes(finding) : [];
    left -= cost + finding.place.chunk.text.length;
    return [
      {
        ...told(finding),
        code: finding.code,
        severity: finding.severity,
        at,
        related: relatedOf(finding, locate),
        fixes: remedies.flatMap((remedy) => fixOf(remedy, locate)),
        ...(isPlanned ? offeredPlan(finding, analysis, planned) : {}),
      },
    ];
  });
}

/** A fault of a pickup or an instrument, which is what plans are for. */
export const isPlannable = (finding: Finding): boolean =>
  isFault(finding) && (finding.subject.pickup ?? finding.subject.instrument) !== undefined;

/** A search takes some tens of milliseconds. */
const MOST_PLANNED = 12;

function offeredPlan(finding: Finding, analysis: Analysis, planned: Set<string>): { readonly plan?: OfferedPlan } {
  const { pickup, instrument } = finding.subject;
  const subject = instrument === undefined ? { ...given({ pickup }) } : { instrument };
  const key = JSON.stringify(subject);
  if (!isPlannable(finding) || planned.has(key) || planned.size >= MOST_PLANNED) return {};
  planned.add(key);
  const { faults, plans } = plansFor(analysis, subject);
  const [best] = plans;
  if (!best) return {};
  const told = best
    .outlook()
    .filter(({ position }) => position === undefined || faults.some((fault) => fault.subject.position === position));
  const steps = best.steps.map(({ text }) => text);
  return {
    plan: { minutes: best.minutes, steps, leaves: told.map((each) => heardWords(each)), settles: faults.length },
  };
}

export type Locate = (place: Place) => Location | undefined;

export function locator(analysis: Analysis, cwd: string): Locate {
  const maps = new Map<string, LineMap>([[analysis.uri, lineMap(analysis.text)]]);
  return (place) => {
    const span = analysis.locate(place);
    const text = span && analysis.textOf(span.uri);
    if (span === undefined || text === undefined) return undefined;
    const lines = maps.get(span.uri) ?? lineMap(text);
    maps.set(span.uri, lines);
    const path = pathOf(span.uri);
    return {
      path: path === undefined ? span.uri : shownPath(path, cwd),
      range: lines.range(span.start, span.end),
      lines,
    };
  };
}

function relatedOf(finding: Finding, locate: Locate): LocatedFinding['related'] {
  return finding.related.flatMap(({ message, place }) => {
    const at = locate(place);
    return at ? [{ message, at }] : [];
  });
}

/** A fix is told whole or not at all. */
function fixOf({ title, edits }: Remedy, locate: Locate): readonly LocatedFix[] {
  const located = locateEdits(edits, locate);
  return located === undefined ? [] : [{ title, edits: located }];
}

/** All of them, or `undefined` where one has no place. */
export function locateEdits(edits: readonly Edit[], locate: Locate): LocatedFix['edits'] | undefined {
  const located: { at: Location; newText: string }[] = [];
  for (const { place, newText } of edits) {
    const at = locate(place);
    if (at === undefined) return undefined;
    located.push({ at, newText });
  }
  return located;
}

/** As the JSON of a command writes them; none where one has no place. */
export const editsJson = (edits: readonly Edit[], locate: Locate) =>
  (locateEdits(edits, locate) ?? []).map(({ at: { path, range }, newText }) => ({ path, range, newText }));
