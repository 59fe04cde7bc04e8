/** A Chromium where one is at hand, as the printer of PDF and PNG files. */
import { execFile } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { CommandError } from './command.ts';
import { inTemporaryFolder } from './temporary.ts';

/** The installed Chromium or Chrome, or undefined. The variable CHROMIUM names another one. */
export function findChromium(environment: Readonly<Record<string, string | undefined>>): string | undefined {
  const named = environment.CHROMIUM;
  if (named !== undefined && named !== '') return existsSync(named) ? named : undefined;
  return USUAL_PLACES.find((place) => existsSync(place));
}

/** A page as PDF, on the paper that its sheet states. Throws a `CommandError` of one line. */
export function pdfOf(html: string, chromium: string): Promise<Uint8Array> {
  return inTemporaryFolder(async (folder) => {
    const [page, pdf] = [path.join(folder, 'card.html'), path.join(folder, 'card.pdf')];
    writeFileSync(page, html);
    const words = [
      '--headless',
      '--disable-gpu',
      '--no-first-run',
      '--disable-background-networking',
      '--no-pdf-header-footer',
      // As root the browser refuses to start with its sandbox; the page holds no script in either case.
      ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
      `--user-data-dir=${path.join(folder, 'profile')}`,
      `--print-to-pdf=${pdf}`,
      pathToFileURL(page).href,
    ];
    try {
      await promisify(execFile)(chromium, words, { timeout: PATIENCE_MS });
      return readFileSync(pdf);
    } catch (error) {
      const reason = error instanceof Error ? error.message.split('\n')[0] : String(error);
      throw new CommandError(`${chromium} made no PDF: ${reason}`);
    }
  });
}

const PATIENCE_MS = 60_000;

const USUAL_PLACES: readonly string[] = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];
