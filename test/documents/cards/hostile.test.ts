/** Whatever stands in titles, notes, names and fields comes out as text that can be read and does nothing. */
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import type { Page } from 'playwright-core';
import { openTestBrowser, type TestBrowser } from '../../host/browser.ts';
import { analysed, cardsOfText, openSheet, POLICY, pageText, sampleText, show, showUnderPolicy } from './card-bench.ts';

const HOSTILE: readonly (readonly [name: string, text: string])[] = [
  ['markup', '<script>alert(1)</script><img src=x onerror=alert(1)>'],
  ['an end of the sheet', '</style></bdi></main><style>body{display:none}</style>'],
  ['quotes', `' \\" onmouseover=alert(1) x=\\"`],
  ['entities', '&lt;b&gt; &amp; &#60;i&#62; &quot'],
  ['marks that turn the direction', 'abc\u202Ehtnys\u2066\u200Fxyz'],
  ['control characters', 'bell \u0007 escape \u001B[2J'],
  ['three hundred letters', 'Nettle '.repeat(43)],
  ['three hundred letters in one word', 'w'.repeat(300)],
  ['right-to-left letters', 'שלום עולם'],
];

const specWith = (text: string): string =>
  sampleText('hesk-neck')
    .replace('"Hesk, neck"', `"${text}"`)
    .replace('"Sorrel, customer 12"', `"${text}"`)
    .replace('"both coils new, one spool, matched by turns"', `"${text}"`);

describe('hostile text on cards', () => {
  let browser: TestBrowser;
  let page: Page;
  before(async () => {
    browser = await openTestBrowser();
    page = await openSheet(browser);
  });
  after(() => browser.close());

  for (const [name, text] of HOSTILE)
    it(name, async () => {
      const cards = cardsOfText(analysed('hesk-neck', specWith(text)), undefined, {
        file: text,
        handOverFields: [{ title: text, text }],
      });
      assert.equal(cards.length, 7);
      for (const [index, card] of cards.entries()) {
        const html = await pageText(card);
        assert.doesNotMatch(html, /(?![\n])[\p{Cc}\u202A-\u202E\u2066-\u2069\u200E\u200F]/u, card.title);
        // The policy is of the same form on all of them: see below.
        await (index === 0 ? showUnderPolicy : show)(page, html);
        const seen = await page.evaluate(() => {
          const all = [...document.querySelectorAll('*')];
          return {
            elements: [...new Set(all.map(({ localName }) => localName))],
            handlers: all.flatMap((each) =>
              each.getAttributeNames().filter((attribute) => /^on|^style$|href|src/.test(attribute)),
            ),
            styles: document.querySelectorAll('style').length,
            shown: (document.querySelector('main')?.getBoundingClientRect().height ?? 0) > 100,
            wide: document.documentElement.scrollWidth > window.innerWidth,
            text: document.body.textContent ?? '',
          };
        });
        assert.ok(!seen.elements.some((each) => ['script', 'img', 'iframe', 'a', 'link'].includes(each)), card.title);
        assert.deepEqual(seen.handlers, [], card.title);
        assert.deepEqual([seen.styles, seen.shown, seen.wide], [1, true, false], card.title);
        if (name === 'markup') assert.match(seen.text, /<script>alert\(1\)<\/script>/, card.title);
      }
    }).timeout(300_000);

  it('a page asks for nothing and admits only its own sheet', async () => {
    for (const card of cardsOfText(analysed('hesk-neck'))) {
      const html = await pageText(card);
      const sheets = [...html.matchAll(/<style>([^<]*)<\/style>/g)].map(([, sheet = '']) => sheet);
      assert.equal(sheets.length, 1);
      // W3C Content Security Policy Level 3, 2.3.1: the digest of the sheet's own text.
      const digest = createHash('sha256')
        .update(sheets[0] ?? '')
        .digest('base64');
      const policy = `default-src 'none'; style-src 'sha256-${digest}'; base-uri 'none'; form-action 'none'`;
      assert.equal(POLICY.exec(html)?.[1], policy, card.title);
      assert.doesNotMatch(html, /https?:\/\/(?!www\.w3\.org\/2000\/svg)|url\(|@import|<script/);
    }
  });

  it('gives the same bytes each time', async () => {
    const pages = () => Promise.all(cardsOfText(analysed('quorl')).map((card) => pageText(card)));
    assert.deepEqual(await pages(), await pages());
  });
});
