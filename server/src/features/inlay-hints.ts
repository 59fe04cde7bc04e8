import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { basisWords, numberText } from '../words/number-text.ts';
import { COIL_NUMBERS, type NumberName, PICKUP_NUMBERS } from '../words/numbers.ts';
import { ownPickups } from './own-blocks.ts';

/** One switch for each. */
export type HintKind = 'coil resistance' | 'inferred turns' | 'pickup resistance';

export interface InlayHint {
  readonly kind: HintKind;
  readonly offset: number;
  readonly label: string;
  /** What the number rests on. */
  readonly tooltip: string;
}

/** Behind a coil's first line its resistance, or its turns where those were inferred; behind a pickup's, hot to ground. */
export function inlayHints(analysis: Analysis, span: Span, kinds: ReadonlySet<HintKind>): readonly InlayHint[] {
  const hints: InlayHint[] = [];
  const add = (kind: HintKind, at: Place, value: Estimate | null | undefined, name: NumberName, why = ''): void => {
    const offset = at.placed.offset + (at.block.open?.end ?? at.block.span.start);
    if (!kinds.has(kind) || offset < span.start || offset > span.end) return;
    if (value === undefined) return;
    if (value === null) {
      hints.push({ kind, offset, label: numberText(null, name), tooltip: `${name.what}: no path` });
      return;
    }
    const label = numberText(value, name);
    hints.push({ kind, offset, label, tooltip: `${name.what}${why}, ${basisWords(value)}` });
  };
  for (const { analysed, placed, block, coils } of ownPickups(analysis)) {
    if (placed.offset > span.end || placed.offset + placed.chunk.text.length < span.start) continue;
    const { quick } = analysed;
    add('pickup resistance', { placed, block }, quick.resistance20COhm, PICKUP_NUMBERS.resistance20COhm);
    for (const { coil, block: inner } of coils) {
      const estimates = quick.coils.get(coil.name);
      const at = { placed, block: inner };
      if (coil.turns === undefined && coil.counted === undefined)
        add('inferred turns', at, estimates?.turns, COIL_NUMBERS.turns, ' inferred from a reading');
      else add('coil resistance', at, estimates?.resistance20COhm, COIL_NUMBERS.resistance20COhm);
    }
  }
  return hints;
}

interface Place {
  readonly placed: PlacedChunk;
  readonly block: BlockNode;
}
