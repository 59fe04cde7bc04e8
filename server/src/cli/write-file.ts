/** Writing that leaves the old file or the new one, never half of either. */

import { randomBytes } from 'node:crypto';
import {
  closeSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs';
import path from 'node:path';
import { CommandError } from './command.ts';
import { fileProblem } from './text-file.ts';

/**
 * Writes beside the target and renames over it. `replace: false` refuses where something of that name is already there.
 * Missing folders are made. Throws a `CommandError` of one line.
 */
export function writeFile(file: string, content: string | Uint8Array, options: { readonly replace: boolean }): void {
  if (!options.replace && existsSync(file)) throw new CommandError(`${file}: is already there; --force replaces it`);
  const folder = path.dirname(file);
  const beside = path.join(folder, `.${path.basename(file).slice(0, 100)}.${randomBytes(6).toString('hex')}.part`);
  try {
    const before = statSync(file, { throwIfNoEntry: false });
    if (before?.isDirectory()) throw new CommandError(`${file}: is a folder`);
    mkdirSync(folder, { recursive: true });
    const handle = openSync(beside, 'wx', before === undefined ? 0o666 : before.mode & 0o777);
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      for (let written = 0; written < bytes.length; ) written += writeSync(handle, bytes, written);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    renameSync(beside, file);
  } catch (error) {
    remove(beside);
    if (error instanceof CommandError) throw error;
    throw new CommandError(`${file}: ${fileProblem(error)}`);
  }
}

function remove(file: string): void {
  try {
    rmSync(file, { force: true });
  } catch {
    // The fault that is being told is the one that counts.
  }
}
