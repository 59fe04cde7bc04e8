/** Findings of specs that stand in a test, marked with carets under the text they point at. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Span } from '../../grammar/src/span.ts';
import { type Analyser, createAnalyser, editedTexts } from '../../server/src/analysis/analysis.ts';
import type { Analysis, FileContent, Host } from '../../server/src/analysis/analysis-types.ts';
import type { Finding } from '../../server/src/checks/finding.ts';
import { decodeText } from '../../server/src/cli/text-file.ts';
import type { PhotoFile } from '../../server/src/photos/photo-file.ts';
import { readMarks, writeMarks } from './marked-text.ts';

export const FOLDER = 'file:///bench/';
export const EXAMPLE = `${FOLDER}example.pickup`;

/** What lies in its folder `photos`. */
const PHOTOS: Readonly<Record<string, PhotoFile>> = {
  'heron-leads.jpg': { kind: 'photo', format: 'JPEG', width: 4032, height: 3024, mark: '1' },
  'scan.png': { kind: 'too large', reason: 'has 31 MB, more than the 20 MB that a photograph may have' },
  'cut-off.jpg': { kind: 'unreadable', reason: 'ends before its picture does: it was not copied whole' },
};

/** What lies in its folder `sweeps`: curves with known truth, and broken ones (test/physics/sweeps/README.md). */
function sweepText(name: string): FileContent {
  for (const folder of ['curves', 'broken', 'made'])
    try {
      const file = path.resolve(import.meta.dirname, '../physics/sweeps', folder, path.basename(name));
      const found = decodeText(readFileSync(file));
      return found.ok ? { kind: 'text', text: found.text } : { kind: 'unreadable', reason: found.problem };
    } catch {
      // It may lie in the next.
    }
  return { kind: 'missing' };
}

/** A folder in memory: `example.pickup` and whatever else is given by name. */
export function hostOf(files: Readonly<Record<string, string>>): Host {
  return {
    content: (uri) => {
      const name = uri.slice(FOLDER.length);
      const text = files[name];
      if (text === undefined && name.startsWith('sweeps/')) return sweepText(name);
      return text === undefined ? { kind: 'missing' } : { kind: 'text', text };
    },
    isInside: (uri) => uri.startsWith(FOLDER),
    photo: (uri) => PHOTOS[uri.slice(`${FOLDER}photos/`.length)] ?? { kind: 'missing' },
  };
}

/** One for all tests of a process, as one server reads many texts of a file: a piece that comes again is not read again. */
export const analyser: Analyser = createAnalyser();

export function analyse(text: string, others: Readonly<Record<string, string>> = {}, by = analyser): Analysis {
  return by.analyse(EXAMPLE, hostOf({ ...others, 'example.pickup': text }));
}

/** What a spec declares, with the bench in force: nothing is checked or solved, for tests that ask for single numbers of many specs. */
export function declaredIn(text: string): Pick<Analysis, 'model' | 'bench'> {
  const { model } = analyser.declared(EXAMPLE, hostOf({ 'example.pickup': text }));
  return { model, bench: model.benches[0] };
}

/** `code severity at offset: the text pointed at`, in order of place. */
export const findingLines = (analysis: Analysis): readonly string[] =>
  analysis.findings.map(({ code, severity, place }) => {
    const at = analysis.locate(place) ?? { start: 0, end: 0 };
    return line(`${code} ${severity}`, at, analysis.text);
  });

const line = (what: string, { start, end }: Span, text: string) => `${what} at ${start}: ${text.slice(start, end)}`;

/**
 * Asserts that a spec has exactly the findings marked in it, each by carets under the text that it points at and by its code and
 * severity: `^^^^^^^ reading/unlikely warning`.
 */
export function expectFindings(marked: string, others: Readonly<Record<string, string>> = {}): Analysis {
  const { text, marks } = readMarks(marked);
  const analysis = analyse(text, others);
  assert.deepEqual(
    [...findingLines(analysis)].sort(),
    marks.map(({ code, span }) => line(code, span, text)).sort(),
    writeMarks(
      text,
      analysis.findings.flatMap(({ code, severity, place }) => {
        const span = analysis.locate(place);
        return span ? [{ code: `${code} ${severity}`, span }] : [];
      }),
    ),
  );
  return analysis;
}

/** Errors and warnings that name no action and have no fix either: the reader is told of a fault and left alone with it. */
export const leftAlone = (analysis: Analysis): readonly string[] =>
  analysis
    .allFindings()
    .filter(({ severity, action }) => (severity === 'error' || severity === 'warning') && action === undefined)
    .filter((finding) => analysis.verifiedFixes(finding).length === 0)
    .map(({ code, message }) => `${code}: ${message}`);

/** The message of the only finding of that code. */
export function messageOf(analysis: Analysis, code: string): string {
  return findingOf(analysis, code).message;
}

export function findingOf(analysis: Analysis, code: string): Finding {
  const found = analysis.findings.filter((each) => each.code === code);
  assert.equal(found.length, 1, `one ${code} expected, found: ${findingLines(analysis).join('; ') || 'nothing'}`);
  return found[0] as Finding;
}

/** The titles of the fixes that hold, the preferred ones marked with a star. */
export const fixTitles = (analysis: Analysis, code: string): readonly string[] =>
  analysis.verifiedFixes(findingOf(analysis, code)).map(({ title, preferred }) => `${title}${preferred ? ' *' : ''}`);

/** The text after the fix of that title. */
export function fixed(analysis: Analysis, code: string, title: string): string {
  const remedy = analysis.verifiedFixes(findingOf(analysis, code)).find((each) => each.title === title);
  assert.ok(remedy, `no fix '${title}' among: ${fixTitles(analysis, code).join('; ')}`);
  const text = editedTexts(remedy, analysis)?.get(EXAMPLE);
  assert.ok(text !== undefined, 'the fix changes another file');
  return text;
}
