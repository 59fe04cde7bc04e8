/** What holds of every text whatever it is: it is read, matched, formatted, completed, analysed and asked about without an exception. */
import assert from 'node:assert/strict';
import { expectedAt } from '../../grammar/src/expect.ts';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import type { Chunk, FileTree } from '../../grammar/src/syntax-tree.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { completions } from '../../server/src/features/completion.ts';
import { diagnostics } from '../../server/src/features/diagnostics.ts';
import { documentSymbols } from '../../server/src/features/document-symbols.ts';
import { hover } from '../../server/src/features/hover.ts';
import { refactorings } from '../../server/src/features/refactorings.ts';
import { languageProblems } from './language-problems.ts';

/** Pieces that have been completed in before. */
const completed = new WeakSet<Chunk>();

/**
 * Reads, matches, formats, completes. Pieces that stand in the text that it was made from are not read again; that a text edited is read
 * as it would be afresh is for other tests.
 */
export function readEverything(text: string, madeFrom?: FileTree): void {
  const tree = readFileTree(text, madeFrom);
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  assert.ok(mark + tree.chunks.map(({ chunk }) => chunk.text).join('') === text, 'the pieces are the text');
  const problems = languageProblems(tree);
  for (const { span, message } of problems) {
    assert.ok(
      0 <= span.start && span.start <= span.end && span.end <= text.length,
      `a place inside the text: ${message}`,
    );
  }
  const formatted = formatFile(tree);
  if (formatted !== undefined)
    assert.ok(formatFile(readFileTree(formatted, tree)) === formatted, 'formatting twice changes nothing');
  for (const { chunk } of tree.chunks.slice(0, 20)) {
    if (!completed.has(chunk)) expectedAt(chunk, chunk.text.length >> 1);
    completed.add(chunk);
  }
}

/** Asks an analysis for all that it knows, and a feature of each kind at a few places. */
export function askEverything(analysis: Analysis): void {
  const { text } = analysis;
  for (const finding of analysis.allFindings()) {
    const at = analysis.locate(finding.place);
    const isInside = at !== undefined && 0 <= at.start && at.start <= at.end && at.end <= text.length;
    assert.ok(isInside, `${finding.code} lies outside the text`);
    assert.notEqual(finding.message, '');
  }
  for (const { estimates } of analysis.pickups) estimates();
  for (const { positions } of analysis.instruments) positions();
  diagnostics(analysis);
  documentSymbols(analysis);
  for (const part of [0.2, 0.5, 0.8]) {
    const offset = Math.floor(text.length * part);
    hover(analysis, offset);
    completions(analysis, offset);
    refactorings(analysis, { start: offset, end: offset });
  }
}
