import { type Browser, chromium, type Frame, type Page } from 'playwright-core';
import { PATIENCE_MS } from './run-suite.ts';

/** The window as a person sees it: what no extension interface shows, such as the inside of the bench view. Node flavour only. */
export interface EditorWindow {
  readonly page: Page;
  /** The inner document of the visible webview whose text contains `text`. Waits for it. */
  webviewWith(text: string): Promise<Frame>;
  close(): Promise<void>;
}

/** Connects to the window in which the tests run. */
export async function openWindow(): Promise<EditorWindow> {
  const port = process.env.PICKUP_SPEC_WINDOW_PORT;
  if (port === undefined)
    throw new Error('PICKUP_SPEC_WINDOW_PORT is not set: start the tests with test/editor/run.ts');
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`, { timeout: PATIENCE_MS });
  const page = await workbenchOf(browser);
  page.setDefaultTimeout(PATIENCE_MS);
  return {
    page,
    webviewWith: (text) => frameWith(page, text),
    // Ends the connection only; the window belongs to the host.
    close: () => browser.close(),
  };
}

async function workbenchOf(browser: Browser): Promise<Page> {
  for (const page of browser.contexts().flatMap((context) => context.pages())) {
    if ((await page.locator('.monaco-workbench').count()) > 0) return page;
  }
  throw new Error('no workbench among the pages of the window');
}

async function frameWith(page: Page, text: string): Promise<Frame> {
  for (;;) {
    for (const frame of page.frames()) {
      if (await shows(frame, text)) return frame;
    }
    await page.waitForTimeout(50);
  }
}

/** The editor writes a webview's content into a hidden frame first and swaps it in when it is ready. */
async function shows(frame: Frame, text: string): Promise<boolean> {
  try {
    const element = await frame.frameElement();
    if ((await element.getAttribute('id')) !== 'active-frame') return false;
    return (await frame.evaluate(() => document.body?.textContent ?? '')).includes(text);
  } catch {
    // A frame that goes away while it is asked is not the one, and the main frame has no element.
    return false;
  }
}
