import { spawn } from 'node:child_process';
import path from 'node:path';

/** One part of a longer run: a name for people, and a script with its arguments. */
export interface Step {
  readonly name: string;
  readonly script: string;
  readonly args?: readonly string[];
  readonly env?: NodeJS.ProcessEnv;
}

export interface Totals {
  readonly passed: number;
  readonly failed: number;
}

export interface StepResult {
  readonly exitCode: number;
  /** What the step's suites said; undefined where it ran none or did not get to the end. */
  readonly totals: Totals | undefined;
}

export const root = path.resolve(import.meta.dirname, '..', '..');

/** Where the tools' own start files lie: started by file, so that no shell and no global tool is in between. */
export const tools = {
  tsc: 'node_modules/typescript/bin/tsc',
  biome: 'node_modules/@biomejs/biome/bin/biome',
  mocha: 'node_modules/mocha/bin/mocha.js',
} as const;

/** Runs lanes side by side, the steps of each one after the other: the first lane shows its output while it runs, the others when all have ended. */
export async function runTogether(lanes: readonly (readonly Step[])[]): Promise<readonly (readonly StepResult[])[]> {
  const held: string[][] = lanes.map(() => []);
  const results = await Promise.all(
    lanes.map(async (steps, lane) => {
      const show: Show = lane === 0 ? (text) => process.stdout.write(text) : (text) => held[lane]?.push(text);
      const done: StepResult[] = [];
      for (const step of steps) {
        show(`\n== ${step.name}\n`);
        done.push(await runStep(step, lane === 0 ? undefined : show));
      }
      return done;
    }),
  );
  process.stdout.write(held.flat().join(''));
  return results;
}

type Show = (text: string) => unknown;

/** Runs a step in the repository's root, shows its output while it runs, here or where it is held back, and adds up the totals it prints. */
export async function runStep(step: Step, hold?: Show): Promise<StepResult> {
  const loader = step.script.endsWith('.ts') ? ['--import', 'tsx'] : [];
  const child = spawn(process.execPath, [...loader, path.join(root, step.script), ...(step.args ?? [])], {
    cwd: root,
    stdio: ['inherit', 'pipe', hold === undefined ? 'inherit' : 'pipe'],
    // The pipe hides the terminal from the child; what is shown on a terminal may still be coloured.
    env: { ...process.env, ...(process.stdout.isTTY ? { FORCE_COLOR: '1' } : {}), ...step.env },
  });
  const show: Show = hold ?? ((text) => process.stdout.write(text));
  let output = '';
  child.stdout?.setEncoding('utf8').on('data', (text: string) => {
    output += text;
    show(text);
  });
  child.stderr?.setEncoding('utf8').on('data', show);
  const exitCode = await new Promise<number>((resolve) => {
    child.once('error', (error) => {
      console.error(error.message);
      resolve(1);
    });
    child.once('close', (code) => resolve(code ?? 1));
  });
  return { exitCode, totals: totalsIn(output) };
}

/** The sum of the lines `unit: 3 passed, 0 failed` and `editor: 2 passed, 1 failed` in what a step printed. */
export function totalsIn(output: string): Totals | undefined {
  const lines = [...output.matchAll(/^(?:unit|editor): (\d+) passed, (\d+) failed\r?$/gm)];
  if (lines.length === 0) return undefined;
  return lines.reduce<Totals>(
    (sum, line) => ({ passed: sum.passed + Number(line[1]), failed: sum.failed + Number(line[2]) }),
    { passed: 0, failed: 0 },
  );
}
