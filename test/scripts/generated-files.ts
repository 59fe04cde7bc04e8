import { readFileSync } from 'node:fs';
import { languageReference } from '../../grammar/src/reference.ts';
import { textMateGrammar } from '../../grammar/src/textmate.ts';
import { UNITS } from '../../server/src/quantities/unit-table.ts';

/** Files derived from the language's schema, paths from the repository's root. */
export function generatedFiles(): readonly { readonly path: string; readonly text: string }[] {
  const spellings = UNITS.flatMap((unit) => unit.spellings);
  const dimensions = [...new Set(UNITS.map((unit) => unit.dimension))];
  const units = dimensions.map((dimension) => ({
    dimension,
    symbols: UNITS.filter((unit) => unit.dimension === dimension).flatMap((unit) => [
      ...new Set([unit.symbol, unit.printed]),
    ]),
  }));
  const introduction = readFileSync('grammar/language-introduction.md', 'utf8');
  return [
    {
      path: 'client/syntaxes/pickup.tmLanguage.json',
      text: printed(textMateGrammar(spellings)),
    },
    { path: 'grammar/language-reference.md', text: languageReference(introduction, units) },
  ];
}

/** As the formatter of this repository leaves it: an array of one short text on one line. */
function printed(value: object): string {
  return `${JSON.stringify(value, null, 2).replace(/\[\s+("[^"\n]*")\s+\]/g, '[$1]')}\n`;
}
