import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { FileMentions, Mention } from '../analysis/file-mentions.ts';
import type { Reference } from '../model/model.ts';
import { chunksAt } from './syntax-at.ts';

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
  // A long file has thousands of names; those in its other blocks need no place.
  for (const reference of analysis.model.referencesIn(chunksAt(analysis.tree, offset))) {
    const found = located(analysis, reference);
    if (found === undefined || found.at.start > offset || offset > found.at.end) continue;
    if (best === undefined || found.at.start > best.at.start) best = found;
  }
  return best;
}

/** Every name that stands in the analysis's own file. */
export function namesIn(analysis: Analysis): readonly NameAt[] {
  return analysis.model.references().flatMap((reference) => located(analysis, reference) ?? []);
}

/** `undefined` where the name stands in another file. */
function located(analysis: Analysis, reference: Reference): NameAt | undefined {
  const at = analysis.locate(reference.place);
  if (at?.uri !== analysis.uri) return undefined;
  const target = reference.declares ? reference.place : reference.target;
  return { reference, at, target: target && analysis.locate(target) };
}

/** What is asked for in other files: the place that declares a name, and of what. */
export interface NamedThere {
  readonly kind: Reference['kind'];
  readonly name: string;
  readonly target: FileSpan;
}

/** What the name under the cursor stands for, where something declares it. */
export function namedThere(analysis: Analysis, offset: number): NamedThere | undefined {
  const name = nameAt(analysis, offset);
  return name?.target && { kind: name.reference.kind, name: name.reference.name, target: name.target };
}

/** Every mention of it in the files given, each once. */
export function mentionsOf({ kind, target }: NamedThere, files: readonly FileMentions[]): readonly Mention[] {
  const seen = new Set<string>();
  return files.flatMap(({ mentions }) =>
    mentions.filter((mention) => {
      if (mention.kind !== kind || !sameSpan(mention.target, target)) return false;
      const key = `${mention.at.uri} ${mention.at.start}`;
      return seen.has(key) ? false : seen.add(key) !== undefined;
    }),
  );
}

export const sameSpan = (a: FileSpan | undefined, b: FileSpan | undefined): boolean =>
  a !== undefined && b !== undefined && a.uri === b.uri && a.start === b.start && a.end === b.end;
