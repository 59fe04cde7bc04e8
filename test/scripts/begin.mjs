/**
 * The start of every command of the README: brings npm's packages up to date with the lock file, then runs the script
 * named on the command line through tsx. Plain JavaScript without packages, because in a fresh clone there are none.
 */
import { spawnSync } from 'node:child_process';
import { existsSync, statSync } from 'node:fs';
import path from 'node:path';

const root = path.resolve(import.meta.dirname, '..', '..');
const [script = '', ...args] = process.argv.slice(2);

if (!packagesAreCurrent()) {
  console.error('installing npm packages');
  const done = npm(['ci', '--no-audit', '--no-fund', '--loglevel=error']);
  if (done !== 0) {
    console.error(`npm ci ended with code ${done}`);
    process.exit(1);
  }
}
process.exit(run(process.execPath, ['--import', 'tsx', path.resolve(root, script), ...args]));

function packagesAreCurrent() {
  const installed = path.join(root, 'node_modules', '.package-lock.json');
  return existsSync(installed) && statSync(installed).mtimeMs >= statSync(path.join(root, 'package-lock.json')).mtimeMs;
}

/** @param {string[]} npmArgs */
function npm(npmArgs) {
  const cli = process.env.npm_execpath;
  if (cli?.endsWith('js')) return run(process.execPath, [cli, ...npmArgs]);
  return run(process.platform === 'win32' ? 'npm.cmd' : 'npm', npmArgs);
}

/**
 * @param {string} command
 * @param {string[]} commandArgs
 */
function run(command, commandArgs) {
  const done = spawnSync(command, commandArgs, { cwd: root, stdio: 'inherit' });
  if (done.error) console.error(done.error.message);
  return done.status ?? 1;
}
