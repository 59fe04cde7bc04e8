/**
 * Opens an editor on the samples with the extension as it is built: desktop VS Code where one is installed, otherwise
 * VS Code from the npm registry at a local address. Run it with tsx, or call `openEditor`.
 */
import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { cacheFolder, findEditorParts } from '../host/editor-parts.ts';
import { pageAddress, startServer } from '../host/vscode-server.ts';
import { setUp } from './set-up.ts';
import { root } from './steps.ts';

/** Returns when the desktop editor is open, or when the person ends the npm-hosted one with Ctrl+C. */
export async function openEditor(folder: string = path.join(root, 'samples')): Promise<number> {
  const desktop = findDesktop();
  if (desktop !== undefined) {
    console.log(`opening ${desktop} on ${folder}`);
    spawn(desktop, [`--extensionDevelopmentPath=${root}`, '--new-window', folder], {
      detached: true,
      stdio: 'ignore',
      shell: process.platform === 'win32',
    }).unref();
    return 0;
  }
  for (const line of setUp({ editor: true })) console.error(line);
  const parts = findEditorParts();
  if (parts === undefined) return 1;
  const server = await startServer(parts, { dataFolder: path.join(cacheFolder(), 'editor-data') });
  console.log(`VS Code ${parts.vscodeVersion} with the extension, on ${folder}. Open this address in a browser:\n`);
  console.log(`  ${pageAddress(server.port, { extension: root, folder })}\n`);
  console.log('Ctrl+C ends it.');
  await new Promise<void>((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => resolve());
  });
  server.stop();
  return 0;
}

/** VS Code that VSCODE_EXECUTABLE names or that the shell finds, if there is a screen that it could open a window on. */
function findDesktop(): string | undefined {
  const named = process.env.VSCODE_EXECUTABLE;
  if (named !== undefined && named !== '') return named;
  const screen = process.platform !== 'linux' || Boolean(process.env.DISPLAY ?? process.env.WAYLAND_DISPLAY);
  // On Linux it refuses to run as root.
  if (!screen || process.getuid?.() === 0) return undefined;
  const names = process.platform === 'win32' ? ['code.cmd', 'codium.cmd'] : ['code', 'codium'];
  const folders = (process.env.PATH ?? '').split(path.delimiter);
  return folders.flatMap((folder) => names.map((name) => path.join(folder, name))).find((file) => existsSync(file));
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  process.exitCode = await openEditor(process.argv[2] === undefined ? undefined : path.resolve(process.argv[2]));
}
