import assert from 'node:assert/strict';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { fixAll, quickFixes } from '../../server/src/features/code-actions.ts';
import { codeLenses } from '../../server/src/features/code-lens.ts';
import { completions } from '../../server/src/features/completion.ts';
import { definition } from '../../server/src/features/definition.ts';
import { diagnostics } from '../../server/src/features/diagnostics.ts';
import { documentHighlights } from '../../server/src/features/document-highlight.ts';
import { documentLinks } from '../../server/src/features/document-links.ts';
import { documentSymbols } from '../../server/src/features/document-symbols.ts';
import { pickupParts } from '../../server/src/features/drawn-parts.ts';
import { foldingRanges } from '../../server/src/features/folding.ts';
import { formatting, formattingAfter, formattingOf } from '../../server/src/features/formatting.ts';
import { hover } from '../../server/src/features/hover.ts';
import { inlayHints } from '../../server/src/features/inlay-hints.ts';
import { jointRows } from '../../server/src/features/joint-rows.ts';
import { leadColours } from '../../server/src/features/lead-colours.ts';
import { linkedEditing } from '../../server/src/features/linked-editing.ts';
import { namedThere } from '../../server/src/features/name-at.ts';
import { refactorings } from '../../server/src/features/refactorings.ts';
import { references } from '../../server/src/features/references.ts';
import { prepareRename, rename } from '../../server/src/features/rename.ts';
import { selectionRanges } from '../../server/src/features/selection-ranges.ts';
import { semanticTokens } from '../../server/src/features/semantic-tokens.ts';
import { signatureHelp } from '../../server/src/features/signature-help.ts';
import { hostOf } from '../support/check-fixture.ts';
import { PARTS, SINGLE } from '../support/shop.ts';
import { halfTyped, MAIN } from './analysed.ts';

const HINTS = new Set(['coil resistance', 'inferred turns', 'pickup resistance'] as const);

/** Asks every feature at an offset; the span that each answers with lies in the text. */
function askEverything(analysis: Analysis, offset: number): void {
  const around = { start: Math.max(offset - 5, 0), end: Math.min(offset + 5, analysis.text.length) };
  const spans = [
    ...diagnostics(analysis).map(({ span }) => span),
    ...documentSymbols(analysis).flatMap(({ span, nameSpan }) => [span, nameSpan]),
    ...foldingRanges(analysis).map(({ span }) => span),
    ...documentLinks(analysis).map(({ span }) => span),
    ...formatting(analysis).map(({ span }) => span),
    ...formattingOf(analysis, around).map(({ span }) => span),
    ...formattingAfter(analysis, offset, '\n').map(({ span }) => span),
    ...codeLenses(analysis).map(({ span }) => span),
    ...leadColours(analysis).map(({ span }) => span),
    ...selectionRanges(analysis, offset),
    ...(linkedEditing(analysis, offset)?.spans ?? []),
    ...semanticTokens(analysis).map(({ span }) => span),
    ...documentHighlights(analysis, offset).map(({ span }) => span),
    ...inlayHints(analysis, { start: 0, end: analysis.text.length }, HINTS).map((hint) => ({
      start: hint.offset,
      end: hint.offset,
    })),
    completions(analysis, offset).replace,
    ...[
      hover(analysis, offset)?.span,
      definition(analysis, offset)?.from,
      prepareRename(analysis, offset)?.span,
    ].flatMap((span) => span ?? []),
  ];
  for (const { start, end } of spans) {
    assert.ok(0 <= start && start <= end && end <= analysis.text.length, `${start} to ${end}`);
  }
  signatureHelp(analysis, offset);
  const named = namedThere(analysis, offset);
  if (named) {
    references(named, { among: [], declaration: true });
    rename(named, 'other', []);
  }
  refactorings(analysis, around);
  for (const pickup of analysis.pickups) {
    pickupParts(pickup);
    jointRows(pickup);
  }
}

describe('half-typed files', () => {
  it('no feature ever fails, whatever is missing', () => {
    const analyser = createAnalyser();
    for (const text of halfTyped(SINGLE)) {
      const analysis = analyser.analyse(MAIN, hostOf({ 'parts.pickup': PARTS, 'main.pickup': text }));
      for (const offset of new Set([0, text.length >> 1, text.length])) askEverything(analysis, offset);
    }
  });

  it('every fix that is offered on the way can be had', () => {
    const analyser = createAnalyser();
    for (let end = 0; end < SINGLE.length; end += 7) {
      const text = SINGLE.slice(0, end);
      const analysis = analyser.analyse(MAIN, hostOf({ 'parts.pickup': PARTS, 'main.pickup': text }));
      for (const { edits } of quickFixes(analysis, { start: 0, end })) assert.notEqual(edits.length, 0);
      fixAll(analysis);
    }
  });
});
