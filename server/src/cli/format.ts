import { formatFile } from '../../../grammar/src/format.ts';
import { readFileTree } from '../../../grammar/src/read-file.ts';
import { CommandError, defineCommand, type ExitCode } from './command.ts';
import { specFiles } from './files.ts';
import { readSource, SOURCE_OPTIONS, type Source } from './source.ts';
import { visible, visibleLines } from './visible.ts';
import { rewriteFile } from './write-file.ts';

export const format = defineCommand({
  name: 'format',
  summary: 'the one layout: comments and order stay, a file with syntax errors is left alone',
  positionals: '[PATH…]',
  options: {
    check: { type: 'flag', meaning: 'changes nothing and names the files that are laid out otherwise, exit code 1' },
    'stdin-path': SOURCE_OPTIONS['stdin-path'],
  },
  notes: ['- formats standard input to standard output. A folder stands for every *.pickup file in it and below.'],
  example: { line: 'pickup-spec format --check .', meaning: 'in a build: fail where a file is laid out otherwise' },
  async run(values, positionals, context) {
    const named = positionals.length === 0 ? ['.'] : positionals;
    const standardInput = named.includes('-');
    if (standardInput && named.length > 1) throw new CommandError('format takes - alone, without other paths');
    const { files, problems } = standardInput ? { files: ['-'], problems: [] } : specFiles(named, context.cwd);
    const tell = (line: string): void => context.stderr.write(`pickup-spec: ${visibleLines(line)}\n`);
    for (const problem of problems) tell(problem);
    let code: ExitCode = problems.length > 0 ? 2 : 0;
    for (const file of files) {
      const result = await readSource(file, { ...values, root: undefined }, context);
      if (!result.ok) {
        tell(result.problem);
        code = 2;
        continue;
      }
      const { source } = result;
      context.progress.step(source.shown);
      const text = formatFile(readFileTree(source.text));
      if (text === undefined) {
        context.progress.clear();
        tell(`${source.shown}: left as it is, for it has syntax errors; check tells them`);
        code = 2;
      } else if (values.check) {
        if (text === source.text) continue;
        context.stdout.write(`${visible(source.shown)}\n`);
        if (code === 0) code = 1;
      } else if (standardInput) context.stdout.write(withMark(text, source));
      else if (text !== source.text) {
        context.progress.clear();
        const read = Buffer.from(withMark(source.text, source));
        try {
          await rewriteFile(source.file, read, withMark(text, source));
          context.stdout.write(`${visible(source.shown)}\n`);
        } catch (error) {
          if (!(error instanceof CommandError)) throw error;
          tell(error.message);
          code = 2;
        }
      }
    }
    return code;
  },
});

/** An editor that put a byte-order mark there will want it there. */
const withMark = (text: string, { byteOrderMark }: Source): string => (byteOrderMark ? `\uFEFF${text}` : text);
