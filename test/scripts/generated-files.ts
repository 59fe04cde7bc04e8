import { readFileSync } from 'node:fs';
import { languageReference } from '../../grammar/src/reference.ts';
import { LEVELS } from '../../grammar/src/schema/bench.ts';
import { textMateGrammar } from '../../grammar/src/textmate.ts';
import { mayBeLevelled } from '../../server/src/analysis/levels.ts';
import { codes } from '../../server/src/checks/pages.ts';
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
    { path: 'package.json', text: manifest(readFileSync('package.json', 'utf8')) },
  ];
}

/** As the formatter of this repository leaves it: an array of one short text on one line. */
function printed(value: object): string {
  return `${JSON.stringify(value, null, 2).replace(/\[\s+("[^"\n]*")\s+\]/g, '[$1]')}\n`;
}

/** The manifest, where its settings name the codes of findings. */
function manifest(written: string): string {
  const read: Manifest = JSON.parse(written);
  const setting = read.contributes.configuration
    .map(({ properties }) => properties['pickup.severity'])
    .find((each) => each !== undefined);
  if (setting === undefined) throw new Error('the manifest has no setting pickup.severity');
  setting.propertyNames = { enum: codes.filter(mayBeLevelled) };
  setting.additionalProperties = { type: 'string', enum: [...LEVELS] };
  return `${JSON.stringify(read, null, 2)}\n`;
}

interface Manifest {
  readonly contributes: {
    readonly configuration: readonly { readonly properties: Readonly<Record<string, { [key: string]: unknown }>> }[];
  };
}
