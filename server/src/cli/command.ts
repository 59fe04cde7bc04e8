/** What a command is: its name, what it takes, one example, and what it does. Everything printed about it derives from this. */
import type { Context } from './context.ts';

/** 0: done, nothing wrong. 1: findings of severity error, or the difference that was asked about. 2: usage or unusable input. */
export type ExitCode = 0 | 1 | 2;

export type Option =
  | { readonly type: 'flag'; readonly meaning: string }
  | { readonly type: 'text'; readonly value: string; readonly meaning: string; readonly short?: string }
  | { readonly type: 'list'; readonly value: string; readonly meaning: string }
  | {
      readonly type: 'number';
      readonly value: string;
      readonly min: number;
      readonly max: number;
      readonly meaning: string;
    }
  | { readonly type: 'choice'; readonly choices: readonly [string, ...string[]]; readonly meaning: string };

export type Options = Readonly<Record<string, Option>>;

/** What the parsed options hold: a choice always has a value (its first where none is given), the others only when given. */
export type Values<O extends Options> = { readonly [K in keyof O]: ValueOf<O[K]> };

type ValueOf<O extends Option> = O extends { type: 'flag' }
  ? boolean
  : O extends { type: 'choice'; choices: infer C extends readonly string[] }
    ? C[number]
    : O extends { type: 'list' }
      ? readonly string[]
      : O extends { type: 'number' }
        ? number | undefined
        : string | undefined;

export interface Command {
  readonly name: string;
  /** What it does, in one line. */
  readonly summary: string;
  /** Positional arguments as the usage line shows them, which says how many there may be: `[PATH…]`, `FILE`, `A [B]`. */
  readonly positionals: string;
  readonly options: Options;
  /** A command line that does something useful, and what it is for. */
  readonly example: { readonly line: string; readonly meaning: string };
  /** More that a reader of `--help` needs, one paragraph each. */
  readonly notes?: readonly string[];
  run(values: Values<Options>, positionals: readonly string[], context: Context): Promise<ExitCode>;
}

/** Gives `run` the types of the options that the command itself declares. */
export function defineCommand<const O extends Options>(
  command: Omit<Command, 'options' | 'run'> & {
    readonly options: O;
    run(values: Values<O>, positionals: readonly string[], context: Context): Promise<ExitCode>;
  },
): Command {
  return {
    ...command,
    // The parser builds the values from these very options, so the declared types are what it delivers.
    run: (values, positionals, context) => command.run(values as Values<O>, positionals, context),
  };
}

/** Ends a command with one line on standard error: wrong usage, or input that cannot be used. */
export class CommandError extends Error {
  readonly exitCode: ExitCode = 2;
}
