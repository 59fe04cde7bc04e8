import type { Span } from '../../../grammar/src/span.ts';
import type { UseNode } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import { photoLines } from '../analysis/photos.ts';
import { curvesIn } from '../model/sweeps.ts';
import { inFile } from './syntax-at.ts';

export interface DocumentLink {
  readonly span: Span;
  readonly target: string;
}

/** The paths behind `use`, for the files that the analysis really took in, those of photographs that can be shown, and those of curves. */
export function documentLinks(analysis: Analysis): readonly DocumentLink[] {
  const used = analysis.tree.chunks.flatMap((placed) => {
    const use = placed.chunk.content;
    const target = use?.kind === 'use' ? useTarget(analysis, use) : undefined;
    if (use?.kind !== 'use' || use.path === undefined || target === undefined) return [];
    return [{ span: withoutQuotes(inFile(placed, use.path.span)), target }];
  });
  const photographs = photoLines(analysis.model).flatMap((line) => {
    const at = analysis.photoAt(line);
    const span = analysis.locate(line.value.file.place);
    if (at.kind === 'outside' || at.file?.kind !== 'photo' || span?.uri !== analysis.uri) return [];
    return [{ span: withoutQuotes(span), target: at.uri }];
  });
  const curves = curvesIn(analysis.model).flatMap(({ value, place }) => {
    const span = analysis.locate(place);
    const target = resolved(analysis.uri, value);
    if (span?.uri !== analysis.uri || target === undefined || !analysis.curveUris.includes(target)) return [];
    return [{ span: withoutQuotes(span), target }];
  });
  return [...used, ...photographs, ...curves];
}

/** The file that a `use` line leads to, where the analysis took it in. */
export function useTarget(analysis: Analysis, { path }: UseNode): string | undefined {
  const target = path && resolved(analysis.uri, path.value);
  return target !== undefined && analysis.uris.includes(target) ? target : undefined;
}

const withoutQuotes = ({ start, end }: Span): Span => ({ start: start + 1, end: Math.max(end - 1, start + 1) });

function resolved(from: string, path: string): string | undefined {
  try {
    return new URL(path.split('/').map(encodeURIComponent).join('/'), from).href;
  } catch {
    return undefined;
  }
}
