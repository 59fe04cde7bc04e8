import assert from 'node:assert/strict';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import type { QuickFix } from '../../server/src/features/code-actions.ts';
import { lineFixes } from '../../server/src/features/line-fixes.ts';
import { analysedSample, analysedText, sampleFiles } from '../support/sample-files.ts';
import { SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysed, atCursor } from './analysed.ts';

const whole = ({ text }: Analysis) => ({ start: 0, end: text.length });

/** The text after a fix, its stops filled in with this. */
function filledIn(text: string, { edits }: QuickFix, filling: string): string {
  return applyEdits(
    text,
    edits.map(({ at, snippet = '' }) => ({ at, newText: snippet.replace(/\$\{\d+:…\}/g, filling) })),
  );
}

const fixesAt = (marked: string, kind: RegExp) => {
  const { analysis, offset, text } = atCursor(marked);
  const fixes = lineFixes(analysis, { start: offset, end: offset }).filter(({ title }) => kind.test(title));
  return { text, fixes };
};

const UNKNOWN = SINGLE.replace('    turns 7_700\n', '').replace('coil main {', 'coil ‸main {');

describe('a finding is kept for a reason', () => {
  it('in the innermost block around it, with a gap for the reason', () => {
    const { text, fixes } = fixesAt(
      SINGLE.replace('  hookup', '  potting {\n    wax paraffin 80 % beeswax 20 %\n    bath 92‸ degC\n  }\n  hookup'),
      /^Accept/,
    );
    assert.equal(fixes.length, 1);
    const [fix] = fixes;
    assert.ok(fix);
    assert.match(
      filledIn(text, fix, 'tried on scrap'),
      /bath 92 degC\n {4}accept potting\/too-hot "tried on scrap"\n {2}\}/,
    );
    assert.match(applyEdits(text, fix.edits), /\n {4}accept potting\/too-hot …\n/);
  });

  it('in a block that stands on one line, on that line', () => {
    const { text, fixes } = fixesAt(
      SINGLE.replace('  hookup', '  potting { wax paraffin 80 % beeswax 20 %; bath 92‸ degC }\n  hookup'),
      /^Accept/,
    );
    assert.ok(fixes[0]);
    assert.match(filledIn(text, fixes[0], 'tried'), /bath 92 degC; accept potting\/too-hot "tried" \}/);
  });

  for (const { path } of sampleFiles().filter((file) => file.path.startsWith('mistakes/')))
    it(`${path}: with a reason it is information and nothing else is another; with the gap open nothing is kept`, () => {
      const analysis = analysedSample(path);
      const told = (of: Analysis, but: { readonly code: string }) =>
        of.findings
          .filter(({ code }) => code !== but.code)
          .map(({ code, severity, message }) => [code, severity, message]);
      for (const fix of lineFixes(analysis, whole(analysis)).filter(({ title }) => title.startsWith('Accept'))) {
        const { finding } = fix;
        const isIt = (each: typeof finding) =>
          each.code === finding.code && each.subject.position === finding.subject.position;
        const after = analysedText(filledIn(analysis.text, fix, 'looked at'), path);
        const kept = after.findings.filter(isIt);
        assert.ok(
          kept.some(({ isAccepted, message }) => isAccepted === true && message.includes('Accepted: looked at')),
        );
        assert.ok(kept.every(({ severity }) => severity === 'information' || severity === 'hint'));
        assert.deepEqual(told(after, finding), told(analysis, finding));
        const open = analysedText(applyEdits(analysis.text, fix.edits), path);
        assert.ok(
          open.findings.some(({ code }) => code.startsWith('syntax/')),
          'a gap is no reason',
        );
        assert.ok(open.findings.filter(isIt).every(({ isAccepted }) => isAccepted !== true));
      }
    });

  it('and not before the stop is filled in: the gap in the quotes is no reason either', () => {
    const { text, fixes } = fixesAt(UNKNOWN, /^Accept/);
    assert.ok(fixes[0]);
    const told = (filling: string) => analysed(filledIn(text, fixes[0] ?? assert.fail(), filling)).findings;
    assert.deepEqual(
      told('…').map(({ code, isAccepted }) => [code, isAccepted]),
      [['winding/turns-unknown', undefined]],
    );
    assert.deepEqual(
      told('an old coil').map(({ code, isAccepted }) => [code, isAccepted]),
      [['winding/turns-unknown', true]],
    );
  });

  it('but not a text that does not read, nor what is accepted already', () => {
    assert.deepEqual(fixesAt(SINGLE.replace('plain-42\n', 'plian‸-42\n'), /^Accept/).fixes, []);
    const kept = UNKNOWN.replace('\n    wire', '\n    accept winding/turns-unknown "to be read tomorrow"\n    wire');
    assert.deepEqual(fixesAt(kept, /^Accept/).fixes, []);
  });
});

describe('a reading settles what is open', () => {
  it('the turns: a line for what the meter shows, in readings of their own', () => {
    const { text, fixes } = fixesAt(UNKNOWN, /^Insert/);
    assert.ok(fixes[0]);
    assert.equal(fixes[0].title, 'Insert the reading that settles it: main … kohm');
    assert.match(applyEdits(text, fixes[0].edits), /\n {2}readings \{\n {4}main … kohm\n {2}\}\n\}\n$/);
    assert.deepEqual(
      analysed(filledIn(text, fixes[0], '5.86')).findings.map(({ code }) => code),
      [],
    );
  });

  it('in the readings that there are, those before the work left alone', () => {
    const readings =
      '  readings "on the bench" {\n    room 21 degC\n  }\n  readings found "as received" {\n    room 18 degC\n  }\n  hookup {';
    const { text, fixes } = fixesAt(UNKNOWN.replace('  hookup {', readings), /^Insert/);
    assert.ok(fixes[0]);
    assert.match(filledIn(text, fixes[0], '5.86'), /"on the bench" \{\n {4}room 21 degC\n {4}main 5\.86 kohm\n {2}\}/);
  });

  for (const path of ['mistakes/phase-unproven.pickup', 'mistakes/phase-unproven-position.pickup'])
    it(`${path}: a kick that is read either way settles it`, () => {
      const analysis = analysedSample(path);
      const [fix] = lineFixes(analysis, whole(analysis)).filter(({ title }) => title.startsWith('Insert'));
      assert.ok(fix);
      for (const answer of ['positive', 'negative']) {
        const text = filledIn(analysis.text, fix, answer);
        assert.match(text, new RegExp(`kick .* approach ${answer}`));
        const codes = analysedText(text, path).findings.map(({ code }) => code);
        assert.ok(!codes.includes('phase/unproven'), codes.join());
      }
      const open = analysedText(applyEdits(analysis.text, fix.edits), path).findings.map(({ code }) => code);
      assert.ok(open.includes('phase/unproven') || open.some((code) => code.startsWith('syntax/')));
    });
});
