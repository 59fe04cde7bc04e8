import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { LESSON_READINGS, type LessonState, stepsWritten } from '../../client/src/features/lesson/lesson-steps.ts';
import { analyse, fixed } from '../support/check-fixture.ts';
import { MENDED } from '../support/lesson.ts';

const ROOT = path.resolve(import.meta.dirname, '../..');
const found = readFileSync(path.join(ROOT, 'client/walkthrough/lesson.pickup'), 'utf8');
const mended = MENDED.reduce((text, [was, is]) => text.replace(was, is), found);
const withReadings = (lines: readonly string[]) => mended.replace(/\}\s*$/, `${lines.join('\n')}\n}\n`);
const codesOf = (text: string) => analyse(text).findings.map(({ code }) => code);

describe('the lesson', () => {
  it('comes in with one mistake, which one fix takes away', () => {
    assert.deepEqual(codesOf(found), ['phase/coils-cancel']);
    const title = 'Swap the leads of the slug coil: turquoise and violet change places';
    assert.equal(fixed(analyse(found), 'phase/coils-cancel', title), mended);
    assert.deepEqual(codesOf(mended), []);
  });

  it('has one reading that cannot be, and none once that is read again', () => {
    assert.deepEqual(codesOf(withReadings(LESSON_READINGS)), ['reading/sum']);
    const again = LESSON_READINGS.map((line) => line.replace('ground 4.15', 'ground 8.27'));
    assert.deepEqual(codesOf(withReadings(again)), []);
  });

  const state = (text: string): LessonState => ({
    text,
    codes: codesOf(text),
    hasErrors: analyse(text).findings.some(({ severity }) => severity === 'error'),
  });

  it('counts a step when it has happened, and not before', () => {
    assert.deepEqual(stepsWritten(undefined, state(found)), ['open']);
    // Opened as it was left, mended long ago: nobody has mended it now.
    assert.deepEqual(stepsWritten(undefined, state(mended)), []);
    assert.deepEqual(stepsWritten(state(found), state(mended)), ['mend']);
    assert.deepEqual(stepsWritten(state(mended), state(withReadings(LESSON_READINGS))), ['read']);
  });

  it('is not mended by an emptied file, nor by a line half typed', () => {
    assert.deepEqual(stepsWritten(state(found), state('')), []);
    assert.deepEqual(stepsWritten(state(found), state(found.replace('link turquoise', 'link ('))), []);
    assert.deepEqual(stepsWritten(state(mended), state(withReadings(LESSON_READINGS.slice(0, 4)))), []);
  });
});
