import assert from 'node:assert/strict';
import { changeBetween, movedSpan } from '../../grammar/src/text-change.ts';
import { chance } from '../support/chance.ts';

describe('what has become of a text', () => {
  it('is one stretch, as short as can be', () => {
    assert.deepEqual(changeBetween('turns 5000', 'turns 5_000'), { start: 7, end: 7, shift: 1 });
    assert.deepEqual(changeBetween('turns 5000', 'turns 6000'), { start: 6, end: 7, shift: 0 });
    assert.deepEqual(changeBetween('turns 5000', 'turns '), { start: 6, end: 10, shift: -4 });
    assert.deepEqual(changeBetween('', 'turns'), { start: 0, end: 0, shift: 5 });
    assert.deepEqual(changeBetween('aaa', 'aa'), { start: 2, end: 3, shift: -1 });
    assert.deepEqual(changeBetween('same', 'same'), { start: 4, end: 4, shift: 0 });
  });

  it('makes the new text of the one before, and none shorter does', () => {
    const luck = chance(3);
    const text = () => Array.from({ length: luck.whole(40) }, () => luck.pick(['a', 'b'])).join('');
    for (let count = 0; count < 500; count += 1) {
      const [before, now] = [text(), text()];
      const { start, end, shift } = changeBetween(before, now);
      assert.equal(before.slice(0, start) + now.slice(start, end + shift) + before.slice(end), now);
      const isShortest = start === Math.min(end, end + shift) || before[start] !== now[start];
      assert.ok(isShortest, `${before} ${now}`);
      assert.ok(start === Math.min(end, end + shift) || before[end - 1] !== now[end + shift - 1], `${before} ${now}`);
    }
  });

  it('moves what lies behind it and stretches what lies about it', () => {
    const change = { start: 4, end: 6, shift: 3 };
    assert.deepEqual(movedSpan({ start: 1, end: 4 }, change), { start: 1, end: 4 });
    assert.deepEqual(movedSpan({ start: 6, end: 8 }, change), { start: 9, end: 11 });
    assert.deepEqual(movedSpan({ start: 4, end: 6 }, change), { start: 4, end: 9 });
    assert.equal(movedSpan({ start: 5, end: 8 }, change), undefined);
    assert.equal(movedSpan({ start: 2, end: 5 }, change), undefined);
  });
});
