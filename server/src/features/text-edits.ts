import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { Edit } from '../checks/finding.ts';

/** A change of a file's text. */
export interface TextEdit {
  readonly at: FileSpan;
  readonly newText: string;
  /** The same text with a stop at each gap, for an editor that leads a person through them. */
  readonly snippet?: string;
}

/** Something to write into the file, with its name in the menu. */
export interface Refactoring {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

/** A remedy's edits where they lie now; `undefined` where one of them can no longer be placed: half a remedy is none. */
export function locateEdits(analysis: Analysis, edits: readonly Edit[]): readonly TextEdit[] | undefined {
  const located: TextEdit[] = [];
  for (const { place, newText } of edits) {
    const at = analysis.locate(place);
    if (at === undefined) return undefined;
    located.push({ at, newText });
  }
  return located;
}

/** True where two edits would change the same text, or both insert at one place. */
export function overlap(a: TextEdit, b: TextEdit): boolean {
  if (a.at.uri !== b.at.uri) return false;
  if (a.at.start === b.at.start && a.at.end === b.at.end) return true;
  return a.at.start < b.at.end && b.at.start < a.at.end;
}
