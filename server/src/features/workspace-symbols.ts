import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import type { Reference } from '../model/model.ts';

export interface WorkspaceSymbol {
  readonly kind: Reference['kind'];
  readonly name: string;
  /** A pickup that another one reworks. */
  readonly isRecord: boolean;
  readonly at: FileSpan;
}

/** Declared things of the files given whose name holds the letters of the query in their order. */
export function workspaceSymbols(analyses: readonly Analysis[], query: string): readonly WorkspaceSymbol[] {
  const wanted = query.toLowerCase();
  const found = new Map<string, WorkspaceSymbol>();
  const former = new Set(
    analyses.flatMap(({ pickups }) => pickups.map(({ pickup: { reworks } }) => reworks?.place.chunk)),
  );
  for (const analysis of analyses) {
    for (const { kind, name, declares, place } of analysis.model.references) {
      if (!declares || kind === 'lead' || kind === 'slot' || !holdsInOrder(name.toLowerCase(), wanted)) continue;
      const at = analysis.locate(place);
      if (at)
        found.set(`${at.uri} ${at.start}`, { kind, name, isRecord: kind === 'pickup' && former.has(place.chunk), at });
    }
  }
  return [...found.values()];
}

function holdsInOrder(name: string, wanted: string): boolean {
  let at = 0;
  for (const letter of wanted) {
    at = name.indexOf(letter, at) + 1;
    if (at === 0) return false;
  }
  return true;
}
