import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { Reference } from '../model/model.ts';

/** A name in the text, with what it names. */
export interface NameAt {
  readonly reference: Reference;
  readonly at: FileSpan;
  /** Where the name is declared; `undefined` where nothing declares it. */
  readonly target: FileSpan | undefined;
}

/** The name that a cursor touches; where two meet, the one that starts there. */
export function nameAt(analysis: Analysis, offset: number): NameAt | undefined {
  let best: NameAt | undefined;
  for (const found of namesIn(analysis)) {
    if (found.at.start > offset || offset > found.at.end) continue;
    if (best === undefined || found.at.start > best.at.start) best = found;
  }
  return best;
}

/** Every name that stands in the analysis's own file. */
export function namesIn(analysis: Analysis): readonly NameAt[] {
  return analysis.model.references.flatMap((reference) => {
    const at = analysis.locate(reference.place);
    if (at?.uri !== analysis.uri) return [];
    const target = reference.declares ? reference.place : reference.target;
    return [{ reference, at, target: target && analysis.locate(target) }];
  });
}

/** Every mention of what is declared at `target`, over the files given, each once. */
export function mentionsOf(
  target: FileSpan,
  kind: Reference['kind'],
  analyses: readonly Analysis[],
): readonly NameAt[] {
  const seen = new Set<string>();
  return analyses.flatMap((analysis) =>
    namesIn(analysis).filter((name) => {
      if (name.reference.kind !== kind || !sameSpan(name.target, target)) return false;
      const key = `${name.at.uri} ${name.at.start}`;
      return seen.has(key) ? false : seen.add(key) !== undefined;
    }),
  );
}

export const sameSpan = (a: FileSpan | undefined, b: FileSpan | undefined): boolean =>
  a !== undefined && b !== undefined && a.uri === b.uri && a.start === b.start && a.end === b.end;
