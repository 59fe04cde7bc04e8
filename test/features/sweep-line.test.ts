import assert from 'node:assert/strict';
import { sweepLine } from '../../server/src/features/sweep-line.ts';
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
