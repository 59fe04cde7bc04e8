import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type BrowserContext, chromium } from 'playwright-core';
import { findChromium } from '../../server/src/cli/chromium.ts';

export interface BrowserOptions {
  /** Path of Chromium or Chrome. */
  readonly executable: string;
  readonly userDataFolder: string;
  readonly width?: number;
  readonly height?: number;
  /** Pixels of a picture for each CSS pixel. */
  readonly scale?: number;
  /** Lets pages read from any address; the workbench would not take an extension from a plain local one. */
  readonly ignoresContentPolicy?: boolean;
  /** One process for all pages: each further one is there in half the time. Not for the workbench, whose frames are kept apart. */
  readonly sharesProcess?: boolean;
  /** Where a second driver (a test inside the extension host) may connect to the same browser. */
  readonly debuggingPort?: number;
}

export const findBrowser = (): string | undefined => findChromium(process.env, process.cwd());

/** For whatever is waited for in a page: a second on a quiet machine, and the test has more, so that a failure names it. */
const PATIENCE_MS = 120_000;

/** A browser without a window. One profile, no second context, so that whoever connects to it finds the page. */
export async function launchBrowser(options: BrowserOptions): Promise<BrowserContext> {
  const context = await chromium.launchPersistentContext(options.userDataFolder, {
    timeout: PATIENCE_MS,
    executablePath: options.executable,
    headless: true,
    bypassCSP: options.ignoresContentPolicy === true,
    deviceScaleFactor: options.scale ?? 1,
    viewport: { width: options.width ?? 1400, height: options.height ?? 900 },
    args: [
      '--no-sandbox',
      '--disable-gpu',
      '--disable-quic',
      '--no-first-run',
      '--disable-background-networking',
      '--disable-component-update',
      '--disable-sync',
      // What is compiled to be fast pays where it runs for long, which no test's script does.
      ...(options.sharesProcess === true
        ? [
            '--renderer-process-limit=1',
            '--process-per-site',
            '--disable-site-isolation-trials',
            '--js-flags=--no-opt,--no-maglev',
          ]
        : []),
      ...(options.debuggingPort === undefined ? [] : [`--remote-debugging-port=${options.debuggingPort}`]),
    ],
  });
  context.setDefaultTimeout(PATIENCE_MS);
  return context;
}

/** A browser for the tests of a file. */
export interface TestBrowser {
  readonly context: BrowserContext;
  /** Closes the pages of the file. */
  close(): Promise<void>;
}

/** How long it stays for the next file: a new one takes as long as twenty pages. */
const STAYS_MS = 3_000;

let running: Promise<BrowserContext> | undefined;
let leaving: NodeJS.Timeout | undefined;

/** The files of a process, which come one after the other, have one browser where they follow each other soon. */
export async function openTestBrowser(): Promise<TestBrowser> {
  clearTimeout(leaving);
  running ??= startTestBrowser();
  const context = await running;
  return {
    context,
    close: async () => {
      // The first is the browser's own: without any it would end.
      await Promise.all(context.pages().map((page, index) => (index === 0 ? undefined : page.close())));
      leaving = setTimeout(() => {
        running = undefined;
        context.close().catch(ignore);
      }, STAYS_MS);
    },
  };
}

async function startTestBrowser(): Promise<BrowserContext> {
  const executable = findBrowser();
  if (executable === undefined) throw new Error('no Chromium found: install chromium, or set CHROMIUM to its path');
  const userDataFolder = mkdtempSync(path.join(tmpdir(), 'test-browser-'));
  // As a process ends its browser may still write there: what cannot be removed is left to the system, and is no fault of a test.
  const remove = (): void => {
    try {
      rmSync(userDataFolder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    } catch {
      return;
    }
  };
  const context = await launchBrowser({ executable, userDataFolder, sharesProcess: true });
  process.once('exit', remove);
  context.once('close', () => {
    process.off('exit', remove);
    remove();
  });
  return context;
}

/** A browser that has ended by itself need not be closed. */
const ignore = (): void => undefined;
