/**
 * What the extension costs while one types: 60 characters into a spec of 1,000 lines with the bench view open, and the same without the
 * extension. Prints how long it took from each key to the next paint (median, 95th percentile), and how long the view took to follow.
 *
 *   npx tsx test/scripts/typing-lag.ts
 */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Frame, Page } from 'playwright-core';
import { findBrowser, launchBrowser } from '../host/browser.ts';
import { findEditorParts } from '../host/editor-parts.ts';
import { commandTitles } from '../host/manifest.ts';
import { pageAddress, startServer } from '../host/vscode-server.ts';
import { benchView, goToLine, runCommand } from '../host/workbench.ts';
import { setUp } from './set-up.ts';
import { root } from './steps.ts';

const LINES = 1_000;
/** Ends in what no sentence puts behind a title by itself. */
const TYPED = 'bench notes typed with the view open, in all 60 characters 9';
/** Between two keys: a quick typist's. */
const BETWEEN_MS = 120;
/** For what a window that has just opened still does by itself. */
const SETTLED_MS = 8_000;
const PATIENCE_MS = 60_000;

interface Typing {
  readonly keysMs: readonly number[];
  /** From the last key until the view has painted all that was typed; absent without a view. */
  readonly viewMs: number | undefined;
}

/** A sample that has been used for long: its own lines, then a book of remarks. */
function longSpec(): string {
  const text = readFileSync(path.join(root, 'samples', 'hesk-neck.pickup'), 'utf8').trimEnd();
  const own = text.split('\n').length;
  const remarks = Array.from({ length: LINES - own }, (_, line) => `# ${line + 1}: looked at, nothing to do`);
  return `${text}\n${remarks.join('\n')}\n`;
}

async function typing(extension: string | undefined): Promise<Typing> {
  const parts = findEditorParts();
  const executable = findBrowser();
  if (parts === undefined || executable === undefined)
    throw new Error(setUp({ browser: true, editor: true }).join('\n'));
  const scratch = mkdtempSync(path.join(tmpdir(), 'typing-'));
  const shop = path.join(scratch, 'shop');
  cpSync(path.join(root, 'samples'), shop, { recursive: true });
  const file = path.join(shop, 'long.pickup');
  writeFileSync(file, longSpec());
  const server = await startServer(parts, { dataFolder: scratch, settings: { 'files.autoSave': 'off' } });
  const context = await launchBrowser({ executable, userDataFolder: path.join(scratch, 'browser') });
  try {
    const page = context.pages()[0] ?? (await context.newPage());
    await page.goto(
      pageAddress(server.port, { folder: shop, file, ...(extension === undefined ? {} : { extension }) }),
    );
    await page.waitForSelector('.monaco-editor .view-line');
    // Commands of an extension reach the palette a moment after the window is there.
    await page.waitForTimeout(SETTLED_MS);
    const view = extension === undefined ? undefined : await openedView(page, extension);
    await page.waitForTimeout(SETTLED_MS);
    // Into the title of the pickup, which the view draws; left of its last quote and of the brace.
    const [line, column] = titlePlace();
    await goToLine(page, `${line}:${column}`);
    return await typed(page, view);
  } finally {
    await context.close();
    server.stop();
    rmSync(scratch, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

/** Line and column right behind the words of the title, counted from 1. */
function titlePlace(): readonly [number, number] {
  const lines = longSpec().split('\n');
  const index = lines.findIndex((line) => line.startsWith('pickup '));
  return [index + 1, (lines[index] ?? '').lastIndexOf('"') + 1];
}

/** The page of the bench view, once it has a drawing. */
async function openedView(page: Page, extension: string): Promise<Frame> {
  await runCommand(page, commandTitles(extension).get('pickup.openBenchViewToSide') ?? '');
  const frame = await benchView(page);
  await frame.locator('svg:visible').first().waitFor();
  return frame;
}

async function typed(page: Page, view: Frame | undefined): Promise<Typing> {
  await page.evaluate(`
    globalThis.keysMs = [];
    addEventListener('keydown', (event) => {
      const at = event.timeStamp;
      globalThis.lastKey = Date.now();
      requestAnimationFrame(() => setTimeout(() => keysMs.push(performance.now() - at), 0));
    }, true);`);
  // The view itself notes when all that was typed has been painted: asking it meanwhile would slow it down.
  await view?.evaluate(`
    const ends = ${JSON.stringify(TYPED)};
    new MutationObserver(() => {
      if (globalThis.shownAt !== undefined || !document.body.textContent.includes(ends)) return;
      globalThis.shownAt = 0;
      requestAnimationFrame(() => setTimeout(() => { globalThis.shownAt = Date.now(); }, 0));
    }).observe(document.body, { subtree: true, childList: true, characterData: true, attributes: true });`);
  await page.keyboard.type(TYPED, { delay: BETWEEN_MS });
  const lastKey = await page.evaluate<number>('lastKey');
  let shownAt = 0;
  const until = Date.now() + PATIENCE_MS;
  while (view !== undefined && shownAt === 0) {
    if (Date.now() > until) throw new Error('the view never showed what was typed');
    await page.waitForTimeout(100);
    shownAt = await view.evaluate<number>('globalThis.shownAt ?? 0');
  }
  return {
    keysMs: await page.evaluate<readonly number[]>('keysMs'),
    viewMs: view === undefined ? undefined : shownAt - lastKey,
  };
}

const at = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

const [without, beside] = [await typing(undefined), await typing(root)];
for (const [name, { keysMs, viewMs }] of [
  ['without the extension', without],
  ['with it and its view', beside],
] as const) {
  const view = viewMs === undefined ? '' : `, view after ${viewMs.toFixed(0)} ms`;
  console.log(
    `${name}: ${keysMs.length} keys, to the next paint ${at(keysMs, 0.5).toFixed(1)} ms, 95 % ${at(keysMs, 0.95).toFixed(1)} ms${view}`,
  );
}
const more = at(beside.keysMs, 0.95) - at(without.keysMs, 0.95);
console.log(`95th percentile: ${more.toFixed(1)} ms more with it (aim: 16 at most; the view: 150)`);
