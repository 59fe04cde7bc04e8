import { statSync } from 'node:fs';
import path from 'node:path';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import { sameMeaning } from '../comparison/comparison.ts';
import { factListing } from '../comparison/fact-listing.ts';
import { comparisonPage } from '../documents/comparison-page.ts';
import { htmlPage } from '../documents/html.ts';
import { CommandError, defineCommand } from './command.ts';
import { compareFolders, inGit, onDisk } from './compare-folders.ts';
import { comparedText } from './compare-text.ts';
import { comparedByName, comparedReworks } from './compared-states.ts';
import { type ComparedAll, comparedData } from './comparison-data.ts';
import type { Context } from './context.ts';
import { filesOf } from './files.ts';
import { requireSource, SOURCE_OPTIONS, type SourceValues, WITHOUT_OPTION } from './source.ts';
import { jsonText, visibleLines } from './visible.ts';
import { writeOutput } from './write-file.ts';

export const compare = defineCommand({
  name: 'compare',
  summary: 'two states by meaning: facts, numbers, findings; order, layout and comments do not count',
  positionals: 'A [B]',
  options: {
    format: { type: 'choice', choices: ['text', 'json', 'html'], meaning: 'how the differences are written' },
    output: { type: 'text', value: 'FILE', short: 'o', meaning: 'the file to write, standard output unless given' },
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
    since: {
      type: 'text',
      value: 'DATE|REV',
      meaning: 'a folder with itself in git, before that day or at that revision',
    },
    'exit-code': { type: 'flag', meaning: 'exit code 1 where there is a difference' },
    facts: { type: 'flag', meaning: 'of one file alone: its facts as compare sees them, one a line, for git diff' },
    ...WITHOUT_OPTION,
    ...SOURCE_OPTIONS,
  },
  notes: [
    'A and B are files, or REV:PATH in git; with nothing before the colon, what is staged. #NAME behind either is one\n' +
      'pickup of it. Two folders are compared file by file.',
    'A alone is every pickup of it that reworks another, or that has a new coil and was read as found, beside the state\n' +
      'before the work.',
  ],
  example: {
    line: 'pickup-spec compare HEAD:samples/hesk-neck.pickup samples/hesk-neck.pickup',
    meaning: 'what has changed since the last commit',
  },
  async run(values, [first = '', second], context) {
    if (values.facts) {
      if (second !== undefined) throw new CommandError('compare --facts takes one file');
      const { text } = await requireSource(first, values, context);
      context.stdout.write(visibleLines(factListing(readFileTree(text))));
      return 0;
    }
    const result = await comparedAsAsked(first, second, values, context);
    context.progress.clear();
    const text = (): string | Promise<string> => {
      switch (values.format) {
        case 'json':
          return jsonText(comparedData(result));
        case 'html':
          return page(result);
        case 'text':
          return comparedText(result, context.styles);
      }
    };
    if (values.output === undefined) context.stdout.write(await text());
    else {
      const madeFrom = result.compared.flatMap(({ before, after }) => [...filesOf(before), ...filesOf(after)]);
      await writeOutput(values.output, await text(), { replace: values.force, madeFrom }, context);
    }
    const { gone = [], come = [] } = result.folders ?? {};
    const differs = gone.length + come.length > 0 || result.compared.some(({ comparison }) => !sameMeaning(comparison));
    return values['exit-code'] && differs ? 1 : 0;
  },
});

async function comparedAsAsked(
  first: string,
  second: string | undefined,
  values: SourceValues & { readonly since: string | undefined },
  context: Context,
): Promise<ComparedAll> {
  const { since } = values;
  if (since !== undefined) {
    if (second !== undefined) throw new CommandError('compare --since takes one folder');
    const folders = await compareFolders(inGit(first, since, values, context), onDisk(first, values, context), context);
    return { names: { before: since, after: first }, compared: folders.changed, folders };
  }
  if (second === undefined) {
    const compared = await comparedReworks(first, values, context);
    const [only, another] = compared;
    if (only === undefined) throw new CommandError(`${first}: ${NO_FORMER}; usage: pickup-spec compare A [B]`);
    return { names: another === undefined ? only.names : { before: 'before the work', after: first }, compared };
  }
  const names = { before: first, after: second };
  if (isFolder(first, context) && isFolder(second, context)) {
    const folders = await compareFolders(onDisk(first, values, context), onDisk(second, values, context), context);
    return { names, compared: folders.changed, folders };
  }
  return { names, compared: [await comparedByName(first, second, values, context)] };
}

const NO_FORMER = 'no pickup reworks another, and none has a new coil and was read as found; else compare needs two';

const isFolder = (name: string, { cwd }: Context): boolean =>
  statSync(path.resolve(cwd, name), { throwIfNoEntry: false })?.isDirectory() ?? false;

function page({ compared }: ComparedAll): Promise<string> {
  const [only, another] = compared;
  if (only === undefined || another !== undefined) {
    throw new CommandError(`--format html shows one comparison, here are ${compared.length}; FILE#NAME names a pickup`);
  }
  return htmlPage({ ...comparisonPage(only.before, only.after, only.comparison, only.names), language: 'en' });
}
