import { readFileSync } from 'node:fs';
import { languageReference } from '../../grammar/src/reference.ts';
import { textMateGrammar } from '../../grammar/src/textmate.ts';
import { pagesModule } from './checks-pages.ts';

/** Files derived from the language's schema and from the pages of the checks, paths from the repository's root. */
export function generatedFiles(): readonly { readonly path: string; readonly text: string }[] {
  const introduction = readFileSync('grammar/language-introduction.md', 'utf8');
  return [
    {
      path: 'client/syntaxes/pickup.tmLanguage.json',
      text: printed(textMateGrammar()),
    },
    { path: 'grammar/language-reference.md', text: languageReference(introduction) },
    pagesModule(),
  ];
}

/** As the formatter of this repository leaves it: an array of one short text on one line. */
function printed(value: object): string {
  return `${JSON.stringify(value, null, 2).replace(/\[\s+("[^"\n]*")\s+\]/g, '[$1]')}\n`;
}
