/** The words of a command line as a command takes them. Everything wrong with them is one line that names what would be right. */
import { parseArgs } from 'node:util';
import { type Command, CommandError, type Option, type Options, type Values } from './command.ts';
import { chosenOf, didYouMean } from './meant.ts';

export interface Parsed {
  readonly help: boolean;
  readonly values: Values<Options>;
  readonly positionals: readonly string[];
}

/** Options that every command has beside its own. */
export const COMMON = { help: { type: 'flag', meaning: 'says how this command is used' } } as const satisfies Options;

export function parseArguments(command: Command, words: readonly string[]): Parsed {
  const options: Options = { ...command.options, ...COMMON };
  // Not strict: what is wrong is told here, with the nearest right name.
  const { tokens, positionals } = parseArgs({
    args: withNegativeNumbersJoined(words, options),
    strict: false,
    allowPositionals: true,
    tokens: true,
    options: Object.fromEntries(Object.entries(options).map(([name, option]) => [name, parserOption(option)])),
  });
  const given = new Map<string, string[]>();
  for (const token of tokens) {
    if (token.kind !== 'option') continue;
    const option = Object.hasOwn(options, token.name) ? options[token.name] : undefined;
    if (option === undefined) throw new CommandError(unknownOption(command, token.rawName, Object.keys(options)));
    if (option.type === 'flag' && token.value !== undefined) {
      throw new CommandError(`${token.rawName} takes no value`);
    }
    if (option.type !== 'flag' && (token.value === undefined || (!token.inlineValue && /^--./.test(token.value)))) {
      throw new CommandError(`${token.rawName} needs a value: ${usageOf(token.name, option)}`);
    }
    given.set(token.name, [...(given.get(token.name) ?? []), token.value ?? '']);
  }
  const values = Object.fromEntries(
    Object.entries(command.options).map(([name, option]) => [name, optionValue(name, option, given.get(name))]),
  );
  const help = given.has('help');
  if (!help) checkCount(command, positionals);
  return { help, values, positionals };
}

/** An option as usage lines show it. */
export function usageOf(name: string, option: Option): string {
  const short = option.type === 'text' && option.short !== undefined ? `-${option.short}, ` : '';
  if (option.type === 'flag') return `--${name}`;
  return `${short}--${name} ${option.type === 'choice' ? option.choices.join('|') : option.value}`;
}

function parserOption(option: Option): { type: 'string' | 'boolean'; multiple: true; short?: string } {
  const type = option.type === 'flag' ? 'boolean' : 'string';
  return { type, multiple: true, ...(option.type === 'text' && option.short && { short: option.short }) };
}

function optionValue(name: string, option: Option, given: readonly string[] = []): Values<Options>[string] {
  const last = given.at(-1);
  switch (option.type) {
    case 'flag':
      return last !== undefined;
    case 'list':
      return given;
    case 'text':
      return last;
    case 'choice':
      return last === undefined ? option.choices[0] : chosenOf(`--${name}`, last, option.choices);
    case 'number': {
      if (last === undefined) return undefined;
      const number = /^[+-]?(\d+\.?\d*|\.\d+)$/.test(last) ? Number(last) : Number.NaN;
      if (number >= option.min && number <= option.max) return number;
      throw new CommandError(`--${name} ${last}: a number from ${option.min} to ${option.max} is needed`);
    }
  }
}

function unknownOption(command: Command, written: string, names: readonly string[]): string {
  const hint = didYouMean(written.replace(/^-+/, ''), names, `see pickup-spec ${command.name} --help`, '--');
  return `${command.name} has no option ${written}: ${hint}`;
}

function checkCount(command: Command, positionals: readonly string[]): void {
  const usage = `usage: pickup-spec ${command.name} ${command.positionals}`.trim();
  const places = command.positionals.split(' ').filter((place) => place !== '');
  const least = places.filter((place) => !place.startsWith('[')).length;
  if (positionals.length < least) throw new CommandError(`${command.name} needs more: ${usage}`);
  const extra = positionals[places.length];
  if (extra !== undefined && !command.positionals.includes('…'))
    throw new CommandError(`${command.name} has no use for "${extra}": ${usage}`);
}

/** `--tone -3` would be read as two options; the range check should speak instead. */
function withNegativeNumbersJoined(words: readonly string[], options: Options): string[] {
  const joined: string[] = [];
  for (const word of words) {
    const before = joined.at(-1);
    const name = before?.replace(/^--/, '') ?? '';
    if (/^-[\d.]/.test(word) && before?.startsWith('--') && options[name]?.type === 'number') {
      joined[joined.length - 1] = `${before}=${word}`;
    } else joined.push(word);
  }
  return joined;
}
