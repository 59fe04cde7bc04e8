/** One call of the command line, from its words to its exit code. Never throws. */
import manifest from '../../../package.json' with { type: 'json' };
import { parseArguments } from './arguments.ts';
import { type Command, CommandError, type ExitCode } from './command.ts';
import type { Context } from './context.ts';
import { commandHelp, generalHelp } from './help.ts';
import { didYouMean } from './meant.ts';
import { visibleLines } from './visible.ts';

export async function run(words: readonly string[], commands: readonly Command[], context: Context): Promise<ExitCode> {
  try {
    return await dispatch(words, commands, context);
  } catch (error) {
    context.progress.clear();
    if (error instanceof CommandError) {
      context.stderr.write(`pickup-spec: ${visibleLines(error.message)}\n`);
      return error.exitCode;
    }
    const message = error instanceof Error ? error.message : String(error);
    context.stderr.write(`pickup-spec: a fault of the program itself, please report it: ${visibleLines(message)}\n`);
    return 2;
  }
}

async function dispatch(words: readonly string[], commands: readonly Command[], context: Context): Promise<ExitCode> {
  const [first, ...rest] = words;
  if (first === undefined) {
    context.stderr.write(generalHelp(commands));
    return 2;
  }
  if (first === '--help' || first === '-h' || (first === 'help' && rest.length === 0)) {
    context.stdout.write(generalHelp(commands));
    return 0;
  }
  if (first === '--version') {
    context.stdout.write(`${manifest.version}\n`);
    return 0;
  }
  const [name, args] = first === 'help' ? [rest[0] ?? '', ['--help']] : [first, rest];
  const command = commands.find((each) => each.name === name);
  if (command === undefined) throw new CommandError(unknownCommand(name, commands));
  const parsed = parseArguments(command, args);
  if (parsed.help) {
    context.stdout.write(commandHelp(command));
    return 0;
  }
  const code = await command.run(parsed.values, parsed.positionals, context);
  context.progress.clear();
  return code;
}

function unknownCommand(written: string, commands: readonly Command[]): string {
  const names = commands.map((command) => command.name);
  const what = written.startsWith('-') ? 'option' : 'command';
  return `no ${what} "${written}": ${didYouMean(written.replace(/^-+/, ''), names, 'see pickup-spec --help')}`;
}
