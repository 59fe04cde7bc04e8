/**
 * What the extension costs while one types: 60 characters into a spec of 1,000 lines with the bench view open, and the same without the
 * extension. Prints how long it took from each key to the next paint (median, 95th percentile), and how long the view took to follow each,
 * in the flow and with a rest behind each key.
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
const TYPED = 'bench notes typed with the view open, in all 60 characters 9';
/** Then single keys, with a rest behind each. */
const RESTED = 'and then one by one';
const REST_MS = 700;
/** Between two keys: a quick typist's. */
const BETWEEN_MS = 120;
/** For what a window that has just opened still does by itself. */
const SETTLED_MS = 8_000;
const PATIENCE_MS = 60_000;

interface Typing {
  readonly keysMs: readonly number[];
  /** From each key until the view has painted what was typed up to it, and from keys with a rest behind each; empty without a view. */
  readonly viewMs: readonly number[];
  readonly restedViewMs: readonly number[];
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
    globalThis.keysAt = [];
    addEventListener('keydown', (event) => {
      const at = event.timeStamp;
      keysAt.push(performance.timeOrigin + at);
      requestAnimationFrame(() => setTimeout(() => keysMs.push(performance.now() - at), 0));
    }, true);`);
  // The view itself notes when how much of what was typed has been painted: asking it meanwhile would slow it down.
  await view?.evaluate(`
    const all = ${JSON.stringify(TYPED + RESTED)};
    globalThis.shownAt = [];
    let seen = 0;
    new MutationObserver(() => {
      const text = document.body.textContent;
      const before = seen;
      while (seen < all.length && text.includes(all.slice(0, seen + 1).trimEnd())) seen += 1;
      if (seen === before) return;
      const now = seen;
      requestAnimationFrame(() => setTimeout(() => {
        for (let each = before; each < now; each += 1) shownAt[each] = performance.timeOrigin + performance.now();
      }, 0));
    }).observe(document.body, { subtree: true, childList: true, characterData: true });`);
  await page.keyboard.type(TYPED, { delay: BETWEEN_MS });
  await page.waitForTimeout(SETTLED_MS / 4);
  const keysMs = await page.evaluate<readonly number[]>('[...keysMs]');
  await page.keyboard.type(RESTED, { delay: REST_MS });
  if (view === undefined) return { keysMs, viewMs: [], restedViewMs: [] };
  const until = Date.now() + PATIENCE_MS;
  let shownAt: readonly number[] = [];
  while (shownAt.length < TYPED.length + RESTED.length) {
    if (Date.now() > until) throw new Error('the view never showed what was typed');
    await page.waitForTimeout(200);
    shownAt = await view.evaluate<readonly number[]>('shownAt');
  }
  const keysAt = await page.evaluate<readonly number[]>('keysAt');
  const viewMs = shownAt.map((shown, index) => shown - (keysAt[index] ?? Number.NaN));
  return { keysMs, viewMs: viewMs.slice(0, TYPED.length), restedViewMs: viewMs.slice(TYPED.length) };
}

const at = (values: readonly number[], share: number): number =>
  [...values].sort((a, b) => a - b)[Math.min(values.length - 1, Math.floor(share * values.length))] ?? Number.NaN;

const [without, beside] = [await typing(undefined), await typing(root)];
const both = (values: readonly number[]): string =>
  `${at(values, 0.5).toFixed(0)} ms, 95 % ${at(values, 0.95).toFixed(0)} ms`;
for (const [name, { keysMs, viewMs, restedViewMs }] of [
  ['without the extension', without],
  ['with it and its view', beside],
] as const) {
  console.log(`${name}: ${keysMs.length} keys, to the next paint ${both(keysMs)}`);
  if (viewMs.length > 0)
    console.log(`  the view follows after ${both(viewMs)}; a single key after ${both(restedViewMs)}`);
}
const more = at(beside.keysMs, 0.95) - at(without.keysMs, 0.95);
console.log(`95th percentile: ${more.toFixed(1)} ms more with it (aim: 16 at most; the view: 150)`);
