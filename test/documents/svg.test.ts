import assert from 'node:assert/strict';
import fc from 'fast-check';
import { coordinate, d, element, escapeText, render } from '../../server/src/documents/svg.ts';
import { readSvg } from './svg-reading.ts';

describe('the SVG writer', () => {
  it('escapes what would be markup', () => {
    const svg = render(element('text', { class: '"><script>' }, '</text><script>alert(1)</script>&'));
    const root = readSvg(svg);
    assert.equal(root.name, 'text');
    assert.equal(root.children.length, 0);
    assert.equal(root.text, '</text><script>alert(1)</script>&');
    assert.equal(root.attributes.class, '"><script>');
  });

  it('writes out what would be invisible or turn the line round', () => {
    assert.equal(escapeText('a\u202Eb'), 'a[U+202E]b');
    assert.equal(escapeText('\u2066x\u2069'), '[U+2066]x[U+2069]');
    assert.equal(escapeText('a\u0000\u0007\u0085b'), 'a[U+0000][U+0007][U+0085]b');
    assert.equal(escapeText('a\u200Bb\uFEFF'), 'a[U+200B]b[U+FEFF]');
    assert.equal(escapeText('one\r\ntwo\tthree'), 'one two three');
    assert.equal(escapeText('half \uD800 pair'), 'half [U+D800] pair');
  });

  it('leaves writing alone', () => {
    for (const text of ['Größe', '日本語', 'עברית', '4.06 ± 0.03\u202Fk\u03A9', '\u221227\u202FdB', '🎸', 'नमस्ते']) {
      assert.equal(escapeText(text), text);
    }
  });

  it('gives well-formed XML whatever was typed', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const root = readSvg(render(element('text', { class: text }, element('tspan', {}, text))));
        assert.equal(root.name, 'text');
        assert.equal(root.children.length, 1);
      }),
      { numRuns: 150 },
    );
  });

  it('rounds coordinates to a tenth and never writes -0, NaN or an exponent', () => {
    assert.equal(coordinate(12.34999), '12.3');
    assert.equal(coordinate(-0.04), '0');
    assert.equal(coordinate(1 / 3), '0.3');
    assert.equal(coordinate(Number.NaN), '0');
    assert.equal(coordinate(1e-9), '0');
    assert.equal(d`M${1.26} ${2}H${-0.01}`, 'M1.3 2H0');
  });
});
