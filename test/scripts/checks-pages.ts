import { readdirSync, readFileSync } from 'node:fs';

const FOLDER = 'server/src/checks';

/** The module that holds the explanation pages: a bundle and a plain Node alike can import it. */
export function pagesModule(): { readonly path: string; readonly text: string } {
  const pages = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.md'))
    .sort()
    .map((name) => readFileSync(`${FOLDER}/${name}`, 'utf8'));
  const entries = pages.map((text) => `  [\n    ${quoted(codeOf(text))},\n    ${template(text)},\n  ],`);
  return {
    path: `${FOLDER}/pages.ts`,
    text: [
      '/** Generated from the pages beside this file by test/scripts/generate-pages.ts; change a page, then run that. */',
      '',
      'const pages: ReadonlyMap<string, string> = new Map([',
      ...entries,
      ']);',
      '',
      '/** The explanation page of a finding, in Markdown. */',
      'export const explanationOf = (code: string): string | undefined => pages.get(code);',
      '',
      '/** Every code that has a page, in alphabetical order of its file. */',
      'export const codes: readonly string[] = [...pages.keys()];',
      '',
    ].join('\n'),
  };
}

/** The code that a page's first line names. */
export const codeOf = (page: string): string => page.slice(2, page.indexOf('\n')).trim();

const quoted = (text: string) => `'${text}'`;

/** A template literal keeps the lines of the page as lines of the module. */
const template = (text: string) => `\`${text.replace(/[\\`]|\$\{/g, (each) => `\\${each}`)}\``;
