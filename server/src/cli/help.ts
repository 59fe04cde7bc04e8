/** What `--help` prints, made from the table of commands. */
import { COMMON, usageOf } from './arguments.ts';
import type { Command, Options } from './command.ts';

export function generalHelp(commands: readonly Command[]): string {
  const width = Math.max(...commands.map((command) => command.name.length));
  return [
    'pickup-spec: guitar-pickup builds written down, checked and computed',
    '',
    'usage: pickup-spec COMMAND [ARGUMENTS]',
    '',
    ...commands.map((command) => `  ${command.name.padEnd(width)}  ${command.summary}`),
    '',
    'pickup-spec COMMAND --help says more, with an example. pickup-spec --version says which version this is.',
    'Exit code 0: done, nothing wrong; 1: findings of severity error, or the difference asked about; 2: wrong usage or',
    'unusable input. Results go to standard output, everything else to standard error.',
    '',
  ].join('\n');
}

export function commandHelp(command: Command): string {
  const all: Options = { ...command.options, ...COMMON };
  const options = Object.entries(all).map(([name, option]) => ({
    usage: usageOf(name, option),
    meaning: option.type === 'choice' ? `${option.meaning} (${option.choices[0]} unless given)` : option.meaning,
  }));
  return [
    `usage: pickup-spec ${command.name} ${command.positionals} [OPTIONS]`.replace('  ', ' '),
    '',
    sentence(command.summary),
    ...(command.notes ?? []).flatMap((note) => ['', note]),
    '',
    'options:',
    ...options.flatMap(({ usage, meaning }) => [`  ${usage}`, `      ${meaning}`]),
    '',
    `example: ${command.example.meaning}`,
    `  ${command.example.line}`,
    '',
  ].join('\n');
}

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
