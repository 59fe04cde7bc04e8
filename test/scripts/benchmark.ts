/** Runs every benchmark of test/benchmarks, one after the other so that none disturbs another. */
import { readdirSync } from 'node:fs';
import path from 'node:path';
import { root, runStep } from './steps.ts';

const folder = path.join('test', 'benchmarks');
const benchmarks = readdirSync(path.join(root, folder)).filter((name) => name.endsWith('.benchmark.ts'));
if (benchmarks.length === 0) {
  console.error(`no benchmark in ${folder}`);
  process.exitCode = 1;
}
for (const name of benchmarks.sort()) {
  console.log(`\n== ${name}`);
  const { exitCode } = await runStep({
    name,
    script: path.join('test', 'scripts', 'benchmark-one.ts'),
    args: [path.join(folder, name)],
  });
  if (exitCode !== 0) process.exitCode = 1;
}
