import { spawn, spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import type { EditorParts } from './editor-parts.ts';

export interface RunningServer {
  readonly port: number;
  /** Ends the server with everything that it started. */
  stop(): void;
}

export interface ServerOptions {
  /** Folder for the server's state and the user's settings; one per running server. */
  readonly dataFolder: string;
  readonly extensionsFolder?: string;
  readonly settings?: Readonly<Record<string, unknown>>;
  /** Of the extensions that the editor brings, only these; left out for all. */
  readonly broughtExtensions?: readonly string[];
}

export interface PageOptions {
  /** Folder of the unpacked extension; left out where the page gets it in another way. */
  readonly extension?: string;
  /** Module that exports `run()`; left out where nobody tests. */
  readonly tests?: string;
  /** Folder to open; left out for an empty window. */
  readonly folder?: string;
  readonly file?: string;
}

/** Starts VS Code's server on a free port of this machine only, and waits until it answers. */
export async function startServer(parts: EditorParts, options: ServerOptions): Promise<RunningServer> {
  const port = await freePort();
  const user = path.join(options.dataFolder, 'data', 'User');
  mkdirSync(user, { recursive: true });
  writeFileSync(path.join(user, 'settings.json'), JSON.stringify({ ...quiet, ...options.settings }, undefined, 2));
  const server = spawn(
    parts.node,
    [
      parts.serverMain,
      ...['--host', '127.0.0.1', '--port', String(port), '--without-connection-token'],
      '--accept-server-license-terms',
      ...['--server-data-dir', options.dataFolder],
      ...['--extensions-dir', options.extensionsFolder ?? path.join(options.dataFolder, 'extensions')],
      ...(options.broughtExtensions === undefined
        ? []
        : ['--builtin-extensions-dir', linksTo(parts, options.broughtExtensions, options.dataFolder)]),
      '--disable-telemetry',
      '--disable-workspace-trust',
      // Without it the server ignores which extension to run and which tests.
      '--enable-smoke-test-driver',
    ],
    { stdio: ['ignore', 'pipe', 'pipe'], detached: process.platform !== 'win32', env: environment() },
  );
  const stop = (): void => {
    if (server.pid === undefined || server.exitCode !== null) return;
    try {
      // The server leads a process group of its own: its extension hosts end with it.
      if (process.platform === 'win32') server.kill();
      else process.kill(-server.pid, 'SIGTERM');
    } catch {
      server.kill();
    }
  };
  process.once('exit', stop);

  await new Promise<void>((resolve, reject) => {
    let output = '';
    const listen = (chunk: Buffer): void => {
      output += chunk.toString();
      if (output.includes('Extension host agent started')) resolve();
    };
    server.stdout.on('data', listen);
    server.stderr.on('data', listen);
    server.once('error', reject);
    server.once('exit', (code) => reject(new Error(`the editor's server ended with code ${code}:\n${output}`)));
  });
  return { port, stop };
}

/** A folder that holds only these of the extensions that the editor brings. */
function linksTo(parts: EditorParts, names: readonly string[], dataFolder: string): string {
  const folder = path.join(dataFolder, 'brought');
  mkdirSync(folder);
  const all = path.resolve(path.dirname(parts.serverMain), '..', 'extensions');
  for (const name of names) symlinkSync(path.join(all, name), path.join(folder, name), 'junction');
  return folder;
}

/** Installs a package as a person would, into a folder that a server is then started with. */
export function installPackage(parts: EditorParts, vsix: string, dataFolder: string, extensionsFolder: string): void {
  const folders = ['--server-data-dir', dataFolder, '--extensions-dir', extensionsFolder];
  const installed = spawnSync(
    parts.node,
    [parts.serverMain, '--install-extension', vsix, ...folders, '--accept-server-license-terms'],
    { env: environment(), encoding: 'utf8' },
  );
  if (installed.status !== 0 || !/successfully installed/.test(installed.stdout))
    throw new Error(`${vsix} could not be installed:\n${installed.stdout}${installed.stderr}`);
}

/** The local address of the workbench with the extension and, where asked for, its tests. */
export function pageAddress(port: number, options: PageOptions): string {
  const remote = (file: string): string => `vscode-remote://127.0.0.1:${port}${encodeURI(file)}`;
  const payload: [string, string][] = [['skipWelcome', 'true']];
  if (options.extension !== undefined) payload.push(['extensionDevelopmentPath', remote(options.extension)]);
  if (options.tests !== undefined) payload.push(['extensionTestsPath', remote(options.tests)]);
  if (options.file !== undefined) payload.push(['openFile', remote(options.file)]);
  const opened: Record<string, string> = options.folder === undefined ? { ew: 'true' } : { folder: options.folder };
  const query = new URLSearchParams({ ...opened, payload: JSON.stringify(payload) });
  return `http://127.0.0.1:${port}/?${query.toString()}`;
}

/** A port of this machine that nobody listens on. */
export async function freePort(): Promise<number> {
  return await new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => {
        if (typeof address === 'object' && address !== null) resolve(address.port);
        else reject(new Error('no free port'));
      });
    });
  });
}

const quiet: Readonly<Record<string, unknown>> = {
  'chat.disableAIFeatures': true,
  'extensions.autoCheckUpdates': false,
  'extensions.ignoreRecommendations': true,
  'git.openRepositoryInParentFolders': 'never',
  'telemetry.telemetryLevel': 'off',
  'update.mode': 'none',
  'workbench.secondarySideBar.defaultVisibility': 'hidden',
  'workbench.startupEditor': 'none',
  'workbench.tips.enabled': false,
};

/** The caller's environment without what makes the server believe that it runs inside another VS Code or npm. */
function environment(): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(([key]) => !/^(VSCODE_|npm_|NODE_OPTIONS$)/.test(key));
  // No marketplace: an editor that is here to show one extension has nothing to ask the network for.
  return { ...Object.fromEntries(kept), EXTENSIONS_GALLERY: '{}' };
}
