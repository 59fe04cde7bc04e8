import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { planView } from '../../server/src/lsp/plan-view.ts';
import { languageOf } from '../../server/src/words/languages/language.ts';
import { accessFaults } from '../support/axe.ts';
import { leftInEnglish } from '../support/left-in-english.ts';
import { analysedText } from '../support/sample-files.ts';
import {
  type BenchHarness,
  type BenchPage,
  bench,
  type Shown,
  showAll,
  startHarness,
  THEMES,
  type Theme,
  until,
} from './bench-view-harness.ts';

const QUORL = { kind: 'instrument', name: 'quorl' } as const;
const OTTLEWICK = { kind: 'pickup', name: 'ottlewick-neck' } as const;
const sample = (name: string): string =>
  readFileSync(path.resolve(import.meta.dirname, `../../samples/${name}.pickup`), 'utf8');

describe('the bench view in a browser', function () {
  // The first drawing of an instrument computes its inductances.
  this.timeout(300_000);
  let harness: BenchHarness;
  let instrument: Shown;
  let pickup: Shown;
  let compared: Shown;
  /** The screw coil was wound lighter before, and its path ran the other way. */
  const past = sample('ottlewick-neck')
    .replace('turns 8_200 ± 20', 'turns 5_000 ± 20')
    .replace('start to orange', 'start to violet')
    .replace('finish to violet', 'finish to orange');
  before(async () => {
    harness = await startHarness();
    instrument = await bench('quorl').shown(QUORL, { position: 'quorl/2' });
    pickup = await bench('ottlewick-neck').shown(OTTLEWICK);
    compared = await bench('ottlewick-neck').shown(OTTLEWICK, { before: past });
  });
  after(() => harness.close());

  const opened = async (shown: Shown, options: Parameters<BenchHarness['open']>[0] = {}): Promise<BenchPage> => {
    const view = await harness.open(options);
    await showAll(view, shown);
    return view;
  };

  it('speaks German, the comma in its numbers, and nothing stands out of a narrow page', async () => {
    const t = languageOf('de');
    const german = [
      await bench('quorl').shown(QUORL, { position: 'quorl/2', t, width: 390 }),
      await bench('ottlewick-neck').shown(OTTLEWICK, { before: past, t, width: 390 }),
      await bench('foundling').shown({ kind: 'pickup', name: 'foundling' }, { t, width: 390 }),
    ];
    for (const shown of german) {
      const { page, close } = await opened(shown, { width: 390, language: 'de' });
      const said = await page.evaluate(() => {
        // What a spec says, and findings that are told in English yet.
        const english = 'code, .lk, .settled .q, .changes, option, h1, bdi, style, [lang="en"], .rev';
        const copy = document.querySelector('main')?.cloneNode(true) as HTMLElement;
        for (const each of copy.querySelectorAll(english)) each.remove();
        const texts = document.createTreeWalker(copy, NodeFilter.SHOW_TEXT);
        const said = [...copy.querySelectorAll('[aria-label]')].map((each) => each.getAttribute('aria-label') ?? '');
        while (texts.nextNode()) said.push(texts.currentNode.textContent ?? '');
        return said.join(' ').replace(/\s+/g, ' ');
      });
      assert.deepEqual(
        leftInEnglish(said, ['shop', 'quorl', 'ottlewick-neck', 'foundling'].map(sample).join('\n')),
        [],
      );
      assert.ok(/[a-zäöü]/.test(said) && /\d,\d/.test(said));
      const [wide, whole] = await page.evaluate(
        () => [document.documentElement.scrollWidth, window.innerWidth] as const,
      );
      assert.ok(wide <= whole, `${wide} px in ${whole}`);
      close();
    }
  });

  it('shows photographs with what they show as words, larger by keyboard, and why one is not there', async () => {
    const { page, post, sent, close } = await opened(pickup);
    const caption = '<b>leads</b> as found';
    const range = { start: { line: 6, character: 2 }, end: { line: 6, character: 9 } };
    await post({
      type: 'section',
      render: 1,
      content: {
        section: 'photos',
        photos: [
          { caption, of: 'screw coil', uri: '/photo.png', width: 64, height: 48, range },
          { caption: 'the break', why: 'There is no photograph b.jpg.' },
        ],
      },
    });
    const section = page.locator('section[aria-label="Photographs"]');
    const image = section.getByRole('img', { name: caption });
    await image.scrollIntoViewIfNeeded();
    await until(page, `document.querySelector('.photos img')?.naturalWidth === 64`);
    assert.match((await section.textContent()) ?? '', /<b>leads<\/b> as found, screw coil/);
    assert.match((await section.textContent()) ?? '', /There is no photograph b\.jpg\./);
    const button = section.getByRole('button', { name: caption });
    await button.focus();
    const small = (await image.boundingBox())?.width ?? 0;
    await button.press('Enter');
    assert.ok(((await image.boundingBox())?.width ?? 0) > 2 * small);
    assert.equal(await button.getAttribute('aria-pressed'), 'true');
    await section.getByRole('button', { name: 'line 7' }).click();
    assert.ok((await sent()).some((each) => each.type === 'reveal line' && each.line === 6));
    close();
  });

  it('what if: knobs move by keyboard, estimates follow at once and exact numbers once they rest; nothing is written unasked', async () => {
    const { page, post, sent, close } = await opened(pickup);
    const turns = {
      id: 'screw.turns',
      label: 'screw coil, turns',
      now: 5000,
      slider: { fewest: 4980, most: 5020, step: 10, unit: 'turns' },
      at: [4980, 5020],
      effects: [[0.9, 1.1]],
    };
    const figures = [{ row: 'resistance, kΩ', now: 8, text: '8.00 ± 0.04', decimals: 2, isLevel: false }];
    await post({
      type: 'section',
      render: 1,
      content: { section: 'whatIf', knobs: [turns], figures, stay: ['The slug coil is wound.'] },
    });
    const section = page.locator('section[aria-label="What if"]');
    const slider = section.getByRole('slider', { name: 'screw coil, turns' });
    const write = section.getByRole('button', { name: 'Write into the spec' });
    const row = section.getByRole('row', { name: 'resistance, kΩ' });
    assert.equal(await row.textContent(), 'resistance, kΩ8.00 ± 0.048.00 ± 0.04');
    assert.ok(await write.isDisabled());
    await slider.press('ArrowRight');
    assert.equal(await row.textContent(), 'resistance, kΩ8.00 ± 0.04≈ 8.40');
    assert.match((await slider.getAttribute('aria-valuetext')) ?? '', /^5.010 turns, now 5.000$/);
    await until(page, "harness.sent.some(({ type }) => type === 'what if')");
    const asked = (await sent()).flatMap((each) => (each.type === 'what if' ? [each] : [])).at(-1);
    assert.deepEqual(asked?.settings, { 'screw.turns': 5010 });
    const numbers = {
      caption: '',
      rows: [{ name: 'resistance, kΩ', before: '8.0 ± 0.1', now: '8.4 ± 0.1', change: '+0.4', restsOn: '' }],
    };
    const response = {
      svg: '<svg xmlns="http://www.w3.org/2000/svg"/>',
      leftOut: [],
      strings: [{ name: '5', hz: 110 }],
    };
    const state = { version: 1, numbers, response, come: [{ what: 'It `hums`.' }], settled: [], edits: [] };
    // An answer to an older movement says nothing of this one.
    await post({ type: 'what if', asked: (asked?.asked ?? 0) - 1, state: { ...state, come: [] } });
    assert.ok(await write.isDisabled());
    await post({ type: 'what if', asked: asked?.asked ?? 0, state });
    assert.equal(await row.textContent(), 'resistance, kΩ8.0 ± 0.18.4 ± 0.1+0.4');
    const told = (await section.getByRole('status').first().textContent()) ?? '';
    assert.match(told, /resistance, kΩ: 8\.0 ± 0\.1 now, 8\.4 ± 0\.1 what if\./);
    assert.match(told, /It would bring: It hums\./);
    assert.deepEqual(await accessFaults(page), []);
    await section.getByRole('button', { name: 'Pluck' }).press('Enter');
    assert.deepEqual((await sent()).at(-1), { type: 'sound', frequencyHz: 110, settings: { 'screw.turns': 5010 } });
    await write.press('Enter');
    assert.equal((await sent()).at(-1)?.type, 'write what if');
    await section.getByRole('button', { name: 'Reset' }).press('Enter');
    assert.equal(await slider.inputValue(), '5000');
    assert.ok(await write.isDisabled());
    assert.equal(await section.getByRole('status').first().textContent(), '');
    close();
  });

  it('shows findings, schematic, numbers with ±, response, positions and readings still missing', async () => {
    const { page, close } = await opened(instrument);
    assert.equal(
      await page.locator('section[aria-label="Findings"] .find').count(),
      Math.max(instrument.drawing.findings.length, 1),
    );
    assert.equal(await page.locator('.sheet-frame:visible svg').count(), 1);
    const rows = await page.locator('.numbers tbody tr').allTextContents();
    assert.ok(
      rows.some((row) => /^resistance at the jack, kΩ.*\d ± 0\.\d+$/.test(row)),
      rows.join(' | '),
    );
    assert.ok(await page.locator('section[aria-label="Response"] svg').isVisible());
    assert.ok(await page.locator('section[aria-label="Positions"] svg').isVisible());
    assert.match((await page.locator('section[aria-label="Readings"]').textContent()) ?? '', /position 2 … kohm/);
    close();
  });

  it('of a pickup with something open shows the one reading to take next, and nothing where nothing is open', async () => {
    const open = await opened(await bench('foundling').shown({ kind: 'pickup', name: 'foundling' }));
    const section = open.page.locator('section[aria-label="Measure next"]');
    assert.match(
      (await section.textContent()) ?? '',
      /^Measure nextInductance\. Inductance meter at 1.kHz.*About 2.min of handling\. Write: inductance hot to ground … H at 1.kHz/,
    );
    open.close();
    const closed = await opened(await bench('hesk-neck').shown({ kind: 'pickup', name: 'hesk-neck' }));
    assert.ok(await closed.page.locator('section[aria-label="Measure next"]').isHidden());
    closed.close();
  });

  it('sets what a finding quotes from the spec as code, and shows no mark of it; what it quotes stays text', async () => {
    const range = { start: { line: 3, character: 0 }, end: { line: 3, character: 4 } };
    const message = 'Say `hot <b>violet</b>` there, or `ground` alone.';
    const drawing = {
      ...instrument.drawing,
      findings: [{ code: 'circuit/open', severity: 'error', message, range }],
    } as const;
    const { page, close } = await opened({ ...instrument, drawing });
    const item = page.locator('section[aria-label="Findings"] .find').first();
    assert.deepEqual(await item.locator('code').allTextContents(), ['hot <b>violet</b>', 'ground']);
    assert.doesNotMatch((await item.textContent()) ?? '', /`/);
    close();
  });

  it('shows the target and the builds for it, and sends which one is to be written', async () => {
    const proposed = await bench('knapweed-neck').shown({ kind: 'pickup', name: 'knapweed-neck' });
    for (const [theme, width] of [
      ['vscode-light', 1000],
      ['vscode-high-contrast', 360],
    ] as const) {
      const view = await opened(proposed, { theme, width });
      const section = view.page.locator('section[aria-label="Target"]');
      assert.match((await section.textContent()) ?? '', /resistance of 8\.6 kohm ± 0\.4 kohm *not known yet/);
      assert.match((await section.textContent()) ?? '', /Build 1, odds .*RYD-W9 on rod-six.*reached/);
      assert.deepEqual(await accessFaults(view.page), []);
      assert.ok(await view.page.evaluate<boolean>('document.documentElement.scrollWidth <= innerWidth'));
      await section.getByRole('button', { name: 'Use this: write build 1 into the spec' }).press('Enter');
      assert.deepEqual((await view.sent()).at(-1), { type: 'use build', index: 0 });
      view.close();
    }
  });

  it('shows what to solder where nothing is wired yet, in German too, and sends that it be written', async () => {
    const unwired = sample('yarrowby').replace(/\n {2}wiring \{[^}]*\}\n/, '\n');
    const now = analysedText(unwired, 'yarrowby.pickup');
    const document = TextDocument.create(now.uri, 'pickup', 1, unwired);
    const subject = { kind: 'instrument', name: 'yarrowby' } as const;
    for (const [language, theme, width, says] of [
      [
        'en',
        'vscode-dark',
        1000,
        /19\swires, and\snone\shas\sfewer\..*solder.*lever\.b0.*link middle\.gold lever\.b2 lever\.b3/s,
      ],
      ['de', 'vscode-high-contrast-light', 390, /19\sDrähte, und keine hat weniger\..*löten.*hot lever\.a0 lever\.b0/s],
    ] as const) {
      const view = await opened(instrument, { theme, width, language });
      const states = { t: languageOf(language), document, now, before: undefined };
      const content = planView(states, { subject, width, pots: {} });
      await view.post({ type: 'section', render: 1, content: { section: 'plan', ...content } });
      const section = view.page.locator(
        `section[aria-label="${language === 'de' ? 'Geplante Verdrahtung' : 'Planned wiring'}"]`,
      );
      assert.match((await section.textContent()) ?? '', says);
      await section.locator('details').evaluateAll((all) => {
        for (const each of all) each.setAttribute('open', '');
      });
      assert.deepEqual(await accessFaults(view.page), []);
      assert.ok(await view.page.evaluate<boolean>('document.documentElement.scrollWidth <= innerWidth'));
      await section.getByRole('button').first().press('Enter');
      assert.deepEqual((await view.sent()).at(-1), { type: 'write plan' });
      view.close();
    }
  });

  // Each theme on one of the two; both in all of them by a wish.
  for (const [index, theme] of (Object.keys(THEMES) as Theme[]).entries()) {
    const isWhole = process.env.ALL_THEMES === '1';
    for (const [at, of] of (['an instrument', 'a comparison'] as const).entries())
      if (isWhole || index % 2 === at)
        it(`${theme}: axe finds no fault of ${of}`, async () => {
          const view = await opened(at === 0 ? instrument : compared, { theme });
          assert.deepEqual(await accessFaults(view.page), []);
          view.close();
        });
  }

  it('a frame around the part that the cursor is in runs through no word', async () => {
    for (const [shown, width] of [
      [pickup, 1000],
      [pickup, 420],
      [instrument, 1000],
    ] as const) {
      const { page, post, close } = await opened(shown, { width });
      let framed = 0;
      for (const part of shown.drawing.parts) {
        await post({ type: 'highlight', part });
        const struck = await page.evaluate<
          readonly string[]
        >(`[...document.querySelectorAll('.frame')].flatMap((frame) => {
          const points = Array.from({ length: Math.floor(frame.getTotalLength()) + 1 }, (_, at) => frame.getPointAtLength(at));
          return [...frame.closest('svg').querySelectorAll('text')].filter((text) => {
            const { x, y, width, height } = text.getBBox();
            return points.some((point) => point.x > x && point.x < x + width && point.y > y && point.y < y + height);
          }).map((text) => text.textContent);
        })`);
        assert.deepEqual(struck, [], part);
        framed += await page.locator('.frame').count();
      }
      assert.ok(framed > 5, `${framed} frames`);
      await post({ type: 'highlight', part: undefined });
      assert.equal(await page.locator('.frame').count(), 0);
      close();
    }
  });

  it('position and pots stay in sight, and hide where there are none', async () => {
    const { page, post, close } = await opened(instrument);
    await page.evaluate('document.scrollingElement.scrollTo(0, 1200)');
    const at = (await page.locator('.ctl').boundingBox())?.y;
    assert.equal(at, 0);
    await post({ type: 'drawing', render: 2, drawing: pickup.drawing, part: undefined });
    assert.equal(await page.locator('.ctl').isVisible(), false);
    close();
  });

  it('positions and pots are turned by the keyboard, and say where they stand', async () => {
    const view = await opened(instrument);
    await view.page.locator('.seg input:checked').first().focus();
    await view.page.keyboard.press('ArrowRight');
    const slider = view.page.locator('input[type="range"]').first();
    await slider.focus();
    await view.page.keyboard.press('ArrowLeft');
    assert.equal(await slider.getAttribute('aria-valuetext'), '9.5 of 10');
    const sent = await view.sent();
    assert.deepEqual(
      sent.filter(({ type }) => type === 'position'),
      [{ type: 'position', position: 'quorl/3' }],
    );
    assert.deepEqual(
      sent.filter(({ type }) => type === 'pots'),
      [{ type: 'pots', pots: { volume: 9.5, tone: 10 } }],
    );
    view.close();
  });

  it('each control of a slot, and a blend, has a slider of its own by its name; the one in hand stays when the drawing follows', async () => {
    const knobs = [
      { id: 'neck.volume', label: 'neck volume', rest: 10 },
      { id: 'bridge.volume', label: 'bridge volume', rest: 10 },
      { id: 'blend', label: 'blend, neck to bridge', rest: 5 },
    ];
    const view = await opened({ ...instrument, drawing: { ...instrument.drawing, knobs, pots: {} } });
    const slider = (name: string) => view.page.getByRole('slider', { name });
    assert.equal(await slider('blend, neck to bridge').getAttribute('aria-valuetext'), '5 of 10');
    await slider('neck volume').focus();
    await view.page.keyboard.press('ArrowLeft');
    const pots = { 'neck.volume': 9.5, 'bridge.volume': 10, blend: 5 };
    assert.deepEqual(
      (await view.sent()).filter(({ type }) => type === 'pots'),
      [{ type: 'pots', pots }],
    );
    await view.post({ type: 'drawing', render: 2, drawing: { ...instrument.drawing, knobs, pots }, part: undefined });
    await view.page.keyboard.press('ArrowLeft');
    assert.equal(await slider('neck volume').getAttribute('aria-valuetext'), '9 of 10');
    assert.equal(await slider('bridge volume').getAttribute('aria-valuetext'), '10 of 10');
    assert.deepEqual(await accessFaults(view.page), []);
    view.close();
  });

  it('never goes back: an older drawing and sections of an older drawing are dropped', async () => {
    const view = await opened(pickup);
    await view.post({ type: 'drawing', render: 5, drawing: pickup.drawing, part: undefined });
    await view.post({ type: 'drawing', render: 4, drawing: instrument.drawing, part: undefined });
    assert.equal(await view.page.locator('h1').textContent(), 'ottlewick-neck');
    const numbers = instrument.sections.find(({ section }) => section === 'numbers');
    assert.ok(numbers);
    await view.post({ type: 'section', render: 4, content: numbers });
    assert.equal(await view.page.locator('.numbers caption').textContent(), 'Numbers');
    view.close();
  });

  it('a drawing that follows another is the same as on a fresh page; what is drawn as before stays the same element', async () => {
    const drawn = (view: BenchPage) => view.page.locator('.sheet-frame > svg:visible').evaluate((svg) => svg.outerHTML);
    const retitled = await bench(
      'ottlewick-neck',
      sample('ottlewick-neck').replace('turns 8_200', 'turns 8_100'),
    ).shown(OTTLEWICK);
    const view = await opened(instrument);
    for (const [at, next] of [pickup, retitled, instrument].entries()) {
      await view.post({ type: 'drawing', render: 2 + at, drawing: next.drawing, part: undefined });
      const fresh = await opened(next);
      assert.equal(await drawn(view), await drawn(fresh));
      fresh.close();
    }
    const texts = view.page.locator('.sheet-frame > svg:visible text');
    await texts.first().evaluate((text) => Object.assign(text, { kept: true }));
    const svg = instrument.drawing.svg?.replace(/(<text[^>]*>)[^<]+/, '$1Another title') ?? '';
    await view.post({ type: 'drawing', render: 9, drawing: { ...instrument.drawing, svg }, part: undefined });
    assert.deepEqual(await texts.first().evaluate((text) => [text.textContent, Reflect.get(text, 'kept')]), [
      'Another title',
      true,
    ]);
    view.close();
  });

  it('broken text: the last drawing stays, the bar names the line', async () => {
    const view = await opened(pickup);
    const broken = { ...pickup.drawing, broken: { line: 6 } };
    await view.post({ type: 'drawing', render: 2, drawing: broken, part: undefined });
    assert.match((await view.page.locator('.stale').textContent()) ?? '', /^Line\s7\sdoes not read yet/);
    assert.equal(await view.page.locator('.sheet-frame:visible svg').count(), 1);
    await view.post({ type: 'drawing', render: 3, drawing: pickup.drawing, part: undefined });
    assert.equal(await view.page.locator('.stale').isVisible(), false);
    view.close();
  });

  it('a file with nothing to draw: an invitation, and nothing of the file before', async () => {
    const view = await opened(pickup);
    const empty = await bench('ottlewick-neck', '').shown(OTTLEWICK);
    await showAll(view, { ...empty, drawing: { ...empty.drawing, file: 'empty.pickup' }, sections: [] }, 2);
    assert.equal(await view.page.locator('svg:visible').count(), 0);
    assert.equal(await view.page.locator('.numbers:visible').count(), 0);
    assert.equal(
      await view.page
        .getByText(/No findings|Ottlewick/)
        .filter({ visible: true })
        .count(),
      0,
    );
    await view.page.getByRole('button', { name: 'Begin a pickup' }).click();
    assert.deepEqual((await view.sent()).at(-1), { type: 'begin', index: 0 });
    assert.deepEqual(await accessFaults(view.page), []);
    view.close();
  });

  it('zoom and place are kept over an edit and over a reload', async () => {
    const view = await opened(pickup);
    await view.page.getByRole('button', { name: 'Larger' }).click();
    await view.page.evaluate('document.scrollingElement.scrollTo(0, 300)');
    const edited = await bench('ottlewick-neck', sample('ottlewick-neck').replace('8_200', '8_100')).shown(OTTLEWICK);
    const top = () => view.page.evaluate<number>('document.scrollingElement.scrollTop');
    // A place that was scrolled to is told to the page with its next frame.
    await until(view.page, 'Object.values(harness.state().places)[0] === 300');
    await showAll(view, edited, 2);
    assert.equal(await top(), 300);
    await showAll(view, instrument, 3);
    assert.equal(await top(), 0, 'another thing begins at the top');
    await showAll(view, edited, 4);
    assert.equal(await top(), 300, 'and each is found where it was left');
    assert.equal(await view.page.locator('.zooms .zoom').nth(1).textContent(), '125 %');
    const state = await view.state();
    view.close();
    assert.ok(state);
    assert.deepEqual([state.subject, state.zoom], [OTTLEWICK, 125]);

    const again = await opened(edited, { state });
    assert.equal(await again.page.evaluate('document.scrollingElement.scrollTop'), 300);
    assert.equal(await again.page.locator('.zooms .zoom').nth(1).textContent(), '125 %');
    await again.page.close();
  });

  it('zooms about the pointer, by keys too, and back to the width of the pane by one', async () => {
    const view = await opened(pickup);
    const { page } = view;
    const lead = page.locator('.sheet-frame:visible svg [data-part^="coil:"]').first();
    const centre = async () => {
      const box = await lead.boundingBox();
      assert.ok(box);
      return { x: box.x + box.width / 2, y: box.y + box.height / 2, width: box.width };
    };
    await page.evaluate('document.scrollingElement.scrollTo(0, 200)');
    const before = await centre();
    await page.mouse.move(before.x, before.y);
    await page.keyboard.down('Control');
    await page.mouse.wheel(0, -100);
    await page.keyboard.up('Control');
    await until(page, `document.querySelectorAll('.zooms .zoom')[1].textContent === '125 %'`);
    const after = await centre();
    assert.ok(after.width > before.width * 1.2);
    for (const axis of ['x', 'y'] as const) assert.ok(Math.abs(after[axis] - before[axis]) < 3, axis);
    await page.locator('svg [tabindex="0"]').first().focus();
    await page.keyboard.press('+');
    assert.equal(await page.locator('.zooms .zoom').nth(1).textContent(), '150 %');
    await page.keyboard.press('0');
    assert.equal(await page.locator('.zooms .zoom').nth(1).textContent(), '100 %');
    assert.ok(Math.abs((await centre()).width - before.width) < 1);
    await page.close();
  });

  it('what the drawing tells in words has its number in the list, and its sentence once on the page', async () => {
    const name = 'mistakes/phase-coils-cancel';
    const wrong = await bench(name, sample(name)).shown({ kind: 'pickup', name: 'wrong' });
    const view = await opened(wrong);
    const [item] = await view.page.locator('.finds .find').allTextContents();
    assert.match(item ?? '', /^Fault 1 in the drawing: phase\/coils-cancel/);
    assert.doesNotMatch((await view.page.locator('.finds').textContent()) ?? '', /works against/);
    assert.match((await view.page.locator('svg [data-part="finding:1"]').first().textContent()) ?? '', /works against/);
    view.close();
  });

  it('compare: facts with what they were, settled findings, numbers of both, bars beside changed parts', async () => {
    const view = await opened(compared);
    const { page } = view;
    const facts = await page.locator('section[aria-label="Changed facts"] .change').allTextContents();
    assert.ok(
      facts.some((fact) => /turns 8_200 ± 20.*was turns 5_000 ± 20/.test(fact)),
      facts.join(' | '),
    );
    assert.notEqual(await page.locator('.settled').count(), 0);
    assert.deepEqual(await page.locator('.numbers thead th').allTextContents(), [
      'A the last commit',
      'B now',
      'change',
    ]);
    const turns = page.locator('.numbers tbody tr').filter({ hasText: 'screw coil, turns' });
    assert.deepEqual(await turns.locator('td').allTextContents(), [
      '5\u202F000 ± 20',
      '8\u202F200 ± 20',
      '+3\u202F200',
    ]);
    assert.equal(await page.locator('.sheet-frame svg:visible').count(), 2);
    assert.notEqual(await page.locator('figure:visible .rev').count(), 0);
    await page.getByText('B now', { exact: true }).first().click();
    assert.equal(await page.locator('.sheet-frame svg:visible').count(), 1);
    assert.equal((await view.state())?.side, 'now');
    view.close();
  });

  it('two drawings of one pickup share no id', async () => {
    const { page, close } = await opened(compared);
    const ids = await page.evaluate<string[]>('[...document.querySelectorAll("[id]")].map(({ id }) => id)');
    assert.equal(new Set(ids).size, ids.length);
    close();
  });

  it('a picture is a PNG of the drawing on white paper, whatever the theme', async () => {
    const view = await opened(pickup, { theme: 'vscode-dark' });
    await view.page.getByRole('button', { name: 'PNG' }).click();
    await until(view.page, 'harness.sent.some(({ type }) => type === "picture")');
    const picture = (await view.sent()).find((message) => message.type === 'picture');
    assert.ok(picture?.type === 'picture');
    const png = Buffer.from(picture.png, 'base64');
    assert.equal(png.toString('latin1', 1, 4), 'PNG');
    // Width: the first word of the first chunk (PNG specification, IHDR).
    assert.equal(png.readUInt32BE(16), 1920);
    const corner = await view.page.evaluate<number[]>(`(async () => {
      const bitmap = await createImageBitmap(new Blob([Uint8Array.from(atob(${JSON.stringify(picture.png)}), (c) => c.charCodeAt(0))]));
      const canvas = new OffscreenCanvas(8, 8);
      const context = canvas.getContext('2d');
      context.drawImage(bitmap, 0, 0);
      return [...context.getImageData(2, 2, 1, 1).data];
    })()`);
    assert.deepEqual(corner, [255, 255, 255, 255]);
    view.close();
  });

  it('offers the strings that the spec says', async () => {
    const bass = await bench('ottlewick-neck', sample('ottlewick-neck').replace('strings 6', 'strings 4')).shown(
      OTTLEWICK,
    );
    const view = await opened(bass);
    const strings = view.page.locator('select[aria-label="String"] option');
    assert.deepEqual(await strings.allTextContents(), ['string 4, E1', 'string 3, A1', 'string 2, D2', 'string 1, G2']);
    await showAll(view, pickup, 2);
    assert.equal(await strings.count(), 6);
    view.close();
  });

  it('is silent until it is pressed; switching sides goes on with the same string', async () => {
    const view = await opened(compared);
    const counts = () => view.page.evaluate<number[]>('[harness.contexts, harness.sources]');
    assert.deepEqual(await counts(), [0, 0]);
    await view.page.getByRole('button', { name: 'Pluck' }).click();
    assert.ok((await view.sent()).some(({ type }) => type === 'sound'));
    await view.post({ type: 'sound', sound: await bench('ottlewick-neck').sound(OTTLEWICK, past), isWhatIf: false });
    assert.deepEqual(await counts(), [1, 2]);
    await view.page.locator('section[aria-label="Listen"]').getByText('A before').click();
    assert.deepEqual(await counts(), [1, 2]);
    assert.match((await view.page.locator('section[aria-label="Listen"]').textContent()) ?? '', /Left out:/);
    view.close();
  });

  it('nothing moves where motion is not wanted', async () => {
    const view = await opened(pickup);
    await view.page.emulateMedia({ reducedMotion: 'reduce' });
    const durations = await view.page.evaluate<string[]>(
      '[...document.querySelectorAll("*")].map((each) => getComputedStyle(each).transitionDuration)',
    );
    assert.deepEqual([...new Set(durations)], ['0s']);
    await view.page.close();
  });

  it('in forced colours the focus and the chosen position keep their outlines', async () => {
    const view = await opened(instrument, { theme: 'vscode-high-contrast' });
    await view.page.emulateMedia({ forcedColors: 'active' });
    const outlined = (selector: string) =>
      view.page.evaluate<string>(`getComputedStyle(document.querySelector('${selector}')).outlineStyle`);
    assert.equal(await outlined('.seg input:checked + label'), 'solid');
    await view.page.locator('.seg input:checked').first().focus();
    await view.page.keyboard.press('Tab');
    assert.equal(await outlined(':focus-visible'), 'solid');
    await view.page.close();
  });

  it('a narrow view has one column and nothing beside the edge', async () => {
    const { page, close } = await opened(compared, { width: 360 });
    assert.ok((await page.evaluate<number>('document.scrollingElement.scrollWidth')) <= 360);
    close();
  });

  it('at any width from 380 px drawings and plots are whole, and words are 11 px high from 389 px on, those of plots at any', async () => {
    const view = await harness.open({ width: 340 });
    const { page } = view;
    let render = 0;
    for (const width of [340, 380, 389, 449, 450, 521, 771, 911, 912]) {
      await page.setViewportSize({ width, height: 900 });
      const each = [
        await bench('ottlewick-neck').shown(OTTLEWICK, { width }),
        await bench('yarrow-bridge').shown({ kind: 'pickup', name: 'yarrow-bridge' }, { width }),
        await bench('pennywither').shown(
          { kind: 'instrument', name: 'pennywither' },
          { position: 'pennywither/2', width },
        ),
      ];
      for (const shown of each) {
        render += 1;
        await showAll(view, shown, render);
        const cut = await page.evaluate<string[]>(`[...document.querySelectorAll('.sheet-frame, .plot-frame')]
          .filter((each) => each.clientWidth > 0 && each.scrollWidth > each.clientWidth).map((each) => each.className)`);
        if (width >= 380) assert.deepEqual(cut, [], `${width} px`);
        assert.ok((await page.evaluate<number>('document.scrollingElement.scrollWidth')) <= width);
        const heights = (frame: string) =>
          page.evaluate<
            number[]
          >(`[...document.querySelectorAll('${frame} svg')].filter((svg) => svg.clientWidth > 0).flatMap((svg) => {
            const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
            return [...svg.querySelectorAll('text, tspan')].map((text) => parseFloat(getComputedStyle(text).fontSize) * scale);
          })`);
        const [plots, drawn] = [
          await heights('.plot-frame:not(.as-sheet)'),
          await heights(':is(.sheet-frame, .as-sheet)'),
        ];
        assert.ok(plots.length > 10 && drawn.length > 30, `${plots.length} and ${drawn.length} words`);
        assert.ok(Math.min(...plots) >= 11, `${width} px: ${Math.min(...plots)}`);
        // A pane that is narrower still shows a drawing whole, a little smaller.
        if (width >= 389) assert.ok(Math.min(...drawn) >= 11, `${width} px: ${Math.min(...drawn)}`);
      }
    }
    view.close();
  });

  it('at any width no number is torn, and no column is as narrow as a letter', async () => {
    const { page, close } = await opened(compared, { width: 320 });
    for (const width of [320, 420, 640]) {
      await page.setViewportSize({ width, height: 900 });
      const torn = await page.evaluate<string[]>(`[...document.querySelectorAll('.numbers .number')].flatMap((each) => {
        const range = document.createRange();
        range.selectNodeContents(each);
        return new Set([...range.getClientRects()].map(({ top }) => Math.round(top))).size > 1 ? [each.textContent] : [];
      })`);
      assert.deepEqual(torn, [], `${width} px`);
      assert.notEqual(await page.locator('.numbers .number').count(), 0);
      const narrow = await page.evaluate<string[]>(`[...document.querySelectorAll('p, .numbers th, .numbers td')]
        .filter((each) => each.textContent.length > 12 && each.clientWidth > 0 && each.clientWidth < 60).map((each) => each.textContent)`);
      assert.deepEqual(narrow, [], `${width} px`);
      assert.ok((await page.evaluate<number>('document.scrollingElement.scrollWidth')) <= width);
    }
    close();
  });

  it('what a spec says is text, never markup', async () => {
    const hostile = '<img src=x onerror=alert(1)> & "quoted" \u202Ereversed';
    const text = sample('ottlewick-neck').replace('"Ottlewick, neck"', JSON.stringify(hostile).replaceAll('\\"', "'"));
    const view = await opened(await bench('ottlewick-neck', text).shown(OTTLEWICK));
    assert.equal(await view.page.locator('img').count(), 0);
    assert.match((await view.page.locator('.sheet-frame svg').first().textContent()) ?? '', /<img src=x/);
    view.close();
  });
});
