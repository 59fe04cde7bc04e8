/** Every page that the extension and the command line make, by axe-core, with contrast measured where axe leaves it open. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { explanationPage } from '../../server/src/features/explanation-page.ts';
import type { Subject } from '../../server/src/lsp/protocol.ts';
import { accessFaults } from '../support/axe.ts';
import { type BenchHarness, bench, showAll, startHarness, THEMES, type Theme } from './bench-view-harness.ts';

const LESSON = path.resolve(import.meta.dirname, '../../client/walkthrough/lesson.pickup');
const IN_THEMES = Object.keys(THEMES) as Theme[];
/** Each page in one theme, and each theme on some page; all of them by a wish. */
const themesFor = (page: number): readonly Theme[] =>
  process.env.ALL_THEMES === '1' ? IN_THEMES : IN_THEMES.filter((_, theme) => page % IN_THEMES.length === theme);

describe('pages for everybody', function () {
  this.timeout(300_000);
  let harness: BenchHarness;
  before(async () => {
    harness = await startHarness();
  });
  after(() => harness.close());

  it('a drawing whose words hardly stand out is a fault, by what lies under them', async () => {
    const page = await harness.empty();
    const drawn = (ground: string) =>
      `<!doctype html><html lang="en"><title>t</title><main><h1>t</h1><svg role="img" aria-label="d" width="90" height="40"><rect width="90" height="40" fill="${ground}"/><text x="8" y="24" fill="#999999">words</text></svg></main></html>`;
    await page.setContent(drawn('#ffffff'));
    const faults = await accessFaults(page);
    assert.deepEqual([faults.length, /color-contrast: <text.*measured 2\.85$/.test(faults[0] ?? '')], [1, true]);
    await page.setContent(drawn('#000000'));
    assert.deepEqual(await accessFaults(page), []);
    await page.close();
  });

  const lesson = () => readFileSync(LESSON, 'utf8');
  const views: readonly (readonly [of: string, sample: string, subject: Subject, text?: () => string])[] = [
    ['a pickup', 'ottlewick-neck', { kind: 'pickup', name: 'ottlewick-neck' }],
    ['the lesson', 'lesson', { kind: 'pickup', name: 'lesson' }, lesson],
    ['parts', 'parts/stock', { kind: 'parts', name: 'parts' }],
    ['an empty file', 'empty', { kind: 'pickup', name: 'none' }, () => '# nothing yet\n'],
    ['what does not read', 'broken', { kind: 'pickup', name: 'one' }, () => 'pickup one {\n  coil a {\n'],
  ];
  for (const [at, [of, sample, subject, text]] of views.entries())
    for (const theme of themesFor(at))
      it(`the bench view of ${of}, ${theme}`, async () => {
        const view = await harness.open({ theme });
        await showAll(view, await bench(sample, text?.()).shown(subject));
        assert.deepEqual(await accessFaults(view.page), []);
        await view.page.close();
      });

  for (const theme of themesFor(views.length))
    it(`the page of a finding, ${theme}`, async () => {
      const { page, post } = await harness.open({ theme, explanation: true });
      const here = { file: 'wren.pickup', line: 7, message: 'Say `hot violet`.', fixes: ['Join violet to hot'] };
      const explained = explanationPage('circuit/open');
      assert.ok(explained);
      // It takes the messages of the extension as the view does.
      await post({ page: explained, here } as never);
      await page.locator('h1').waitFor();
      assert.deepEqual(await accessFaults(page), []);
      await page.close();
    });

  const readers = [
    ['light', 'no-preference'],
    ['dark', 'no-preference'],
    ['light', 'more'],
    ['dark', 'more'],
  ] as const;
  for (const [index, [colorScheme, contrast]] of readers.entries())
    if (process.env.ALL_THEMES === '1' || index === 1)
      it(`the view as it is saved, ${colorScheme}${contrast === 'more' ? ', more contrast' : ''}`, async () => {
        const page = await harness.empty();
        await page.emulateMedia({ colorScheme, contrast });
        await page.setContent(await bench('quorl').saved({ kind: 'instrument', name: 'quorl' }));
        assert.deepEqual(await accessFaults(page), []);
        await page.close();
      });
});
