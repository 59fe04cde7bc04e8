import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import path from 'node:path';
import type { Page } from 'playwright-core';

/**
 * Makes the workbench that `page` will load take the extension from the web, as an editor without a server does: it then
 * runs in the browser's worker. The workbench reads this from its configuration only, so the configuration is completed
 * when the page reads it (a page whose text was replaced on the way may not talk to this machine). Returns what ends the serving.
 */
export async function offerFromWeb(page: Page, extension: string, tests?: string): Promise<() => void> {
  const { port, stop } = await serveFolder(extension);
  // The worker's own page lets scripts in from localhost, not from 127.0.0.1.
  const at = (file: string): object => ({ scheme: 'http', authority: `localhost:${port}`, path: file });
  const options = {
    extensions: [at('/')],
    ...(tests === undefined
      ? {}
      : { extensionTestsPath: at(`/${path.relative(extension, tests).replaceAll('\\', '/')}`) }),
  };
  await page.addInitScript((added) => {
    const read = Element.prototype.getAttribute;
    Element.prototype.getAttribute = function (this: Element, name: string): string | null {
      const value = read.call(this, name);
      if (value === null || name !== 'data-settings' || this.id !== 'vscode-workbench-web-configuration') return value;
      const configuration = JSON.parse(value);
      return JSON.stringify({
        ...configuration,
        developmentOptions: { ...configuration.developmentOptions, ...added },
      });
    };
  }, options);
  return stop;
}

/** Serves the files of a folder on this machine, to pages of any origin. */
async function serveFolder(folder: string): Promise<{ readonly port: number; readonly stop: () => void }> {
  const server = createServer((request, response) => {
    const file = path.join(
      folder,
      path.normalize(decodeURIComponent(new URL(request.url ?? '/', 'http://x').pathname)),
    );
    response.setHeader('Access-Control-Allow-Origin', '*');
    if (!statSync(file, { throwIfNoEntry: false })?.isFile()) {
      response.writeHead(404).end();
      return;
    }
    response.setHeader('Content-Type', contentTypes[path.extname(file)] ?? 'application/octet-stream');
    createReadStream(file).pipe(response);
  });
  const port = await new Promise<number>((resolve, reject) => {
    server.once('error', reject);
    server.listen(0, 'localhost', () => {
      const address = server.address();
      if (typeof address === 'object' && address !== null) resolve(address.port);
    });
  });
  return { port, stop: () => server.close() };
}

const contentTypes: Readonly<Record<string, string>> = {
  '.cjs': 'text/javascript',
  '.css': 'text/css',
  '.js': 'text/javascript',
  '.json': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
};
