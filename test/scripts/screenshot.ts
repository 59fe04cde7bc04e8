/**
 * Takes a picture of the editor with the extension: what a person sees.
 *
 *   npx tsx test/scripts/screenshot.ts --file samples/x.pickup --out out.png
 *     --theme light|dark|hc-dark|hc-light    default light
 *     --bench-view                           opens the bench view beside the text
 *     --steps 'line 12; key Control+.'       what is done before the picture is taken, in order, split at ';':
 *         a command's id (pickup.openBenchView), or its title as the palette shows it, category included, or reload (the window), or
 *         line N[:COLUMN] · key CHORD · type TEXT · wait MILLISECONDS · click TEXT (in the bench view) · hover TEXT (in the text) ·
 *         press TEXT (what the window itself shows, last of it)
 *     --language de                          the editor says it is in that language; its own words stay English without its pack
 *     --width 1400 --height 900 --scale 1    size in CSS pixels, and pixels for each
 *     --wait 2500                            milliseconds before the picture, for what comes late
 *     --only bench-view                      the bench view's pane only
 *     --reduced-motion, --web, --settings '{"editor.fontSize": 16}', --extension FOLDER, --folder FOLDER (none: an empty window)
 */
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { findBrowser, launchBrowser } from '../host/browser.ts';
import { findEditorParts } from '../host/editor-parts.ts';
import { commandTitles } from '../host/manifest.ts';
import { pageAddress, startServer } from '../host/vscode-server.ts';
import { offerFromWeb } from '../host/web-extension.ts';
import { benchView, goToLine, runCommand } from '../host/workbench.ts';
import { setUp } from './set-up.ts';
import { root } from './steps.ts';

/** What the bench view shows of any file: a drawing, what an empty file could begin with, or why there is nothing to draw. */
const SHOWN = 'svg:visible, [aria-label="To begin with"]:visible, .stale:visible';

const themes: Readonly<Record<string, string>> = {
  light: 'Default Light Modern',
  dark: 'Default Dark Modern',
  'hc-dark': 'Default High Contrast',
  'hc-light': 'Default High Contrast Light',
};

async function takeScreenshot(): Promise<void> {
  const { values } = parseArgs({
    options: {
      file: { type: 'string' },
      out: { type: 'string', default: 'out/screenshot.png' },
      theme: { type: 'string', default: 'light' },
      'bench-view': { type: 'boolean', default: false },
      steps: { type: 'string', default: '' },
      width: { type: 'string', default: '1400' },
      height: { type: 'string', default: '900' },
      scale: { type: 'string', default: '1' },
      wait: { type: 'string', default: '2500' },
      only: { type: 'string' },
      language: { type: 'string', default: 'en' },
      'reduced-motion': { type: 'boolean', default: false },
      web: { type: 'boolean', default: process.env.EDITOR_FLAVOUR === 'web' },
      settings: { type: 'string', default: '{}' },
      extension: { type: 'string', default: root },
      folder: { type: 'string', default: path.join(root, 'samples') },
    },
  });
  const theme = themes[values.theme];
  if (theme === undefined) throw new Error(`--theme is one of ${Object.keys(themes).join(', ')}`);
  const missing = setUp({ browser: true, editor: true });
  const parts = findEditorParts();
  const executable = findBrowser();
  if (parts === undefined || executable === undefined) throw new Error(missing.join('\n'));

  const dataFolder = mkdtempSync(path.join(tmpdir(), 'screenshot-'));
  const extension = path.resolve(values.extension);
  const ownSettings: unknown = JSON.parse(values.settings);
  const server = await startServer(parts, {
    dataFolder,
    settings: {
      'workbench.colorTheme': theme,
      ...(typeof ownSettings === 'object' ? ownSettings : {}),
    },
  });
  const context = await launchBrowser({
    executable,
    userDataFolder: path.join(dataFolder, 'browser'),
    ignoresContentPolicy: values.web,
    width: Number(values.width),
    height: Number(values.height),
    scale: Number(values.scale),
  });
  let stopServing = (): void => undefined;
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    if (values['reduced-motion']) await page.emulateMedia({ reducedMotion: 'reduce' });
    // What the editor's own language files say of themselves, before anything of it runs.
    if (values.language !== 'en')
      await page.addInitScript(`globalThis._VSCODE_NLS_LANGUAGE = ${JSON.stringify(values.language)};`);
    if (values.web) stopServing = await offerFromWeb(page, extension);
    await page.goto(
      pageAddress(server.port, {
        ...(values.web ? {} : { extension }),
        ...(values.folder === 'none' ? {} : { folder: path.resolve(values.folder) }),
        ...(values.file === undefined ? {} : { file: path.resolve(values.file) }),
      }),
    );
    await page.waitForSelector('.monaco-workbench .statusbar');
    if (values.file !== undefined) await page.waitForSelector('.monaco-editor .view-line');
    // Commands of an extension reach the palette a moment after the window is there.
    await page.waitForTimeout(1500);
    const titles = commandTitles(extension, values.language);
    const steps = values.steps.split(';').map((step) => step.trim());
    for (const step of [...(values['bench-view'] ? ['pickup.openBenchViewToSide'] : []), ...steps]) {
      if (step !== '') await perform(page, step, titles);
    }
    // On a busy machine the server takes its time; a picture without the bench view that was asked for helps nobody.
    if (values['bench-view']) await (await benchView(page)).locator(SHOWN).first().waitFor();
    await page.waitForTimeout(Number(values.wait));

    const out = path.resolve(values.out);
    mkdirSync(path.dirname(out), { recursive: true });
    if (values.only === 'bench-view') {
      const frame = await benchView(page);
      await (await frame.frameElement()).screenshot({ path: out });
    } else {
      await page.screenshot({ path: out });
    }
    console.log(out);
  } finally {
    await context.close();
    stopServing();
    server.stop();
    rmSync(dataFolder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

async function perform(page: Page, step: string, titles: ReadonlyMap<string, string>): Promise<void> {
  const [verb = '', ...rest] = step.split(' ');
  const words = rest.join(' ');
  if (verb === 'line' && /^\d+(:\d+)?$/.test(words)) return await goToLine(page, words);
  if (step === 'reload') return void (await page.reload());
  if (verb === 'key') return await page.keyboard.press(words);
  if (verb === 'type') return await page.keyboard.type(words);
  if (verb === 'wait') return await page.waitForTimeout(Number(words));
  if (verb === 'click') return await (await benchView(page)).getByText(words).first().click();
  if (verb === 'press') return await page.getByText(words, { exact: true }).last().click();
  if (verb === 'hover') return await page.locator('.monaco-editor .view-line span').getByText(words).last().hover();
  await runCommand(page, titles.get(step) ?? step);
}

await takeScreenshot();
