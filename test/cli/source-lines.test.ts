import assert from 'node:assert/strict';
import { lineMap } from '../../server/src/cli/line-map.ts';
import { markedLines } from '../../server/src/cli/source-lines.ts';

/** The piece between « and » is the marked one; the marks must stand under it as a reader sees it. */
function marked(text: string): readonly string[] {
  const start = text.indexOf('«');
  const end = text.indexOf('»') - 1;
  const lines = lineMap(text.replace(/[«»]/g, ''));
  return markedLines(lines, lines.range(start, end), '━').flatMap((line) => [line.text, line.marks]);
}

describe('marks under a source line', () => {
  it('stand under the piece', () => {
    assert.deepEqual(marked('coil slug {\n  turns «4900»\n}'), ['  turns 4900', '        ━━━━']);
  });
  it('count an emoji as the two cells that it takes, not as its UTF-16 units or code points', () => {
    assert.deepEqual(marked('note "👩\u200D🔧 Ω µ" «x»'), ['note "👩\u200D🔧 Ω µ" x', `${' '.repeat(14)}━`]);
  });
  it('count a combining accent as nothing', () => {
    assert.deepEqual(marked('note "cafe\u0301" «x»'), ['note "cafe\u0301" x', `${' '.repeat(12)}━`]);
  });
  it('stand right after tabs and after what is shown instead of a hidden character', () => {
    assert.deepEqual(marked('\tturns \u202E«4900»'), ['    turns <U+202E>4900', `${' '.repeat(18)}━━━━`]);
  });
  it('are at least one where the piece is empty, at the end of a line too', () => {
    assert.deepEqual(marked('turns «»'), ['turns', '      ━']);
  });
  it('of several lines end with the third', () => {
    assert.deepEqual(marked('«a {\n  b\n  c\n  d\n}»'), ['a {', '━━━', '  b', '  ━', '  c', '  ━']);
  });
  it('of a line of 100,000 characters show the neighbourhood, cut at whole characters', () => {
    const [text = '', marks = ''] = marked(`${'😀'.repeat(50_000)}«here»${'x'.repeat(50_000)}`);
    assert.ok(text.length < 200 && text.startsWith('… 😀') && text.endsWith('x …'));
    assert.doesNotMatch(text, /[\uD800-\uDFFF](?![\uDC00-\uDFFF])(?<![\uD800-\uDBFF][\uDC00-\uDFFF])/);
    assert.match(marks, /^ +━{4}$/);
  });
});

describe('lines of a text', () => {
  it('end at LF, CRLF and CR alone, as editors count them', () => {
    const lines = lineMap('a\r\nbb\rccc\n');
    assert.equal(lines.lineCount, 4);
    assert.deepEqual([0, 1, 2, 3, 4].map(lines.line), ['a', 'bb', 'ccc', '', '']);
    assert.deepEqual(lines.position(3), { line: 1, character: 0 });
    assert.deepEqual(lines.position(8), { line: 2, character: 2 });
    assert.deepEqual(lines.position(99), { line: 3, character: 0 });
  });
  it('count characters in UTF-16 units', () => {
    assert.deepEqual(lineMap('Ω😀x').position(3), { line: 0, character: 3 });
  });
});
