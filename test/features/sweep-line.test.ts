import assert from 'node:assert/strict';
import { lineFixes } from '../../server/src/features/line-fixes.ts';
import { sweepLine } from '../../server/src/features/sweep-line.ts';
import { analysedSample } from '../support/sample-files.ts';
import { SINGLE } from '../support/shop.ts';
import { applyEdits } from '../support/text-edits.ts';
import { analysed } from './analysed.ts';

const OVER = 'over 10 kohm';
const lineIn = (text: string, at: string, path: string, setUp = OVER) =>
  sweepLine(analysed(text), text.indexOf(at), { path, setUp });

describe('the line that names a curve', () => {
  it('goes into readings of its own where none were taken', () => {
    const edits = lineIn(SINGLE, 'turns', 'sweeps/wren.csv');
    assert.ok(edits);
    assert.match(
      applyEdits(SINGLE, edits),
      /\n {2}readings \{\n {4}sweep hot to ground "sweeps\/wren\.csv" over 10 kohm\n {2}\}\n\}\n/,
    );
  });

  it('goes to the end of the newest readings of the pickup at the cursor', () => {
    const read = (day: string) => `  readings ${day} {\n    hot to ground 5.9 kohm\n  }\n`;
    const one = SINGLE.replace(/\}\n$/, `${read('2026-03-01')}${read('2026-04-01')}}\n`);
    const two = `${one}\n${SINGLE.replaceAll('wren', 'finch').replace(/^use.*\n\n/, '')}`;
    const edits = lineIn(two, 'cover none', 'wren.csv');
    assert.ok(edits);
    const [, after = ''] = applyEdits(two, edits).split('2026-04-01 {');
    assert.match(after, /^\n {4}hot to ground 5\.9 kohm\n {4}sweep hot to ground "wren\.csv" over 10 kohm\n {2}\}/);
  });

  it('keeps whatever a file is called a name', () => {
    const edits = lineIn(SINGLE, 'turns', 'a "b" \\c.csv');
    assert.ok(edits);
    assert.match(applyEdits(SINGLE, edits), /"a \\"b\\" \\\\c\.csv" over/);
  });

  it('is not written where it would not be read, or where there is no pickup', () => {
    assert.equal(lineIn(SINGLE, 'turns', 'wren.csv', 'over 10 kg'), undefined);
    assert.equal(lineIn(SINGLE, 'turns', 'wren.csv', 'beside 10 kohm'), undefined);
    assert.equal(lineIn('wire plain-42 {\n  gauge 42 AWG\n}\n', 'gauge', 'wren.csv'), undefined);
  });
});

describe('a sweep that could not tell something', () => {
  const SAMPLE = 'mistakes/sweep-too-weak.pickup';
  const fixesOf = (edit?: (text: string) => string) => {
    const analysis = analysedSample(SAMPLE, edit);
    // As an editor has it once the slow findings have come.
    const whole = { ...analysis, findings: analysis.allFindings() };
    return { text: analysis.text, fixes: lineFixes(whole, { start: 0, end: analysis.text.length }) };
  };
  const made = ({ text, fixes }: ReturnType<typeof fixesOf>, start: string) =>
    applyEdits(text, fixes.find(({ title }) => title.includes(start))?.edits ?? assert.fail(start));

  it('leads to those that would, ready to be named', () => {
    const all = fixesOf();
    assert.deepEqual(
      all.fixes.map(({ title }) => title).filter((title) => title.startsWith('Insert')),
      [
        'Insert the sweep that would tell it: recorder alone "sweeps/recorder.csv" through 47 kohm',
        'Insert the sweep that would tell it: sweep hot to ground "sweeps/heron-over.csv" over 10 kohm',
      ],
    );
    assert.match(
      made(all, 'recorder alone'),
      /bench \{\n {2}recorder input .*\n {2}recorder alone "sweeps\/recorder\.csv" through 47 kohm\n\}/,
    );
    assert.match(
      made(all, 'over 10 kohm'),
      /divider\.csv" through 47 kohm\n {4}sweep hot to ground "sweeps\/heron-over\.csv"/,
    );
    for (const fix of all.fixes.filter((each) => each.title.startsWith('Insert')))
      assert.match(fix.cautions.join(' '), /headphones off the head[\s\S]*Line level only[\s\S]*Phantom power off/);
    const recorder = all.fixes.find(({ title }) => title.includes('recorder'));
    assert.match(recorder?.edits[0]?.snippet ?? '', /"\$\{1:sweeps\/recorder\.csv\}"/);
  });

  it('gets a bench where there is none, and is settled by the curve that is asked for', () => {
    const bare = fixesOf((text) => text.replace(/bench \{[^}]*\}\n\n/, ''));
    assert.match(made(bare, 'recorder alone'), /\nbench \{\n {2}recorder alone .*\n\}\n\npickup heron /);
    const settled = analysedSample(SAMPLE, () =>
      made(fixesOf(), 'over 10 kohm')
        .replace('heron-over.csv', 'sound.csv')
        .replace(/.*divider.*\n/, ''),
    );
    assert.ok(settled.allFindings().every(({ code }) => code !== 'sweep/too-weak'));
  });
});

describe('a sweep of two coils that no single coil is', () => {
  const analysis = analysedSample('mistakes/sweep-circuit-differs.pickup', (text) =>
    text
      .replace('turns 9_800', 'turns 4_900')
      .replace('finish white\n  }', 'finish blue\n  }\n  coil other like main {\n    start red\n    finish white\n  }')
      .replace('hot white\n', 'hot white\n    link blue red\n'),
  );
  const whole = { ...analysis, findings: analysis.allFindings() };
  const fixes = lineFixes(whole, { start: 0, end: analysis.text.length });

  it('leads to one of each by itself, with what to mind while it plays', () => {
    const fix = fixes.find(({ finding, title }) => finding.code === 'sweep/circuit-differs' && /Insert/.test(title));
    const text = applyEdits(analysis.text, fix?.edits ?? assert.fail());
    assert.match(
      text,
      /over 10 kohm\n {4}sweep main\.start to main\.finish "sweeps\/heron-main\.csv" over 10 kohm\n {4}sweep other\.start to other\.finish "sweeps\/heron-other\.csv" over 10 kohm\n/,
    );
    assert.match(
      fix?.edits[0]?.snippet ?? '',
      /"\$\{1:sweeps\/heron-main\.csv\}"[\s\S]*"\$\{2:sweeps\/heron-other\.csv\}"/,
    );
    assert.match(fix?.cautions.join(' ') ?? '', /headphones off the head/);
  });
});
