/** One page of Chromium that drawings are shown and measured in. */
import path from 'node:path';
import { build } from 'esbuild';
import { openTestBrowser } from '../../host/browser.ts';
import type { Drawing, Measured, Paint } from './measure.ts';

export interface DrawingPage {
  /** What the page itself complained of so far. */
  readonly errors: readonly string[];
  measure(drawings: readonly Drawing[]): Promise<readonly Measured[]>;
  paints(drawings: readonly Drawing[], look: Look): Promise<readonly Paint[]>;
  /** Width in px of words, set in a class of the drawings' style sheet. */
  widthOf(words: string, className: string): Promise<number>;
  close(): Promise<void>;
}

/** What the reader has asked for: a class of the editor's page, or the settings of a viewer without an editor. */
export interface Look {
  readonly editorClass?: string;
  readonly scheme?: 'light' | 'dark';
  readonly moreContrast?: boolean;
}

/** Two faces of the same metric, of which every system has one: the width table of the drawings was measured on it. */
const FACES = 'Arial, "Liberation Sans", sans-serif';

export async function openDrawingPage(css: string): Promise<DrawingPage> {
  const { context, close } = await openTestBrowser();
  const page = await context.newPage();
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(error.message));
  page.on('console', (message) => {
    if (message.type() === 'error') errors.push(message.text());
  });
  await page.setContent(
    `<!doctype html><meta charset="utf-8"><style>body { margin: 0; --vscode-font-family: ${FACES}; }\n${css}</style><main></main>`,
  );
  await page.addScriptTag({ content: await measuringScript() });
  const ask = <T>(call: string) => page.evaluate<T>(call);
  return {
    errors,
    measure: (drawings) => ask(`${JSON.stringify(drawings)}.map(measuring.measure)`),
    paints: async (drawings, { editorClass = '', scheme = 'light', moreContrast = false }) => {
      await page.emulateMedia({ colorScheme: scheme, contrast: moreContrast ? 'more' : 'no-preference' });
      await ask(`document.body.className = ${JSON.stringify(editorClass)}`);
      return await ask(`${JSON.stringify(drawings)}.flatMap(measuring.paints)`);
    },
    widthOf: (words, className) => ask(`measuring.widthOf(${JSON.stringify(words)}, ${JSON.stringify(className)})`),
    close,
  };
}

async function measuringScript(): Promise<string> {
  const result = await build({
    entryPoints: [path.join(import.meta.dirname, 'measure.ts')],
    bundle: true,
    write: false,
    platform: 'browser',
    format: 'iife',
    globalName: 'measuring',
    logLevel: 'silent',
  });
  return result.outputFiles[0]?.text ?? '';
}
