import assert from 'node:assert/strict';
import { fitText, textWidth, WIDTH_RESERVE, wrapText } from '../../server/src/documents/text-width.ts';

describe('text width', () => {
  /** Measured by a browser's canvas in Liberation Sans, px. */
  const measured: readonly (readonly [text: string, size: number, bold: boolean, width: number])[] = [
    ['the way a coil was wound', 12, false, 136.07],
    ['TQ turquoise', 12, false, 69.36],
    ['Größe ångström', 12, false, 87.36],
    ['ground', 14, true, 48.21],
    ['4.06 ± 0.03 k\u03A9', 14, true, 92.86],
    ['Heron, bridge', 19, true, 123.51],
  ];
  for (const [text, size, bold, width] of measured) {
    it(`${text} is as wide as a browser draws it, plus the reserve`, () => {
      const bare = textWidth(text, { size, bold }) / WIDTH_RESERVE;
      // Kerning of pairs is left out of the table; it takes at most a hundredth here.
      assert.ok(Math.abs(bare / width - 1) < 0.01, bare.toFixed(2));
    });
  }

  it('shortens with an ellipsis only what does not fit', () => {
    assert.equal(fitText('slug coil', 200, { size: 12 }), 'slug coil');
    const short = fitText('a very long name of a pickup', 80, { size: 12 });
    assert.match(short, /\u2026$/);
    assert.ok(textWidth(short, { size: 12 }) <= 80);
  });

  it('wraps at spaces and keeps every word', () => {
    const text = 'Swap the two at the joints: brown to violet, gold to grey.';
    const lines = wrapText(text, 120, { size: 12 });
    assert.equal(lines.join(' '), text);
    for (const line of lines) assert.ok(textWidth(line, { size: 12 }) <= 120);
    assert.deepEqual(wrapText('', 100, { size: 12 }), []);
  });

  it('gives marks no width of their own and full-width letters their square', () => {
    assert.equal(textWidth('e\u0301', { size: 12 }), textWidth('e', { size: 12 }));
    assert.equal(textWidth('日', { size: 10 }), 10 * WIDTH_RESERVE);
  });
});
