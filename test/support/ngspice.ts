import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface SpiceSweep {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
}

export interface Sweep {
  readonly pointsPerDecade: number;
  readonly fromHz: number;
  readonly toHz: number;
}

/** Runs an AC sweep of a netlist in ngspice and returns the level of one node, in dB against 1 V. */
export function ngspiceSweep(netlist: string, node: string, sweep: Sweep): SpiceSweep {
  const { file } = runNgspice(netlist, [acOf(sweep), 'set wr_singlescale', wrdata('out.txt', node)]);
  return sweepIn(file);
}

/** The same of many netlists in one process: starting it takes longer than a sweep. */
export function ngspiceSweeps(
  circuits: readonly { readonly netlist: string; readonly node: string }[],
  sweep: Sweep,
): readonly SpiceSweep[] {
  return inFolder((folder) => {
    const commands = circuits.flatMap(({ netlist, node }, index) => {
      writeFileSync(join(folder, `${index}.cir`), netlist);
      return [`source ${index}.cir`, acOf(sweep), wrdata(`${index}.txt`, node), 'destroy all', 'remcirc'];
    });
    batch(folder, '* many circuits\n.end\n', ['set wr_singlescale', ...commands]);
    return circuits.map((_, index) => sweepIn(readFileSync(join(folder, `${index}.txt`), 'utf8')));
  });
}

const acOf = ({ pointsPerDecade, fromHz, toHz }: Sweep): string => `ac dec ${pointsPerDecade} ${fromHz} ${toHz}`;
const wrdata = (file: string, node: string): string => `wrdata ${file} vr(${node}) vi(${node})`;

function sweepIn(file: string): SpiceSweep {
  const rows = file
    .trim()
    .split('\n')
    .map((row) => row.trim().split(/\s+/).map(Number));
  return {
    frequencyHz: Float64Array.from(rows, ([hz = Number.NaN]) => hz),
    levelDb: Float64Array.from(rows, ([, re = Number.NaN, im = Number.NaN]) => 20 * Math.log10(Math.hypot(re, im))),
  };
}

/** Voltages of nodes at the operating point, in V: with 1 A put in, resistances. */
export function ngspiceOperatingPoint(netlist: string, nodes: readonly string[]): number[] {
  const { output } = runNgspice(netlist, ['op', ...nodes.map((node) => `print v(${node})`)]);
  return nodes.map((node) => {
    const found = new RegExp(`^v\\(${node}\\) = (\\S+)$`, 'im').exec(output);
    if (found === null) throw new Error(`ngspice printed no v(${node}):\n${output}`);
    return Number(found[1]);
  });
}

export interface NgspiceRun {
  readonly output: string;
  /** What the commands wrote to out.txt; empty where they wrote nothing. */
  readonly file: string;
  readonly wholeProcessMs: number;
}

/** Runs a netlist with commands in ngspice's batch mode. */
export function runNgspice(netlist: string, commands: readonly string[]): NgspiceRun {
  return inFolder((folder) => {
    writeFileSync(join(folder, 'out.txt'), '');
    const run = batch(folder, netlist, commands);
    return { ...run, file: readFileSync(join(folder, 'out.txt'), 'utf8') };
  });
}

function inFolder<T>(work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'netlist-'));
  try {
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function batch(folder: string, netlist: string, commands: readonly string[]): Omit<NgspiceRun, 'file'> {
  const control = ['.control', 'set numdgt=15', ...commands, '.endc', '.end', ''].join('\n');
  writeFileSync(join(folder, 'circuit.cir'), netlist.replace(/\.end\s*$/, control));
  const started = performance.now();
  const run = spawnSync('ngspice', ['-n', '-b', 'circuit.cir'], { cwd: folder, encoding: 'utf8', maxBuffer: 2 ** 26 });
  const wholeProcessMs = performance.now() - started;
  if (run.error !== undefined) throw new Error(missingNgspice(run.error));
  const output = `${run.stdout}${run.stderr}`;
  // Batch mode ends with an error status when there is nothing to plot, so only the text tells of a real error.
  if (/^\s*(?:fatal )?error/im.test(output)) throw new Error(`ngspice: ${output}`);
  return { output, wholeProcessMs };
}

function missingNgspice(error: Error): string {
  return 'code' in error && error.code === 'ENOENT'
    ? 'ngspice is not installed and this test compares with it: install the Debian package ngspice'
    : `ngspice did not run: ${error.message}`;
}
