import type { Span } from '../../../grammar/src/span.ts';
import type { BlockNode, PlacedChunk } from '../../../grammar/src/syntax-tree.ts';
import { given } from '../../../grammar/values/present.ts';
import type { Analysis, FileSpan } from '../analysis/analysis-types.ts';
import { quickOf } from '../analysis/pickup-analysis.ts';
import type { Place } from '../model/place.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { basisWords, marked, numberText } from '../words/number-text.ts';
import { COIL_NUMBERS, type NumberName, PICKUP_NUMBERS } from '../words/numbers.ts';
import { ownPickups } from './own-blocks.ts';
import { type WiredLine, wiredLines } from './wired-lines.ts';

/** One switch for each. */
export type HintKind = 'coil resistance' | 'inferred turns' | 'pickup resistance' | WiredLine['kind'];

export interface InlayHint {
  readonly kind: HintKind;
  readonly offset: number;
  readonly label: string;
  /** What the number rests on. */
  readonly tooltip: string;
  /** The line that it rests on most: a reading, the turns, the hookup. */
  readonly restsOn?: FileSpan;
}

/** Lines of a wired instrument last. Behind a coil's first line its resistance, or its turns where those were inferred; behind a pickup's, hot to ground. */
export function inlayHints(analysis: Analysis, span: Span, kinds: ReadonlySet<HintKind>): readonly InlayHint[] {
  const hints: InlayHint[] = [];
  const add = (kind: HintKind, at: At, value: Estimate | null | undefined, name: NumberName, why = ''): void => {
    const offset = at.placed.offset + (at.block.open?.end ?? at.block.span.start);
    const restsOn = at.restsOn && analysis.locate(at.restsOn);
    if (!kinds.has(kind) || offset < span.start || offset > span.end) return;
    if (value === undefined) return;
    if (value === null) {
      hints.push({
        kind,
        offset,
        label: numberText(null, name),
        tooltip: `${name.what}: no path`,
        ...given({ restsOn }),
      });
      return;
    }
    const label = marked(numberText(value, name), value);
    hints.push({ kind, offset, label, tooltip: `${name.what}${why}, ${basisWords(value)}`, ...given({ restsOn }) });
  };
  for (const { analysed, placed, block, coils } of ownPickups(analysis)) {
    if (placed.offset > span.end || placed.offset + placed.chunk.text.length < span.start) continue;
    const { quick, pickup } = analysed;
    const { life } = quickOf(analysis.bench)(pickup);
    add(
      'pickup resistance',
      { placed, block, restsOn: pickup.hookup?.place },
      quick.resistance20COhm,
      PICKUP_NUMBERS.resistance20COhm,
    );
    for (const { coil, block: inner } of coils) {
      const estimates = quick.coils.get(coil.name);
      const read = life.reads.get(coil)?.at(-1)?.line.place;
      const at = { placed, block: inner, restsOn: read ?? (coil.counted ?? coil.turns)?.place };
      if (coil.turns === undefined && coil.counted === undefined)
        add('inferred turns', at, estimates?.turns, COIL_NUMBERS.turns, ' inferred from a reading');
      else add('coil resistance', at, estimates?.resistance20COhm, COIL_NUMBERS.resistance20COhm);
    }
  }
  return [...hints, ...wiredHints(analysis, span, kinds)];
}

/** Behind a position its contacts, behind a line of the wiring the positions in which it carries signal. */
function wiredHints(analysis: Analysis, span: Span, kinds: ReadonlySet<HintKind>): readonly InlayHint[] {
  if (!kinds.has('switch contacts') && !kinds.has('wiring positions')) return [];
  return wiredLines(analysis).flatMap(({ kind, place, label, tooltip }): readonly InlayHint[] => {
    const at = analysis.locate(place);
    const isHere = at?.uri === analysis.uri && at.end >= span.start && at.end <= span.end;
    return at && isHere && kinds.has(kind) ? [{ kind, offset: at.end, label, tooltip }] : [];
  });
}

interface At {
  readonly placed: PlacedChunk;
  readonly block: BlockNode;
  readonly restsOn: Place | undefined;
}
