/** What a person does in the editor's window, done by a script. */
import type { Frame, Page } from 'playwright-core';

/** Runs a command by its title, as the palette shows it. */
export async function runCommand(page: Page, title: string): Promise<void> {
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-widget input.input');
  await input.waitFor();
  await input.fill(`>${title}`);
  const label = page.getByText(title, { exact: true });
  const entry = page.locator('.quick-input-list .monaco-list-row').filter({ has: label }).first();
  await entry.waitFor({ timeout: 15_000 });
  await entry.click();
  await page.waitForTimeout(500);
}

/** Puts the caret on LINE or LINE:COLUMN. */
export async function goToLine(page: Page, place: string): Promise<void> {
  // Whatever has the focus now, the text shall have it.
  await page.locator('.monaco-editor .view-lines').first().click();
  await page.keyboard.press('Control+G');
  const input = page.locator('.quick-input-widget input.input');
  await input.waitFor();
  await input.fill(`:${place}`);
  await page.keyboard.press('Enter');
  await page.waitForTimeout(300);
}

/** The inner document of the first webview that is ready; waits for it. */
export async function benchView(page: Page): Promise<Frame> {
  for (let tries = 0; tries < 300; tries += 1) {
    for (const frame of page.frames()) {
      const id = await frame
        .frameElement()
        .then((element) => element.getAttribute('id'))
        .catch(() => null);
      if (id === 'active-frame') return frame;
    }
    await page.waitForTimeout(100);
  }
  throw new Error('no bench view after 30 seconds');
}
