import { existsSync } from 'node:fs';
import path from 'node:path';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import { compareStates, type State, sameMeaning } from '../comparison/comparison.ts';
import { factListing } from '../comparison/fact-listing.ts';
import { stateOf } from '../comparison/state-of.ts';
import { comparisonPage } from '../documents/comparison-page.ts';
import { htmlPage } from '../documents/html.ts';
import { CommandError, defineCommand } from './command.ts';
import { compareText } from './compare-text.ts';
import { comparisonData } from './comparison-data.ts';
import type { Context } from './context.ts';
import { shownPath, uriOf } from './files.ts';
import { gitPath, readFromGit } from './git.ts';
import { analyseSource, requireSource, SOURCE_OPTIONS, type SourceValues } from './source.ts';
import { jsonText, visible, visibleLines } from './visible.ts';
import { writeFile } from './write-file.ts';

export const compare = defineCommand({
  name: 'compare',
  summary: 'two states by meaning: facts, numbers, findings; order, layout and comments do not count',
  positionals: 'A B',
  least: 1,
  most: 2,
  options: {
    format: { type: 'choice', choices: ['text', 'json', 'html'], meaning: 'how the differences are written' },
    output: { type: 'text', value: 'FILE', short: 'o', meaning: 'the file to write, standard output unless given' },
    force: { type: 'flag', meaning: 'replaces the file where it is already there' },
    'exit-code': { type: 'flag', meaning: 'exit code 1 where there is a difference' },
    facts: { type: 'flag', meaning: 'of one file alone: its facts as compare sees them, one a line, for git diff' },
    ...SOURCE_OPTIONS,
  },
  notes: ['A and B are files, or REV:PATH in git; with nothing before the colon, what is staged.'],
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
    const before = await stateAt(first, values, context);
    if (second === undefined) throw new CommandError('compare needs two: usage: pickup-spec compare A B');
    const after = await stateAt(second, values, context);
    context.progress.step(`${first} → ${second}`);
    const comparison = compareStates(before, after);
    context.progress.clear();
    const names = { before: first, after: second };
    const text = (): string | Promise<string> => {
      switch (values.format) {
        case 'json':
          return jsonText(comparisonData(comparison, names));
        case 'html':
          return htmlPage(comparisonPage(before, after, comparison, names));
        case 'text':
          return compareText(comparison, names, context.styles);
      }
    };
    if (values.output === undefined) context.stdout.write(await text());
    else {
      const target = path.resolve(context.cwd, values.output);
      writeFile(target, await text(), { replace: values.force });
      context.stdout.write(`${visible(shownPath(target, context.cwd))}\n`);
    }
    return values['exit-code'] && !sameMeaning(comparison) ? 1 : 0;
  },
});

async function stateAt(name: string, values: SourceValues, context: Context): Promise<State> {
  const inGit = existsSync(path.resolve(context.cwd, name)) ? undefined : gitPath(name);
  if (inGit) {
    const { file, host } = readFromGit(inGit, context.cwd, context.environment);
    return stateOf(context.analyser.analyse(uriOf(file), host));
  }
  return stateOf(analyseSource(await requireSource(name, values, context), context));
}
