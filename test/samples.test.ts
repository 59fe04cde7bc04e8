/**
 * The sample shop. Each file says in its first comment what it expects; the comments are the test.
 * A file of `mistakes/` raises exactly the finding that it names, at the line it quotes, and those that it names with it.
 */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { formatFile } from '../grammar/src/format.ts';
import { readFileTree } from '../grammar/src/read-file.ts';
import { createAnalyser } from '../server/src/analysis/analysis.ts';
import type { Analysis, PickupAnalysis } from '../server/src/analysis/analysis-types.ts';
import type { Finding } from '../server/src/checks/finding.ts';
import { diskHost, uriOf } from '../server/src/cli/files.ts';
import {
  type ExpectedClaim,
  type ExpectedFinding,
  expectedClaims,
  expectedFindings,
  expectedNotes,
  stated,
} from './support/expectation.ts';

const SAMPLES = path.resolve(import.meta.dirname, '../samples');
const analyser = createAnalyser();

const analyse = (file: string): Analysis => analyser.analyse(uriOf(path.join(SAMPLES, file)), diskHost(SAMPLES));
const text = (file: string): string => readFileSync(path.join(SAMPLES, file), 'utf8');
const specs = (folder: string): readonly string[] =>
  readdirSync(path.join(SAMPLES, folder))
    .filter((name) => name.endsWith('.pickup'))
    .map((name) => path.posix.join(folder, name));

const named = ({ severity, code }: { readonly severity: string; readonly code: string }): string =>
  `${severity} ${code}`;

function found(
  analysis: Analysis,
  finding: Finding,
): { readonly line: string; readonly piece: string; readonly start: number } {
  const span = analysis.locate(finding.place);
  assert.ok(span && span.uri === analysis.uri, `${finding.code} has no place in its file`);
  const lineStart = analysis.text.lastIndexOf('\n', span.start - 1) + 1;
  const lineEnd = analysis.text.indexOf('\n', span.start);
  const line = analysis.text.slice(lineStart, lineEnd === -1 ? undefined : lineEnd);
  return { line: line.trim(), piece: analysis.text.slice(span.start, span.end), start: span.start };
}

function assertPlace(analysis: Analysis, expected: ExpectedFinding): void {
  const candidates = analysis
    .allFindings()
    .filter((each) => each.code === expected.code)
    .map((each) => found(analysis, each));
  const quotes = expected.quotes.map((quote) => ({ quote, at: quotedOffset(analysis.text, quote, expected) }));
  for (const { quote, at } of quotes.slice(1)) {
    const related = analysis.allFindings().flatMap((each) => each.related.map(({ place }) => analysis.locate(place)));
    const touching = related.some((span) => span && span.start < at + quote.length && span.end > at);
    assert.ok(touching, `\`${quote}\` is no related line of ${expected.code}`);
  }
  for (const { quote, at } of quotes.slice(0, 1)) {
    const touching = candidates.find(({ start, piece }) => start < at + quote.length && start + piece.length > at);
    assert.ok(
      touching,
      `${expected.code} is not at \`${quote}\` but at ${candidates.map(({ line }) => `\`${line}\``)}`,
    );
    if (expected.word !== undefined) {
      assert.ok(touching.piece.includes(expected.word), `the word ${expected.word} is not in "${touching.piece}"`);
    }
  }
}

/** Where the quoted line stands: in the coil that the comment names, or its second occurrence where the comment says so. */
function quotedOffset(whole: string, quote: string, { coil, second }: ExpectedFinding): number {
  const body = whole.search(/^(?!#)/m);
  const from = coil === undefined ? body : whole.indexOf(`coil ${coil}`, body);
  const first = whole.indexOf(quote, from);
  const at = second ? whole.indexOf(quote, first + 1) : first;
  assert.ok(from >= 0 && at >= 0, `the comment quotes \`${quote}\`, which the file does not hold`);
  return at;
}

function applied(analysis: Analysis, finding: Finding): readonly string[] {
  return analysis.verifiedFixes(finding).map((fix) =>
    fix.edits
      .map(({ place, newText }) => ({ span: analysis.locate(place), newText }))
      .sort((a, b) => (b.span?.start ?? 0) - (a.span?.start ?? 0))
      .reduce(
        (old, { span, newText }) => (span ? old.slice(0, span.start) + newText + old.slice(span.end) : old),
        analysis.text,
      ),
  );
}

describe('samples/mistakes', () => {
  const files = specs('mistakes');

  it('are all there', () => assert.ok(files.length >= 43));

  for (const file of files) {
    describe(path.basename(file, '.pickup'), () => {
      const comment = stated(text(file));
      const expected = expectedFindings(comment);

      it(`raises ${expected.map(named).join(' and ')}, and nothing else`, () => {
        assert.ok(expected.length > 0, 'the first line names no finding');
        assert.deepEqual(analyse(file).allFindings().map(named).sort(), expected.map(named).sort());
      });
      it('stands at the line that it quotes', () => {
        const analysis = analyse(file);
        for (const each of expected) assertPlace(analysis, each);
      });
      const [cause] = expected;
      for (const fix of cause?.fixes ?? []) {
        it(`offers a fix that gives ${fix.map((piece) => `\`${piece}\``).join(' and ')}`, () => {
          const analysis = analyse(file);
          const finding = analysis.allFindings().find(({ code }) => code === cause?.code);
          assert.ok(finding);
          const before = analysis.text;
          const results = applied(analysis, finding);
          const holds = results.some((after) => fix.every((piece) => after.includes(piece) && after !== before));
          assert.ok(
            holds,
            `fixes: ${
              analysis
                .verifiedFixes(finding)
                .map(({ title }) => title)
                .join('; ') || 'none'
            }`,
          );
        });
      }
      if (cause?.noFix) {
        it('offers no fix', () => {
          const analysis = analyse(file);
          const finding = analysis.allFindings().find(({ code }) => code === cause.code);
          assert.deepEqual(finding && analysis.verifiedFixes(finding).map(({ title }) => title), []);
        });
      }
    });
  }
});

/** IEC 60028: temperature coefficient of annealed copper at 20 °C. */
const COPPER_PER_K = 0.00393;

/** Half a unit of the stated value's last digit, or 0.5 %, whichever is more; a level is stated as `about`, to one decibel. */
function assertClose(actual: number | undefined, { of, value, written }: ExpectedClaim): void {
  const decimals = written.split('.')[1]?.length ?? 0;
  const tolerance = of === 'hum' ? 1 : Math.max(0.5 * 10 ** -decimals, 0.005 * Math.abs(value));
  assert.ok(actual !== undefined, `nothing is computed; ${written} is stated`);
  // A millionth of slack for values that lie on the edge in decimal and beside it in binary.
  assert.ok(Math.abs(actual - value) <= tolerance * (1 + 1e-6), `computed ${actual}, stated ${written}`);
}

/** An instrument's pickups may stand in files of their own. */
function pickupsInScope(analysis: Analysis): readonly PickupAnalysis[] {
  const used = analysis.uris.slice(1).flatMap((uri) => analyser.analyse(uri, diskHost(SAMPLES)).pickups);
  return [...used, ...analysis.pickups];
}

function computed(analysis: Analysis, claim: ExpectedClaim): number | undefined {
  const matching = pickupsInScope(analysis).filter(
    ({ pickup }) => claim.pickup === undefined || pickup.name.endsWith(`-${claim.pickup}`),
  );
  // Where the comment names none, it speaks of every pickup of the file; the last is as good as the first.
  const estimates = matching.at(-1)?.quick;
  switch (claim.of) {
    case 'hot to ground': {
      const at20 = estimates?.resistance20COhm;
      return at20 ? (at20.value * (1 + COPPER_PER_K * (claim.temperatureC - 20))) / 1000 : undefined;
    }
    case 'turns':
      return estimates?.coils.get(claim.coil)?.turns?.value;
    case 'hum':
      return estimates?.humDb?.value;
    case 'position': {
      const position = analysis.instruments[0]?.positions()[claim.index];
      return position?.resistanceOhm ? position.resistanceOhm.value / 1000 : undefined;
    }
    case 'leads': {
      const readings = matching[0]?.estimates().leadReadings ?? [];
      const found = readings.find(({ leads }) => claim.leads.every((lead) => leads.includes(lead)));
      const atBench = found?.resistanceOhm?.value;
      return atBench === undefined ? undefined : atBench / 1000;
    }
  }
}

const claimName = (claim: ExpectedClaim): string =>
  [
    claim.of,
    claim.pickup,
    claim.of === 'turns' ? claim.coil : '',
    claim.of === 'position' ? claim.index + 1 : '',
    claim.written,
  ]
    .filter((each) => each !== undefined && each !== '')
    .join(' ');

describe('samples', () => {
  for (const file of [...specs('.'), ...specs('parts')]) {
    describe(path.basename(file, '.pickup'), () => {
      const comment = stated(text(file));
      const notes = expectedNotes(comment);

      it(notes.length === 0 ? 'is clean' : `raises ${notes.map(named).join(' and ')}, and nothing else`, () => {
        assert.match(comment, /^clean|^information /);
        const optional = /an information there is right if/.test(comment)
          ? 'information hum/partly-cancelled'
          : undefined;
        const raised = analyse(file).allFindings().map(named);
        const beyond = raised.length > notes.length ? raised.filter((each) => each !== optional).length : 0;
        assert.deepEqual(beyond > 0 ? raised : raised.slice(0, notes.length), notes.map(named));
      });
      for (const claim of expectedClaims(comment)) {
        it(`computes ${claimName(claim)}`, () => assertClose(computed(analyse(file), claim), claim));
      }
    });
  }

  for (const file of [...specs('.'), ...specs('parts'), ...specs('mistakes')]) {
    it(`${file} is in the one layout, unless its syntax is the mistake`, () => {
      const formatted = formatFile(readFileTree(text(file)));
      if (formatted !== undefined) assert.equal(formatted, text(file));
      else assert.match(file, /\/syntax-/);
    });
  }

  it('state enough numbers to be checked by', () => {
    const claims = specs('.').flatMap((file) => expectedClaims(stated(text(file))));
    assert.ok(claims.length >= 50, `${claims.length} numbers were read from the comments`);
  });
});
