import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface SpiceSweep {
  readonly frequencyHz: Float64Array;
  readonly levelDb: Float64Array;
}

/** Runs an AC sweep of a netlist in ngspice and returns the level of one node, in dB against 1 V. */
export function ngspiceSweep(
  netlist: string,
  node: string,
  sweep: { readonly pointsPerDecade: number; readonly fromHz: number; readonly toHz: number },
): SpiceSweep {
  const { pointsPerDecade, fromHz, toHz } = sweep;
  const commands = [
    `ac dec ${pointsPerDecade} ${fromHz} ${toHz}`,
    'set wr_singlescale',
    `wrdata out.txt vr(${node}) vi(${node})`,
  ];
  const rows = runNgspice(netlist, commands)
    .file.trim()
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
  const folder = mkdtempSync(join(tmpdir(), 'netlist-'));
  try {
    const control = ['.control', 'set numdgt=15', ...commands, '.endc', '.end', ''].join('\n');
    writeFileSync(join(folder, 'circuit.cir'), netlist.replace(/\.end\s*$/, control));
    writeFileSync(join(folder, 'out.txt'), '');
    const started = performance.now();
    const run = spawnSync('ngspice', ['-n', '-b', 'circuit.cir'], { cwd: folder, encoding: 'utf8' });
    const wholeProcessMs = performance.now() - started;
    if (run.error !== undefined) throw new Error(missingNgspice(run.error));
    const output = `${run.stdout}${run.stderr}`;
    // Batch mode ends with an error status when there is nothing to plot, so only the text tells of a real error.
    if (/^\s*(?:fatal )?error/im.test(output)) throw new Error(`ngspice: ${output}`);
    return { output, file: readFileSync(join(folder, 'out.txt'), 'utf8'), wholeProcessMs };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function missingNgspice(error: Error): string {
  return 'code' in error && error.code === 'ENOENT'
    ? 'ngspice is not installed and this test compares with it: install the Debian package ngspice'
    : `ngspice did not run: ${error.message}`;
}
