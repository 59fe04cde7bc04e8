import assert from 'node:assert/strict';
import { displayWidth, jsonText, visible, visibleLines } from '../../server/src/cli/visible.ts';

describe('text from a spec in a terminal', () => {
  const cases: readonly (readonly [text: string, shown: string])[] = [
    ['Hesk, neck, 7.3 kΩ ± 5 µm 😀 é', 'Hesk, neck, 7.3 kΩ ± 5 µm 😀 é'],
    ['\u001b[2J\u001b]0;title\u0007', '␛[2J␛]0;title␇'],
    ['a\u0000b\u007fc', 'a␀b␡c'],
    ['\u009b31m', '<U+009B>31m'],
    ['abc\u202Edcba\u2066x\u2069', 'abc<U+202E>dcba<U+2066>x<U+2069>'],
    ['\u200F\u200E\u061C\u200B\u2028', '<U+200F><U+200E><U+061C><U+200B><U+2028>'],
    ['\uD83D alone', '\uFFFD alone'],
    ['👩\u200D🔧', '👩\u200D🔧'],
    ['\uFEFF\u00AD', '<U+FEFF><U+00AD>'],
  ];
  for (const [text, shown] of cases) {
    it(`${JSON.stringify(text)} shows as ${shown}`, () => assert.equal(visible(text), shown));
  }

  it('of several lines keeps its lines', () => assert.equal(visibleLines('a\r\nb\u0007\nc'), 'a\nb␇\nc'));

  it('as JSON is the same text and holds nothing that steers a terminal', () => {
    const text = 'Ω\u202E\u001b[31m\u009b\u007f\u2028😀\u{E0001}';
    const json = jsonText({ text });
    assert.deepEqual(JSON.parse(json), { text });
    assert.doesNotMatch(json, /(?!\n)[\p{Cc}\p{Cf}\u2028]/u);
  });

  // Cells by Unicode Standard Annex 11 (wide) and by the default presentation of emoji (Unicode Technical Standard 51).
  const widths: readonly (readonly [text: string, cells: number])[] = [
    ['7.3 kΩ', 6],
    ['5 µm', 4],
    ['😀', 2],
    ['👩\u200D🔧', 2],
    ['e\u0301', 1],
    ['中文', 4],
    ['', 0],
  ];
  for (const [text, cells] of widths) {
    it(`${JSON.stringify(text)} takes ${cells} cells`, () => assert.equal(displayWidth(text), cells));
  }
});
