import { readdirSync, readFileSync } from 'node:fs';

const FOLDER = 'server/src/checks';

/** The module that holds the explanation pages and their codes: a bundle and a plain Node alike can import it. */
export function pagesModule(): { readonly path: string; readonly text: string } {
  const pages = readdirSync(FOLDER)
    .filter((name) => name.endsWith('.md'))
    .sort()
    .map((name) => ({ code: codeOf(name), text: readFileSync(`${FOLDER}/${name}`, 'utf8') }));
  const entries = pages.map(({ code, text }) => `  ${quoted(code)}:\n    ${literal(text)},`);
  return {
    path: `${FOLDER}/pages.ts`,
    text: [
      '/** Generated from the pages beside this file by `npm run generate`; change a page, then run that. */',
      '',
      'const pages = {',
      ...entries,
      '};',
      '',
      '/** Every code of a finding: each has its page. */',
      'export type Code = keyof typeof pages;',
      '',
      'export const isCode = (text: string): text is Code => Object.hasOwn(pages, text);',
      '',
      '/** The page of a finding as it is written, in Markdown. */',
      'export const pageOf = (code: Code): string => pages[code];',
      '',
      '/** Every code, in alphabetical order of its page. */',
      'export const codes: readonly Code[] = Object.keys(pages).filter(isCode);',
      '',
    ].join('\n'),
  };
}

/** `phase-coils-cancel.md`: `phase/coils-cancel`. */
export const codeOf = (page: string): string => page.replace(/\.md$/, '').replace('-', '/');

const quoted = (text: string) => `'${text}'`;

/** A page in one line of the module, for the lines to read are the page's own; in the quotes that it has fewer of. */
function literal(text: string): string {
  const json = JSON.stringify(text);
  if (text.split("'").length > text.split('"').length) return json;
  return `'${json.slice(1, -1).replaceAll('\\"', '"').replaceAll("'", "\\'")}'`;
}
