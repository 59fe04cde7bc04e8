/** A Chromium where one is at hand, as the printer of PDF and PNG files. */
import { execFile } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { CommandError } from './command.ts';
import { type Environment, findProgram, isProgram } from './program.ts';
import { inTemporaryFolder } from './temporary.ts';

/** The installed Chromium or Chrome, or undefined. The variable CHROMIUM names another one, by its path or as PATH has it. */
export function findChromium(environment: Environment, cwd: string): string | undefined {
  const named = environment.CHROMIUM ?? '';
  if (named === '') return (USUAL_PLACES[process.platform] ?? USUAL_PLACES.linux)?.find(isProgram);
  if (named === path.basename(named)) return findProgram(named, environment, cwd);
  const file = path.resolve(cwd, named);
  return isProgram(file) ? file : undefined;
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

/** A path of another system would be one from the current folder on. */
const USUAL_PLACES: Readonly<Record<string, readonly string[]>> = {
  linux: [
    '/usr/bin/chromium',
    '/usr/bin/chromium-browser',
    '/usr/bin/google-chrome',
    '/usr/bin/google-chrome-stable',
    '/snap/bin/chromium',
  ],
  darwin: [
    '/Applications/Chromium.app/Contents/MacOS/Chromium',
    '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  ],
  win32: ['C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe'],
};
