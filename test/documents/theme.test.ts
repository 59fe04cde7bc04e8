import assert from 'node:assert/strict';
import { drawingCss, INK_SHARE, PALETTES, type ThemeName, type Token } from '../../server/src/documents/theme.ts';
import { contrast, mix } from './contrast.ts';

/**
 * Contrast of each token, the worse of paper and body, by the definition of WCAG 2.2 (relative luminance and contrast ratio).
 * The numbers were worked out by a separate script. `faint` is measured on paper: it never carries meaning.
 */
const TABLE: Readonly<Record<ThemeName, Readonly<Partial<Record<Token, number>>>>> = {
  light: { ink: 13.6, ink2: 5.5, line: 4.0, live: 6.0, find: 5.6, faint: 1.4 },
  dark: { ink: 9.7, ink2: 6.2, line: 4.5, live: 6.7, find: 6.3, faint: 1.7 },
  'hc dark': { ink: 21, ink2: 16.8, line: 11.5, live: 10.5, find: 10.5, faint: 4.2 },
  'hc light': { ink: 21, ink2: 14.5, line: 8.5, live: 9.0, find: 8.4, faint: 3.5 },
};

describe('the palette', () => {
  it('measures black on white as 21 and a colour on itself as 1', () => {
    assert.equal(contrast('#000000', '#ffffff'), 21);
    assert.equal(contrast('#777777', '#777777'), 1);
    // WCAG's own example of a grey that just passes: #767676 on white is 4.54.
    assert.equal(contrast('#767676', '#ffffff').toFixed(2), '4.54');
  });

  for (const theme of ['light', 'dark', 'hc dark', 'hc light'] as const) {
    for (const token of ['ink', 'ink2', 'line', 'live', 'find', 'faint'] as const) {
      it(`${theme}: ${token}`, () => {
        const palette = PALETTES[theme];
        const onBody = token === 'faint' ? Number.POSITIVE_INFINITY : contrast(palette[token], palette.body);
        const measured = Math.min(contrast(palette[token], palette.paper), onBody);
        assert.ok(Math.abs(measured - (TABLE[theme][token] ?? 0)) <= 0.06, measured.toFixed(2));
      });
    }
  }

  it('keeps text at 4.5 and graphics at 3, on paper and on body', () => {
    for (const palette of Object.values(PALETTES)) {
      for (const ground of [palette.paper, palette.body]) {
        for (const token of ['ink', 'ink2', 'live', 'find'] as const)
          assert.ok(contrast(palette[token], ground) >= 4.5);
        assert.ok(contrast(palette.line, ground) >= 3);
      }
    }
  });

  it('keeps them when mixed from an ink of 7:1 or more', () => {
    const grounds = ['#ffffff', '#fdf6e3', '#1e1e1e', '#282c34', '#000000', '#0b2239'];
    const inks = [
      '#000000',
      '#1f2328',
      '#333333',
      '#444444',
      '#2b3a1e',
      '#ffffff',
      '#d4d4d4',
      '#c5c8c6',
      '#e8d9b0',
      '#b8d4ff',
    ];
    const pairs = grounds
      .flatMap((paper) => inks.map((ink) => ({ ink, paper })))
      .filter(({ ink, paper }) => contrast(ink, paper) >= 7);
    assert.ok(pairs.length >= 20);
    for (const { ink, paper } of pairs) {
      const body = mix(ink, paper, INK_SHARE.body);
      for (const ground of [paper, body]) {
        assert.ok(contrast(mix(ink, paper, INK_SHARE.ink2), ground) >= 4.5, `ink2 of ${ink} on ${ground}`);
        assert.ok(contrast(mix(ink, paper, INK_SHARE.line), ground) >= 3, `line of ${ink} on ${ground}`);
      }
    }
  });

  it('takes paper, ink, links and findings from the editor', () => {
    const css = drawingCss();
    assert.match(css, /--paper: var\(--vscode-editor-background, #ffffff\)/);
    assert.match(css, /--ink: var\(--vscode-editor-foreground, #d4d4d4\)/);
    assert.match(css, /--live: var\(--vscode-textLink-foreground, #6fc3df\)/);
    assert.match(css, /--find: var\(--vscode-editorError-foreground, #9c1006\)/);
  });

  it('has no animation and loads nothing', () => {
    assert.doesNotMatch(drawingCss(), /url\(|@import|animation|transition|</);
  });
});
