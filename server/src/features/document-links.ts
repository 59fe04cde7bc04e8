import type { Span } from '../../../grammar/src/span.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { inFile } from './syntax-at.ts';

export interface DocumentLink {
  readonly span: Span;
  readonly target: string;
}

/** The paths behind `use`, for the files that the analysis really took in. */
export function documentLinks(analysis: Analysis): readonly DocumentLink[] {
  return analysis.tree.chunks.flatMap((placed) => {
    const use = placed.chunk.content;
    if (use?.kind !== 'use' || use.path === undefined) return [];
    const target = resolved(analysis.uri, use.path.value);
    if (target === undefined || !analysis.uris.includes(target)) return [];
    const { start, end } = inFile(placed, use.path.span);
    // Without its quotes.
    return [{ span: { start: start + 1, end: Math.max(end - 1, start + 1) }, target }];
  });
}

function resolved(from: string, path: string): string | undefined {
  try {
    return new URL(path.split('/').map(encodeURIComponent).join('/'), from).href;
  } catch {
    return undefined;
  }
}
