#!/usr/bin/env -S node --import tsx
/**
 * VS Code without a desktop: takes the arguments that desktop VS Code takes for a test run, runs the extension and its
 * tests in a workbench in a browser without a window, and exits with the code that the tests report.
 */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from 'playwright-core';
import { findBrowser, launchBrowser } from './browser.ts';
import { findEditorParts } from './editor-parts.ts';
import { installPackage, pageAddress, startServer } from './vscode-server.ts';
import { offerFromWeb } from './web-extension.ts';

/** Longer than any test; a workbench that no longer says anything would otherwise hang the caller. */
const SILENCE_MS = 300_000;

/** What moves, or is painted beside a text, and which no test asks for. */
const still = {
  'breadcrumbs.enabled': false,
  'editor.cursorBlinking': 'solid',
  'editor.minimap.enabled': false,
  'workbench.reduceMotion': 'on',
};

/** The editor's own extensions that the tests ask for something; the package is tested beside all of them. */
const ASKED = ['git', 'git-base', 'markdown-basics', 'markdown-language-features', 'theme-defaults', 'theme-seti'];

/** Runs in each frame: whatever moves in the editor's own has arrived at once, since each frame that is painted takes its time. */
function holdStill(): void {
  if (window.top !== window) return;
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`*, *::before, *::after {
    animation-delay: 0s !important; animation-duration: 1ms !important; animation-iteration-count: 1 !important;
    transition-delay: 0s !important; transition-duration: 0s !important;
  }`);
  document.adoptedStyleSheets = [sheet];
}

async function runTestsInWorkbench(): Promise<number> {
  // Desktop VS Code takes far more options than these; unknown ones are for it alone.
  const { values, positionals } = parseArgs({
    strict: false,
    allowPositionals: true,
    options: {
      extensionDevelopmentPath: { type: 'string' },
      extensionTestsPath: { type: 'string' },
      extensionDevelopmentKind: { type: 'string' },
      'extensions-dir': { type: 'string' },
      'installed-package': { type: 'string' },
      'remote-debugging-port': { type: 'string' },
      locale: { type: 'string' },
    },
  });
  const { extensionDevelopmentPath: extension, extensionTestsPath: tests } = values;
  const folder = positionals[0];
  if (typeof extension !== 'string' || typeof tests !== 'string' || folder === undefined) {
    return fail('wanted: --extensionDevelopmentPath=DIR --extensionTestsPath=FILE FOLDER');
  }
  const parts = findEditorParts();
  const executable = findBrowser();
  if (parts === undefined || executable === undefined) {
    return fail(`no ${parts === undefined ? 'editor' : 'browser'}; run: npx tsx test/scripts/set-up.ts`);
  }

  const dataFolder = mkdtempSync(path.join(tmpdir(), 'editor-host-'));
  // Tests do not share extensions or settings with anyone: both are new in each run.
  const extensionsFolder = path.join(dataFolder, 'extensions');
  const vsix = values['installed-package'];
  if (typeof vsix === 'string') installPackage(parts, vsix, dataFolder, extensionsFolder);
  const server = await startServer(parts, {
    dataFolder,
    extensionsFolder,
    settings: still,
    ...(vsix === undefined && { broughtExtensions: ASKED }),
  });
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => process.exit(130));
  const web = values.extensionDevelopmentKind === 'web';
  const debuggingPort = Number(values['remote-debugging-port'] ?? Number.NaN);
  const context = await launchBrowser({
    executable,
    userDataFolder: path.join(dataFolder, 'browser'),
    ignoresContentPolicy: web,
    width: 1100,
    ...(Number.isInteger(debuggingPort) ? { debuggingPort } : {}),
  });
  const page = await context.newPage();
  await page.addInitScript(holdStill);
  let end = (): void => undefined;
  try {
    const developed = { extension: path.resolve(extension), tests: path.resolve(tests) };
    const address = pageAddress(server.port, { folder: path.resolve(folder), ...(web ? {} : developed) });
    if (typeof values.locale === 'string')
      await page.addInitScript(`globalThis._VSCODE_NLS_LANGUAGE = ${JSON.stringify(values.locale)};`);
    if (web) end = await offerFromWeb(page, developed.extension, developed.tests);
    return await reportOf(page, address);
  } finally {
    await context.close();
    end();
    server.stop();
    rmSync(dataFolder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

/** Opens the workbench in a page and waits until the tests in it have ended, with their code. */
async function reportOf(page: Page, address: string): Promise<number> {
  let heard = (): void => undefined;
  const reported = new Promise<number>((resolve) => {
    const late = setTimeout(() => {
      console.error(`editor host: not a word for ${SILENCE_MS / 60_000} minutes`);
      resolve(124);
    }, SILENCE_MS);
    heard = () => void late.refresh();
    const report = (code: number): void => {
      clearTimeout(late);
      resolve(code);
    };
    page.once('crash', () => {
      console.error('editor host: the page crashed');
      report(70);
    });
    void page.exposeFunction('codeAutomationExit', (code: number) => report(code));
  });
  await page.exposeFunction('codeAutomationLog', (_type: string, args: readonly unknown[]) => {
    heard();
    console.log(args.map(asText).join(' '));
  });
  await page.goto(address);
  return await reported;
}

function fail(line: string): number {
  console.error(`editor host: ${line}`);
  return 2;
}

function asText(value: unknown): string {
  return typeof value === 'string' ? value : JSON.stringify(value);
}

process.exitCode = await runTestsInWorkbench();
