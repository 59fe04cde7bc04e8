/** Cards as Chromium prints them: pages counted, sizes measured, accessibility checked by axe-core. */
import assert from 'node:assert/strict';
import type { Page } from 'playwright-core';
import { photoBytes } from '../../../server/src/cli/files.ts';
import { PAPERS } from '../../../server/src/documents/cards/card-css.ts';
import { handedOverWith, photoCopies } from '../../../server/src/documents/photographs.ts';
import { languageOf } from '../../../server/src/words/languages/language.ts';
import { openTestBrowser, type TestBrowser } from '../../host/browser.ts';
import { accessFaults } from '../../support/axe.ts';
import { glyphsPerPage } from '../../support/pdf-text.ts';
import { single } from '../../support/shop.ts';
import { analysed, cardsOfText, openSheet, pageText, sampleText, show } from './card-bench.ts';

/** Two coils with cover, single coils in an instrument, splits, a tap, a stack, a bass in halves, untraced leads, a lap steel. */
const SHEETS = [
  'hesk-neck',
  'larkspit',
  'quorl',
  'fennel-bridge',
  'cinder-bridge',
  'drummel',
  'foundling',
  'sallowfen',
  'pennywither',
  'yarrow-bridge',
];

/** The paper whose sheet `measure` knows. */
const MEASURED = 'a4';

/** Glyphs of some lines of text: what a page must hold beside its foot to be worth turning to. */
const A_FEW_LINES = 150;

describe('printed cards', () => {
  let browser: TestBrowser;
  let page: Page;
  before(async () => {
    browser = await openTestBrowser();
    page = await openSheet(browser);
  });
  after(() => browser.close());

  for (const [index, sample] of SHEETS.entries()) {
    // Each sample on one of the papers; on both by a wish.
    const papers = PAPERS.filter((_, at) => process.env.ALL_PAPERS === '1' || index % PAPERS.length === at);
    it(`${sample}: one page each on ${papers.join(' and on ')}; no violation in axe-core, nothing out of its place, boxes for a pencil, 8 pt at least`, async () => {
      const cards = cardsOfText(analysed(sample));
      assert.notEqual(cards.length, 0);
      for (const card of cards)
        for (const paper of PAPERS) {
          if (!papers.includes(paper) && paper !== MEASURED) continue;
          const html = await pageText(card, paper);
          await show(page, html);
          // The schematic of an instrument lies on a page of its own.
          const expected = html.includes('class="sideways"') ? 2 : 1;
          if (papers.includes(paper)) assert.equal(await pagesShown(), expected, `${card.title} on ${paper}`);
          if (paper !== MEASURED) continue;
          assert.deepEqual(await accessFaults(page), [], card.title);
          assert.deepEqual(await page.evaluate(measure), [], card.title);
        }
    }).timeout(300_000);
  }

  /** ISO 32000-1, 7.7.3.3: one page object a page. Chromium writes them uncompressed. */
  const pagesShown = async (): Promise<number> => {
    const pdf = await page.pdf({ preferCSSPageSize: true });
    return (pdf.toString('latin1').match(/\/Type\s*\/Page\b/g) ?? []).length;
  };
  const pagesOf = async (html: string): Promise<number> => {
    await show(page, html);
    return await pagesShown();
  };

  for (const sample of ['withen-bridge', 'larkspit', 'foundling'])
    it(`${sample} in German: one page each, nothing out of its place`, async () => {
      for (const card of cardsOfText(analysed(sample), undefined, { t: languageOf('de') })) {
        const html = await pageText(card);
        assert.equal(await pagesOf(html), html.includes('class="sideways"') ? 2 : 1, card.title);
        assert.deepEqual(await page.evaluate(measure), [], card.title);
      }
    }).timeout(300_000);

  for (const [positions, sheets] of [
    [5, 1],
    [10, 1],
    [16, 2],
  ] as const)
    it(`${positions} positions with errors among them: ${sheets === 1 ? 'one page' : `${sheets} pages`}`, async () => {
      for (const paper of PAPERS)
        for (const card of cardsOfText(analysed('larkspit', manyPositions(positions)), ['wiring', 'hand-over'])) {
          if (!card.about.includes('many')) continue;
          const html = await pageText(card, paper);
          assert.match(html, /The spec holds an error/);
          const behind = html.includes('class="sideways"') ? 1 : 0;
          assert.equal(await pagesOf(html), sheets + behind, `${card.title} on ${paper}`);
          assert.deepEqual(
            (await page.evaluate(measure)).filter((each) => !/mm high$/.test(each)),
            [],
            card.title,
          );
        }
    }).timeout(300_000);

  const FAMILY: readonly (readonly [what: string, sample: string, text: string | undefined])[] = [
    ['two coils of long names, twelve positions, faults', 'larkspit', manyCoils(2, 12)],
    ['six coils of long names, fifteen positions, faults', 'larkspit', manyCoils(6, 15)],
    ['several states of one pickup', 'tansy-bridge', undefined],
    ['a kept coil and a new one', 'withen-bridge', undefined],
    ['photographs', 'hesk-neck', undefined],
  ];
  for (const [what, sample, text] of FAMILY)
    it(`${what}: no page holds the foot alone, nor little but the head, and nothing lies out of the sheet`, async () => {
      const analysis = analysed(sample, text);
      const photos = await photoCopies(analysis, handedOverWith(analysis), photoBytes);
      for (const card of cardsOfText(analysis, ['bench', 'wiring', 'hand-over'], { photos }))
        for (const paper of PAPERS) {
          await show(page, await pageText(card, paper));
          const foot = await page.evaluate(() => document.querySelector('footer')?.textContent?.length ?? 0);
          const pages = glyphsPerPage(await page.pdf({ preferCSSPageSize: true }));
          const said = `${card.title} on ${paper}: ${pages.join(', ')} glyphs, ${foot} in the foot`;
          assert.ok(foot > 100 && pages.length > 0, said);
          // Photographs come last, with their captions.
          const few = card.kind === 'hand-over' && photos.size > 0 ? 50 : A_FEW_LINES;
          assert.ok((pages.at(-1) ?? 0) > foot + few, said);
          // A first page that the rest would not fit on holds the banner and the fields alone.
          assert.ok((pages[0] ?? 0) > 600, said);
          const beyond = (await page.evaluate(measure)).filter((each) => each.startsWith('out of the sheet'));
          assert.deepEqual(beyond, [], card.title);
          assert.equal(
            await page.evaluate(() => document.querySelectorAll('.photos img').length),
            card.kind === 'hand-over' ? photos.size : 0,
          );
        }
    }).timeout(300_000);

  it('a card of a spec with a mistake says so before anything else', async () => {
    const swapped = sampleText('hesk-neck')
      .replace('link orange grey', 'link orange pink')
      .replace('ground pink bare', 'ground grey bare');
    const cards = cardsOfText(analysed('hesk-neck', swapped), ['bench']);
    const [bench] = cards;
    assert.ok(bench);
    assert.match(await pageText(bench), /The spec holds an error; settle it before the work/);
    assert.match(await pageText(bench), /phase\/coils-cancel/);
  });
});

/** Coils in one series under a cover, two of them in an instrument; the conductors of the cable are joined to nothing. */
function manyCoils(coils: number, positions: number): string {
  const long = '-of-a-long-name';
  const each = <T>(count: number, of: (index: number) => T) => Array.from({ length: count }, (_, index) => of(index));
  const coil = (index: number) => `  coil c${index}${long} {
    bobbin rod-six
    wire plain-42
    turns 5_000
    wound ${index % 2 === 0 ? 'counterclockwise' : 'clockwise'}
    polarity ${index % 2 === 0 ? 'south-up' : 'north-up'}
    start s${index}${long}
    finish f${index}${long}
  }
`;
  const joins = ['neck', 'bridge', 'neck parallel bridge', 'neck series bridge'];
  return `use "shop.pickup"
pickup big${long} "A pickup whose name goes on ${long}" {
  serial RYD-001
  strings 6
  conductors violet grey pink turquoise
  shield bare
${each(coils, coil).join('')}  cover nickel-silver tied to bare
  hookup {
    hot f${coils - 1}${long}
${each(coils - 1, (index) => `    link f${index}${long} s${index + 1}${long}\n`).join('')}    ground s0${long} bare
  }
}
instrument inst${long} "An instrument of a name that goes on" {
  scale 648 mm
  strings 6 spread 52 mm at bridge, 35 mm at nut
  pickup neck big${long} at 160 mm
  pickup bridge big${long} at 42 mm
  controls {
    volume 500 kohm audio
    tone 250 kohm audio with 22 nF
  }
  selector {
${each(positions, (index) => `    ${index + 1} "way ${index + 1} ${long}" ${joins[index % joins.length]}\n`).join('')}  }
}
`;
}

/** Three single coils in every way to join them, some of them against each other. */
function manyPositions(count: number): string {
  const made = (name: string, wound = 'clockwise') =>
    single(name, {
      head: `  serial RYD-${name}\n  strings 6\n`,
      built: '    bobbin rod-six\n    wire plain-42\n',
      wound,
      inside: '  cover none\n',
    });
  const joins = [
    'neck parallel middle',
    'neck',
    'middle',
    'bridge',
    'neck series bridge',
    'neck parallel bridge',
    'middle parallel bridge',
    'neck parallel middle parallel bridge',
    'neck series middle',
    '(neck series bridge) parallel middle',
  ];
  const lines = Array.from(
    { length: count },
    (_, index) => `    ${index + 1} "way ${index + 1}" ${joins[index % joins.length]}\n`,
  );
  return `use "shop.pickup"\n${made('wren')}${made('lark', 'counterclockwise')}${made('heron')}instrument many {
  scale 648 mm
  strings 6 spread 52 mm at bridge, 35 mm at nut
  pickup neck wren at 160 mm
  pickup middle lark at 100 mm
  pickup bridge heron at 42 mm
  controls {
    volume 500 kohm audio
    tone 250 kohm audio with 22 nF
  }
  selector {
${lines.join('')}  }
}
`;
}

/** Runs in the page: what stands out of the sheet, boxes too small, type too small. Lengths in mm, type in pt. */
function measure(): readonly string[] {
  const mm = 25.4 / 96;
  const main = document.querySelector('main');
  if (!main) return ['no main'];
  main.style.width = '186mm';
  const right = main.getBoundingClientRect().right + 1;
  const problems: string[] = [];
  for (const element of main.querySelectorAll('*')) {
    const box = element.getBoundingClientRect();
    const name = `${element.tagName} ${(element.textContent ?? '').slice(0, 40)}`;
    if (box.right > right && element.closest('.sideways') === null) problems.push(`out of the sheet: ${name}`);
    const isText = [...element.childNodes].some(
      (node) => node.nodeType === 3 && (node.textContent ?? '').trim() !== '',
    );
    const hidden = element.closest('title, desc, style') !== null;
    if (isText && !hidden) {
      const svg = element.closest('svg');
      const scale = svg ? svg.getBoundingClientRect().width / (svg.viewBox.baseVal.width || 1) : 1;
      const points = Number.parseFloat(getComputedStyle(element).fontSize) * scale * 0.75;
      if (points < 7.99) problems.push(`type of ${points.toFixed(1)} pt: ${name}`);
    }
  }
  for (const cell of main.querySelectorAll('td.box')) {
    const style = getComputedStyle(cell, '::before');
    const [width, height] = [Number.parseFloat(style.width) * mm, Number.parseFloat(style.height) * mm];
    if (width < 18.9 || height < 4.55) problems.push(`box of ${width.toFixed(1)} x ${height.toFixed(1)} mm`);
  }
  const behind = main.querySelector('.sideways')?.getBoundingClientRect().height ?? 0;
  const height = (main.getBoundingClientRect().height - behind) * mm;
  if (height > 257) problems.push(`${height.toFixed(0)} mm high`);
  return problems;
}
