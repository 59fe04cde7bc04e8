/**
 * Writes dist/pickup-spec.vsix with the editor's own packaging tool, which is fetched from the npm registry when it is
 * needed: it brings 340 packages along, too many for everybody who only wants to build and test.
 */
import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { root } from './steps.ts';

const tool = '@vscode/vsce@3.9.2';
const output = path.join('dist', 'pickup-spec.vsix');

/** 2 January 1980, the first day that an archive can name in every time zone. */
const FIRST_DAY_OF_ZIP = '315619200';

const npm = process.env.npm_execpath;
const command = npm?.endsWith('js') ? [process.execPath, npm] : ['npm'];
const [program = 'npm', ...first] = command;
const done = spawnSync(
  program,
  [
    ...first,
    'exec',
    '--yes',
    `--package=${tool}`,
    '--',
    'vsce',
    'package',
    // Everything is bundled; links in the README work inside the editor as they are.
    '--no-dependencies',
    '--no-rewrite-relative-links',
    '--out',
    output,
  ],
  // The package's bytes depend on nothing but its contents: not on the hour.
  { cwd: root, stdio: 'inherit', env: { ...process.env, SOURCE_DATE_EPOCH: FIRST_DAY_OF_ZIP } },
);
if (done.error) console.error(done.error.message);
process.exitCode = done.status ?? 1;
