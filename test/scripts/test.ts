/** Everything that has to hold, in one run. The last line says how many tests passed and failed. */

import { setUp } from './set-up.ts';
import { runTogether, type Step, tools } from './steps.ts';

const desktop = process.env.VSCODE_EXECUTABLE ?? '';

interface Suite extends Step {
  readonly tests: true;
}

/**
 * One row after the other; the lanes of a row side by side, the steps of a lane one after the other. The tests in the editor often wait
 * for its window, and what they leave of the cores the other tests take.
 */
const rows: readonly (readonly (readonly (Step | Suite)[])[])[] = [
  [
    // Threads that check side by side work out twice what they share, and lint and build want the cores.
    [{ name: 'typecheck', script: tools.tsc, args: ['--noEmit', '--singleThreaded'] }],
    [{ name: 'lint', script: tools.biome, args: ['check', '.'] }],
    [{ name: 'build', script: 'test/scripts/build.ts' }],
  ],
  [
    [{ name: 'unit tests', script: tools.mocha, args: ['--reporter', './test/host/totals-reporter.cjs'], tests: true }],
    [
      { name: 'tests in the editor', script: 'test/editor/run.ts', tests: true },
      // Desktop VS Code runs web extensions too, but not at the wish of a command line: that flavour is the npm host's.
      {
        name: 'tests in the editor, extension in a web worker',
        script: 'test/editor/run.ts',
        env: { EDITOR_FLAVOUR: 'web', VSCODE_EXECUTABLE: '' },
        tests: true,
      },
    ],
  ],
];

const wrong: string[] = [];
let passed = 0;
let failed = 0;

for (const line of setUp({ ngspice: true, pictures: true, git: true, browser: true, editor: true })) {
  console.error(line);
  wrong.push('set-up');
}
if (desktop !== '') console.log(`desktop VS Code: ${desktop}`);
for (const row of wrong.length === 0 ? rows : []) {
  const results = await runTogether(row);
  for (const [index, step] of row.flat().entries()) {
    const { exitCode = 1, totals } = results.flat()[index] ?? {};
    passed += totals?.passed ?? 0;
    failed += totals?.failed ?? 0;
    // A suite that says nothing, or counts no test, has not shown anything.
    if (exitCode !== 0 || ('tests' in step && (totals?.passed ?? 0) === 0)) wrong.push(step.name);
  }
}

console.log(wrong.length === 0 ? '\nall steps passed' : `\nfailed: ${wrong.join(', ')}`);
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = wrong.length === 0 && failed === 0 && passed > 0 ? 0 : 1;
