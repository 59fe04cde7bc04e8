/** Every page that the extension and the command line make, by axe-core, with contrast measured where axe leaves it open. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Uri } from 'vscode';
import { fenceRule } from '../../client/src/features/markdown/fence-rule.ts';
import type { Token } from '../../client/src/features/markdown/markdown-it.ts';
import { explanationPage } from '../../server/src/features/explanation-page.ts';
import type { Subject } from '../../server/src/lsp/protocol.ts';
import { languageOf } from '../../server/src/words/languages/language.ts';
import { accessFaults } from '../support/axe.ts';
import {
  type BenchHarness,
  bench,
  showAll,
  startHarness,
  THEMES,
  type Theme,
  themeSheet,
} from './bench-view-harness.ts';

const LESSON = path.resolve(import.meta.dirname, '../../client/walkthrough/lesson.pickup');
const MARKDOWN_STYLE = path.resolve(import.meta.dirname, '../../client/markdown/markdown-preview.css');

function rendered(html: string): string {
  const token: Token = { info: 'pickup', content: 'pickup one { }', attrs: [] };
  const renderer = { renderToken: () => '', renderAttrs: () => '' };
  const document = { path: '/shop/notes.md' } as Uri;
  return fenceRule(
    () => ({ state: 'current', html }),
    () => `<pre tabindex="0">${token.content}</pre>`,
  )([token], 0, {}, { currentDocument: document }, renderer);
}

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
  interface Looked {
    readonly of: string;
    readonly sample: string;
    readonly subject: Subject;
    readonly text?: () => string;
    readonly language?: 'en' | 'de';
    readonly width?: number;
  }
  const views: readonly Looked[] = [
    { of: 'a pickup', sample: 'ottlewick-neck', subject: { kind: 'pickup', name: 'ottlewick-neck' }, language: 'de' },
    { of: 'the lesson', sample: 'lesson', subject: { kind: 'pickup', name: 'lesson' }, text: lesson },
    { of: 'parts', sample: 'parts/stock', subject: { kind: 'parts', name: 'parts' }, language: 'de' },
    {
      of: 'an empty file',
      sample: 'empty',
      subject: { kind: 'pickup', name: 'none' },
      text: () => '# nothing yet\n',
      language: 'de',
    },
    {
      of: 'what does not read',
      sample: 'broken',
      subject: { kind: 'pickup', name: 'one' },
      text: () => 'pickup one {\n  coil a {\n',
    },
    {
      of: 'an instrument with its switches, narrow',
      sample: 'pennywither',
      subject: { kind: 'instrument', name: 'pennywither' },
      language: 'de',
      width: 400,
    },
    { of: 'a sweep, narrow', sample: 'yarrow-bridge', subject: { kind: 'pickup', name: 'yarrow-bridge' }, width: 400 },
  ];
  for (const [at, { of, sample, subject, text, language = 'en', width = 1000 }] of views.entries())
    for (const theme of themesFor(at))
      it(`the bench view of ${of}, ${theme}, ${language}`, async () => {
        const view = await harness.open({ theme, language, width });
        await showAll(view, await bench(sample, text?.()).shown(subject, { t: languageOf(language), width }));
        assert.deepEqual(await accessFaults(view.page), []);
        view.close();
      });

  for (const [index, theme] of IN_THEMES.entries())
    if (process.env.ALL_THEMES === '1' || index === 1 || index === 2)
      it(`specs in a page of Markdown, ${theme}`, async () => {
        const page = await harness.empty();
        const style = readFileSync(MARKDOWN_STYLE, 'utf8');
        const drawn = await Promise.all(
          [lesson(), 'pickup one {\n  coil a {\n'].map((text) => bench('fence', text).fence(languageOf('en'))),
        );
        // The editor's own rule makes the page of it, with the text folded in below.
        const figures = drawn.map((html) => rendered(html));
        const around = `body { background: var(--vscode-editor-background); color: var(--vscode-editor-foreground); font-family: sans-serif; }`;
        await page.setContent(
          `<!doctype html><html lang="en"><title>Notes</title><style>${themeSheet(theme)}${around}${style}</style><body class="vscode-body ${theme}"><main><h1>Notes</h1>${figures.join('')}</main></body></html>`,
        );
        assert.notEqual(await page.locator('.pickup-drawing svg').count(), 0);
        assert.deepEqual(await accessFaults(page), []);
        await page.close();
      });

  for (const theme of themesFor(views.length))
    it(`the page of a finding, ${theme}`, async () => {
      const { page, post, close } = await harness.open({ theme, explanation: true });
      const here = { file: 'wren.pickup', line: 7, message: 'Say `hot violet`.', fixes: ['Join violet to hot'] };
      const explained = explanationPage('circuit/open');
      assert.ok(explained);
      // It takes the messages of the extension as the view does.
      await post({ page: explained, here } as never);
      await page.locator('h1').waitFor();
      assert.deepEqual(await accessFaults(page), []);
      close();
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
