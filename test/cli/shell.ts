import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Analyser } from '../../server/src/analysis/analysis.ts';
import type { Command, ExitCode } from '../../server/src/cli/command.ts';
import { progressOn } from '../../server/src/cli/progress.ts';
import { run } from '../../server/src/cli/run.ts';
import { stylesFor } from '../../server/src/cli/styles.ts';
import { oneThread } from '../../server/src/cli/threads.ts';
import { analyser as samplesAnalyser } from '../support/sample-files.ts';

export interface Outcome {
  readonly code: ExitCode;
  readonly stdout: string;
  readonly stderr: string;
}

export interface Circumstances {
  readonly stdin?: string | Uint8Array;
  readonly terminal?: boolean;
  readonly environment?: Readonly<Record<string, string>>;
  /** Milliseconds that pass between any two looks at the clock. */
  readonly slow?: number;
  /** What somebody at the terminal answers to the questions, in order; empty answers after these. */
  readonly answers?: readonly string[];
}

/** Nothing of the surroundings: in a git hook, `GIT_DIR` would lead the tests into the repository that is being committed to. */
export const PATH_ONLY: Readonly<Record<string, string>> = { PATH: process.env.PATH ?? '' };

/** A folder of its own and a command line in it, without a process of its own. */
export class Shell {
  readonly folder: string;
  readonly #commands: readonly Command[];
  readonly #analyser: Analyser;

  constructor(commands: readonly Command[], analyser: Analyser = samplesAnalyser) {
    this.folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'pickup-shell-')));
    this.#commands = commands;
    // The next command of a test asks for the same files.
    this.#analyser = { ...analyser, forget: () => undefined };
  }

  path(file: string): string {
    return path.join(this.folder, file);
  }

  write(file: string, content: string | Uint8Array): string {
    mkdirSync(path.dirname(this.path(file)), { recursive: true });
    writeFileSync(this.path(file), content);
    return this.path(file);
  }

  async run(words: readonly string[], circumstances: Circumstances = {}): Promise<Outcome> {
    const { stdin = '', terminal = false, environment = PATH_ONLY, slow = 0, answers } = circumstances;
    const left = [...(answers ?? [])];
    const [stdout, stderr]: [string[], string[]] = [[], []];
    let now = 0;
    const error = { isTerminal: terminal, write: (text: string) => void stderr.push(text) };
    const clock = () => {
      now += slow;
      return now;
    };
    const code = await run(words, this.#commands, {
      cwd: this.folder,
      environment,
      stdout: { isTerminal: terminal, columns: terminal ? 72 : undefined, write: (text) => void stdout.push(text) },
      stderr: error,
      styles: stylesFor(terminal, environment),
      progress: progressOn(error, clock),
      readStandardInput: async () => (typeof stdin === 'string' ? Buffer.from(stdin, 'utf8') : stdin),
      ...(answers === undefined
        ? {}
        : {
            ask: async (question: string) => {
              stderr.push(question);
              return left.shift() ?? '';
            },
          }),
      analyser: this.#analyser,
      threads: oneThread(this.#analyser),
    });
    return { code, stdout: stdout.join(''), stderr: stderr.join('') };
  }

  remove(): void {
    rmSync(this.folder, { recursive: true, force: true });
  }
}
