import { existsSync } from 'node:fs';
import path from 'node:path';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import type { Analysis } from '../analysis-types.ts';
import { compareStates, type State, sameMeaning } from '../documents/comparison/comparison.ts';
import { factListing } from '../documents/comparison/fact-listing.ts';
import { CommandError, defineCommand } from './command.ts';
import { compareText } from './compare-text.ts';
import { comparisonData } from './comparison-data.ts';
import type { Context } from './context.ts';
import { uriOf } from './files.ts';
import { gitPath, readFromGit } from './git.ts';
import { requireSource, SOURCE_OPTIONS, type SourceValues } from './source.ts';
import { jsonText, visibleLines } from './visible.ts';

export const compare = defineCommand({
  name: 'compare',
  summary: 'two states by meaning: facts, numbers, findings; order, layout and comments do not count',
  positionals: 'A B',
  least: 1,
  most: 2,
  options: {
    format: { type: 'choice', choices: ['text', 'json'], meaning: 'how the differences are written' },
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
    const before = await stateOf(first, values, context);
    if (second === undefined) throw new CommandError('compare needs two: usage: pickup-spec compare A B');
    const after = await stateOf(second, values, context);
    context.progress.step(`${first} → ${second}`);
    const comparison = compareStates(before, after);
    context.progress.clear();
    const names = { before: first, after: second };
    context.stdout.write(
      values.format === 'json'
        ? jsonText(comparisonData(comparison, names))
        : compareText(comparison, names, context.styles),
    );
    return values['exit-code'] && !sameMeaning(comparison) ? 1 : 0;
  },
});

async function stateOf(name: string, values: SourceValues, context: Context): Promise<State> {
  const inGit = existsSync(path.resolve(context.cwd, name)) ? undefined : gitPath(name);
  if (inGit) {
    const { file, host } = readFromGit(inGit, context.cwd, context.environment);
    return stateFrom(context.analyser.analyse(uriOf(file), host));
  }
  const source = await requireSource(name, values, context);
  context.progress.step(source.shown);
  return stateFrom(context.analyser.analyse(source.uri, source.host));
}

function stateFrom(analysis: Analysis): State {
  const files = analysis.uris.flatMap((uri) => {
    if (uri === analysis.uri) return [{ uri, tree: analysis.tree }];
    const text = analysis.textOf(uri);
    return text === undefined ? [] : [{ uri, tree: readFileTree(text) }];
  });
  return { analysis, files };
}
