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
      text: `${JSON.stringify(textMateGrammar(spellings), null, 2)}\n`,
    },
    { path: 'grammar/language-reference.md', text: languageReference(introduction, units) },
  ];
}
