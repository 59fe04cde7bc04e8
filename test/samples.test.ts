/**
 * The sample shop. Each file says at its end, in lines `# expect: …`, what is found in it and what is computed; these lines are the test.
 * Exactly the findings that it names are raised, at the text that it quotes, with the fixes that it states.
 */
import assert from 'node:assert/strict';
import { formatFile } from '../grammar/src/format.ts';
import { readFileTree } from '../grammar/src/read-file.ts';
import { editedTexts } from '../server/src/analysis/analysis.ts';
import type { Analysis, PickupAnalysis } from '../server/src/analysis/analysis-types.ts';
import { codes } from '../server/src/checks/pages.ts';
import { filesOf, shownPath } from '../server/src/cli/files.ts';
import { leftAlone } from './support/check-fixture.ts';
import { differences, type ExpectedNumber, expectedOf, type Found } from './support/expect-lines.ts';
import { analysedSample as analyse, SAMPLES, sampleFiles, sampleText as text } from './support/sample-files.ts';

const FILES = sampleFiles().map(({ path }) => path);

const named = ({ severity, code }: { readonly severity: string; readonly code: string }): string =>
  `${severity} ${code}`;

function foundIn(analysis: Analysis): readonly Found[] {
  return analysis.allFindings().map((finding) => {
    const span = analysis.locate(finding.place);
    assert.ok(span && span.uri === analysis.uri, `${finding.code} has no place in its file`);
    return {
      severity: finding.severity,
      code: finding.code,
      start: span.start,
      text: analysis.text.slice(span.start, span.end),
      related: finding.related.flatMap(({ place }) => {
        const at = analysis.locate(place);
        return at?.uri === analysis.uri ? [analysis.text.slice(at.start, at.end)] : [];
      }),
      fixed: analysis.verifiedFixes(finding).map((fix) => {
        const after = editedTexts(fix, analysis)?.get(analysis.uri);
        assert.ok(after !== undefined, `a fix of ${finding.code} changes another file`);
        return after;
      }),
    };
  });
}

function numberName(expected: ExpectedNumber): string {
  const { of, written } = expected;
  switch (of) {
    case 'hot to ground':
      return [of, expected.pickup ?? '', written].join(' ');
    case 'turns':
      return [of, expected.coil, written].join(' ');
    case 'position':
      return `${of} ${expected.index + 1} ${written}`;
    case 'leads':
      return `${expected.leads.join(' to ')} ${written}`;
    case 'hum':
      return `${of} ${written}`;
  }
}

describe('samples', () => {
  it('of mistakes are all there', () => assert.ok(FILES.filter((file) => file.startsWith('mistakes/')).length >= 54));

  for (const file of FILES) {
    describe(file, () => {
      const expected = expectedOf(text(file));

      it(expected.isClean ? 'is clean' : `raises ${expected.findings.map(named).join(' and ')}, and nothing else`, () =>
        assert.deepEqual(differences(text(file), expected.findings, foundIn(analyse(file))), []),
      );
      it('says what to do about every error and warning', () => assert.deepEqual(leftAlone(analyse(file)), []));
      it('would not do without one of its findings, or with one more', () => {
        assert.ok(!file.startsWith('mistakes/') || !expected.isClean, 'a mistake has a finding');
        const found = foundIn(analyse(file));
        const isMet = (others: readonly Found[]) => differences(text(file), expected.findings, others).length === 0;
        const [one = { severity: 'hint', code: 'lead/floating', start: 0, text: '', related: [], fixed: [] }] = found;
        assert.ok(!isMet([...found, one]));
        for (const each of found) assert.ok(!isMet(found.filter((other) => other !== each)), each.code);
      });
      for (const each of expected.numbers) {
        it(`computes ${numberName(each)}`, () => assertClose(computed(analyse(file), each), each));
      }
      it('is in the one layout, unless its syntax is the mistake', () => {
        const formatted = formatFile(readFileTree(text(file)));
        if (formatted !== undefined) assert.equal(formatted, text(file));
        else assert.match(file, /\/syntax-/);
      });
    });
  }

  it('are of the invented shop alone: its serials, no usual pair of ends, the slug coil kept', () => {
    for (const file of FILES) {
      for (const [, serial] of text(file).matchAll(/^\s*serial (\S+)/gm)) assert.match(serial ?? '', /^RYD-/, file);
      for (const [, name, facts = ''] of text(file).matchAll(/^ *coil (\S+)[^{]*\{([^}]*)\}/gm)) {
        const ends = [...facts.matchAll(/^ *(?:start|finish) (?!to )(\S+)/gm)].map(([, colour]) => colour);
        assert.ok(!(ends.includes('yellow') && ends.includes('brown')), `${file}: ${name}`);
        if (/^ *kept$/m.test(facts) && !file.startsWith('mistakes/')) assert.equal(name, 'slug', file);
      }
    }
  });

  it('begin with what the work is, in words', () => {
    for (const file of FILES) {
      const first = /^# (.*)/.exec(text(file))?.[1] ?? '';
      assert.match(first, /^[A-Z0-9]/, file);
      assert.ok(!/expect|->|=>/.test(first) && !codes.some((code) => first.includes(code)), file);
    }
  });

  it('state enough numbers to be checked by', () => {
    const numbers = FILES.flatMap((file) => expectedOf(text(file)).numbers);
    assert.ok(numbers.length >= 50, `${numbers.length} numbers stand in the comments`);
  });
});

/** IEC 60028: temperature coefficient of annealed copper at 20 °C. */
const COPPER_PER_K = 0.00393;

/** Half a unit of the stated value's last digit, or 0.5 %, whichever is more; a level to one decibel. */
function assertClose(actual: number | undefined, { of, written }: ExpectedNumber): void {
  const value = Number(written);
  const decimals = written.split('.')[1]?.length ?? 0;
  const tolerance = of === 'hum' ? 1 : Math.max(0.5 * 10 ** -decimals, 0.005 * Math.abs(value));
  assert.ok(actual !== undefined, `nothing is computed; ${written} is stated`);
  // A millionth of slack for values that lie on the edge in decimal and beside it in binary.
  assert.ok(Math.abs(actual - value) <= tolerance * (1 + 1e-6), `computed ${actual}, stated ${written}`);
}

/** An instrument's pickups may stand in files of their own. */
function pickupsInScope(analysis: Analysis): readonly PickupAnalysis[] {
  const used = filesOf(analysis)
    .slice(1)
    .flatMap((file) => analyse(shownPath(file, SAMPLES)).pickups);
  return [...used, ...analysis.pickups];
}

function computed(analysis: Analysis, expected: ExpectedNumber): number | undefined {
  const name = expected.of === 'hot to ground' ? expected.pickup : undefined;
  const matching = pickupsInScope(analysis).filter(
    ({ pickup }) => name === undefined || pickup.name.endsWith(`-${name}`),
  );
  // Where the comment names none, it speaks of every pickup of the file; the last is as good as the first.
  const estimates = matching.at(-1)?.quick;
  switch (expected.of) {
    case 'hot to ground': {
      const at20 = estimates?.resistance20COhm;
      return at20 ? (at20.value * (1 + COPPER_PER_K * (expected.temperatureC - 20))) / 1000 : undefined;
    }
    case 'turns':
      return estimates?.coils.get(expected.coil)?.turns?.value;
    case 'hum':
      return estimates?.humDb?.value;
    case 'position': {
      const position = analysis.instruments[0]?.positions()[expected.index];
      return position?.resistanceOhm ? position.resistanceOhm.value / 1000 : undefined;
    }
    case 'leads': {
      const readings = matching[0]?.estimates().leadReadings ?? [];
      const found = readings.find(({ leads }) => expected.leads.every((lead) => leads.includes(lead)));
      const atBench = found?.resistanceOhm?.value;
      return atBench === undefined ? undefined : atBench / 1000;
    }
  }
}
