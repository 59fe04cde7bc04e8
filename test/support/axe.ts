import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Frame, Page } from 'playwright-core';

interface Node {
  readonly html: string;
  readonly target: readonly unknown[];
  readonly any: readonly { readonly id: string; readonly data: unknown }[];
}

interface Rule {
  readonly id: string;
  readonly nodes: readonly Node[];
}

interface Results {
  readonly violations: readonly Rule[];
  readonly incomplete: readonly Rule[];
  readonly passes: readonly Rule[];
}

const SOURCE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe-core finds in the document of a page, every rule that it has. As one text: the page's policy lets no further script file in. */
export const axeResults = (page: Page | Frame): Promise<Results> =>
  page.evaluate<Results>(`(() => { const module = { exports: {} }; ${SOURCE}; return module.exports.run(); })()`);
