import type { Diagnostic, Position, Range } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { attached } from '../../../grammar/values/attached.ts';
import type { EarlyFindings } from '../analysis/analysis.ts';
import { diagnostics } from '../features/diagnostics.ts';
import type * as features from '../features/feature-values.ts';
import type { Language } from '../words/languages/language.ts';
import { type ShowsFindings, type TextOf, toDiagnostic, toLocation, toRange } from './to-protocol.ts';

type Options = ShowsFindings & { readonly textOf: TextOf; readonly t?: Language };

export type SentFindings = (document: TextDocument, analysis: EarlyFindings) => Diagnostic[];

/**
 * Findings as one client is sent them. Those that stand where they stood are the same objects as before, which in a long file nearly all
 * are at each keystroke.
 */
export function sentFindings(options: Options): SentFindings {
  const sent = attached<features.Diagnostic, Diagnostic>();
  return (document, analysis) =>
    diagnostics(analysis, options.t).map((found) => {
      const before = sent.get(found);
      if (before && standsThere(before, document, found, options)) return before;
      const made = toDiagnostic(document, found, options);
      sent.set(found, made);
      return made;
    });
}

/** The same offsets may be other lines by now. */
function standsThere(
  { range, relatedInformation = [] }: Diagnostic,
  document: TextDocument,
  found: features.Diagnostic,
  { textOf, relatesPlaces }: Options,
): boolean {
  const related = relatesPlaces ? found.related : [];
  return (
    isSameRange(range, toRange(document, found.span)) &&
    relatedInformation.length === related.length &&
    relatedInformation.every(({ location }, index) => {
      const at = related[index]?.at;
      const there = at && toLocation(textOf, at);
      return there !== undefined && location.uri === there.uri && isSameRange(location.range, there.range);
    })
  );
}

const isSameRange = (one: Range, other: Range): boolean => isSame(one.start, other.start) && isSame(one.end, other.end);

const isSame = (one: Position, other: Position): boolean =>
  one.line === other.line && one.character === other.character;
