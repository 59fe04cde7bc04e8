import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';

/** The npm-hosted VS Code: what to start, with which Node, and which version of VS Code it is. */
export interface EditorParts {
  readonly node: string;
  readonly serverMain: string;
  readonly vscodeVersion: string;
}

/** The newest, or, with EDITOR_VERSION=oldest, the oldest that the registry has of those that the extension supports. */
const wanted = path.join(import.meta.dirname, process.env.EDITOR_VERSION === 'oldest' ? 'editor-oldest' : 'editor');

/** Where downloads are kept between runs; outside the tree that is packaged. */
export function cacheFolder(): string {
  return process.env.PICKUP_SPEC_CACHE ?? path.join(homedir(), '.cache', 'pickup-spec');
}

/** The installed parts, or undefined where they have to be installed first. */
export function findEditorParts(): EditorParts | undefined {
  const folder = editorFolder();
  return existsSync(path.join(folder, 'complete')) ? partsIn(folder) : undefined;
}

/**
 * Installs the parts beside the cache's other versions. The folder gets its final name only when everything is in
 * place, so an interrupted download is never taken for a complete one.
 */
export function installEditorParts(log: (line: string) => void): EditorParts {
  const folder = editorFolder();
  const draft = `${folder}.${process.pid}`;
  rmSync(draft, { recursive: true, force: true });
  mkdirSync(draft, { recursive: true });
  cpSync(path.join(wanted, 'package.json'), path.join(draft, 'package.json'));
  cpSync(path.join(wanted, 'package-lock.json'), path.join(draft, 'package-lock.json'));

  log(`installing the editor for tests into ${folder} (once, about 600 MB)`);
  // Install scripts stay off: they build the terminal and more, which wants system libraries that no test needs.
  npm(draft, ['ci', '--ignore-scripts']);
  const nodePackage = path.join(draft, 'node_modules', 'node');
  run(process.execPath, ['installArchSpecificPackage.js'], nodePackage);
  const vscode = path.join(draft, 'node_modules', 'code-server', 'lib', 'vscode');
  npm(vscode, ['install', '--omit=dev', '--ignore-scripts']);
  // Older ones fetch their search of files from outside the registry by a script of its own, which stays off as well.
  const search = path.join(
    'node_modules',
    '@vscode',
    'ripgrep-universal',
    'bin',
    `${process.platform}-${process.arch}`,
  );
  if (existsSync(path.join(draft, search)))
    cpSync(path.join(draft, search), path.join(vscode, 'node_modules', '@vscode', 'ripgrep', 'bin'), {
      recursive: true,
    });
  // The extension host does not start without these two; both are Node-API modules, so any headers will do.
  npm(vscode, ['rebuild', '@vscode/spdlog', '@vscode/native-watchdog'], headersOf(nodePackage));

  writeFileSync(path.join(draft, 'complete'), '');
  rmSync(folder, { recursive: true, force: true });
  renameSync(draft, folder);
  return partsIn(folder);
}

function editorFolder(): string {
  const lock = readFileSync(path.join(wanted, 'package-lock.json'));
  return path.join(cacheFolder(), 'editor-host', createHash('sha256').update(lock).digest('hex').slice(0, 12));
}

function partsIn(folder: string): EditorParts {
  const vscode = path.join(folder, 'node_modules', 'code-server', 'lib', 'vscode');
  const manifest: unknown = JSON.parse(readFileSync(path.join(vscode, 'package.json'), 'utf8'));
  const version = typeof manifest === 'object' && manifest !== null && 'version' in manifest ? manifest.version : '?';
  return {
    node: path.join(folder, 'node_modules', 'node', 'bin', 'node'),
    serverMain: path.join(vscode, 'out', 'server-main.js'),
    vscodeVersion: String(version),
  };
}

function headersOf(nodePackage: string): NodeJS.ProcessEnv {
  const platformPackage = path.join(nodePackage, 'node_modules', `node-${process.platform}-${process.arch}`);
  return existsSync(path.join(platformPackage, 'include')) ? { npm_config_nodedir: platformPackage } : {};
}

function npm(folder: string, args: readonly string[], extraEnv: NodeJS.ProcessEnv = {}): void {
  const quiet = ['--no-audit', '--no-fund', '--loglevel=error'];
  const cli = process.env.npm_execpath;
  if (cli?.endsWith('.js') || cli?.endsWith('.cjs')) run(process.execPath, [cli, ...args, ...quiet], folder, extraEnv);
  else run('npm', [...args, ...quiet], folder, extraEnv);
}

function run(command: string, args: readonly string[], cwd: string, extraEnv: NodeJS.ProcessEnv = {}): void {
  // npm hands its own settings down to what it starts; those of the calling script must not reach these installs.
  const env = Object.fromEntries(
    Object.entries(process.env).filter(([key]) => !/^npm_(lifecycle_|package_|config_local_prefix)/.test(key)),
  );
  const done = spawnSync(command, args, { cwd, env: { ...env, ...extraEnv }, encoding: 'utf8' });
  if (done.status === 0) return;
  const reason = done.error?.message ?? `${done.stdout}\n${done.stderr}`.trim();
  throw new Error(`'${path.basename(command)} ${args.join(' ')}' failed in ${cwd}:\n${reason}`);
}
