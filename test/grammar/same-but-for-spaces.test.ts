import assert from 'node:assert/strict';
import fc from 'fast-check';
import { buildChunk } from '../../grammar/src/build-tree.ts';
import { firstForm, spanIn, tookPlaceOf } from '../../grammar/src/same-but-for-spaces.ts';

const WORDS = ['wire', 'plain-42', '{', '\n', 'gauge', '42', 'AWG', '\n', 'note', '"on the # shelf"', '\n', '}'];
const PLAIN = WORDS.join(' ');

/** Whether the second text is taken for a later form of the first. */
function isLaterForm(before: string, now: string): boolean {
  const [first, second] = [buildChunk(before), buildChunk(now)];
  tookPlaceOf(second, first);
  return firstForm(second) === first;
}

describe('a piece that took the place of another', () => {
  for (const [what, now, isSame] of [
    ['more spaces', PLAIN.replace('42 AWG', '42    AWG'), true],
    ['empty lines', PLAIN.replaceAll('\n', '\n\n\r\n'), true],
    ['a remark', PLAIN.replace('42 AWG', '42 AWG # as measured'), true],
    ['a remark on a line of its own', PLAIN.replace('gauge', '# gauge 43 AWG\ngauge'), true],
    ['another word', PLAIN.replace('gauge', 'gauges'), false],
    ['two words made one', PLAIN.replace('42 AWG', '42AWG'), false],
    ['a space in a text', PLAIN.replace('the # shelf', 'the  # shelf'), false],
    ['two lines made one', PLAIN.replace('AWG \n', 'AWG '), false],
    ['a line made two', PLAIN.replace('42', '\n42'), false],
    ['a line made a remark', PLAIN.replace('note', '# note'), false],
  ] as const)
    it(`${isSame ? 'says the same' : 'says something else'} with ${what}`, () => {
      assert.equal(isLaterForm(PLAIN, now), isSame);
      assert.equal(isLaterForm(now, PLAIN), isSame);
    });

  it('has the first form of all, however often it has changed', () => {
    const [first, second, third] = [PLAIN, `${PLAIN} `, `${PLAIN}  `].map(buildChunk);
    assert.ok(first && second && third);
    tookPlaceOf(second, first);
    tookPlaceOf(third, second);
    assert.equal(firstForm(third), first);
  });

  it('holds each word where the first form had it, and what lies between where it is as it was', () => {
    const gap = fc.constantFrom(' ', '  ', '\t');
    const remark = fc.constantFrom('', '', '# why\n', '\n \n');
    fc.assert(
      fc.property(
        fc.array(gap, { minLength: 12, maxLength: 12 }),
        fc.array(remark, { minLength: 12, maxLength: 12 }),
        (gaps, remarks) => {
          const now = WORDS.map((word, index) => word + (word === '\n' ? remarks[index] : '') + gaps[index]).join('');
          const [from, to] = [buildChunk(PLAIN), buildChunk(now)];
          let [at, there] = [0, 0];
          for (const word of WORDS.filter((each) => each !== '\n')) {
            [at, there] = [PLAIN.indexOf(word, at), now.indexOf(word, there)];
            const span = spanIn({ start: at, end: at + word.length }, from, to);
            assert.deepEqual(span, { start: there, end: there + word.length });
            assert.deepEqual(spanIn(span, to, from), { start: at, end: at + word.length });
            [at, there] = [at + word.length, there + word.length];
          }
          const line = { start: PLAIN.indexOf(' gauge'), end: PLAIN.indexOf(' note') };
          const moved = spanIn(line, from, to);
          if (moved) assert.match(now.slice(moved.start, moved.end), /^ gauge\s+42\s+AWG\s+$/);
        },
      ),
    );
  });
});
