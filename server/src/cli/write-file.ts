/** The one way in which a file is written: the old one stays whole until the new one is complete, and nothing else is lost. */

import { randomBytes } from 'node:crypto';
import {
  accessSync,
  closeSync,
  constants,
  fchmodSync,
  fchownSync,
  fsyncSync,
  linkSync,
  lstatSync,
  mkdirSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  type Stats,
  statSync,
  writeSync,
} from 'node:fs';
import path from 'node:path';
import { CommandError } from './command.ts';
import type { Context } from './context.ts';
import { shownPath } from './files.ts';
import { temporarily } from './temporary.ts';
import { errorCode, fileProblem } from './text-file.ts';
import { visible } from './visible.ts';

export interface WriteOptions {
  /** Without it, what is already there is refused. */
  readonly replace: boolean;
  /** Files that the content was made from: whatever is asked for, they are not replaced by it. */
  readonly madeFrom?: readonly string[];
}

/**
 * Writes what a command has made. Missing folders are made, a link is followed, mode and owner stay. A spec, a pipe, a device,
 * a folder, a write-protected file and one that has several names are never replaced. Rejects with a `CommandError` of one line.
 */
export function writeFile(file: string, content: string | Uint8Array, options: WriteOptions): Promise<void> {
  return written(file, () => {
    const target = targetOf(file);
    if (target.before && !options.replace) throw new CommandError(`${file}: is already there; --force replaces it`);
    if (target.before && isSpec(file, target, options.madeFrom ?? [])) {
      throw new CommandError(`${file}: is a spec, and no output replaces one`);
    }
    mkdirSync(path.dirname(target.file), { recursive: true });
    withNew(target, content, (made) => (target.before ? renameSync(made, target.file) : place(made, target.file)));
  });
}

/** The same for what an option names: written, and its path told. */
export async function writeOutput(
  output: string,
  content: string | Uint8Array,
  options: WriteOptions,
  { cwd, stdout }: Pick<Context, 'cwd' | 'stdout'>,
): Promise<void> {
  const target = path.resolve(cwd, output);
  await writeFile(target, content, options);
  stdout.write(`${visible(shownPath(target, cwd))}\n`);
}

/** Replaces a file by another form of itself, unless it no longer holds what was read: a newer save stays, and that is told. */
export function rewriteFile(file: string, read: Uint8Array, content: string): Promise<void> {
  return written(file, () => {
    const target = targetOf(file);
    const newer = new CommandError(`${file}: left as it is, for it was saved anew in the meantime`);
    if (!target.before) throw newer;
    withNew(target, content, (made) => {
      // A second name: what somebody writes into the old file while it is replaced is still there, and comes back.
      const old = besideName(target.file);
      const isKept = tryLink(target.file, old);
      try {
        if (!holds(isKept ? old : target.file, read)) throw newer;
        renameSync(made, target.file);
        if (!isKept || holds(old, read)) return;
        renameSync(old, target.file);
        throw newer;
      } finally {
        if (isKept) rmSync(old, { force: true });
      }
    });
  });
}

interface Target {
  /** Behind links. */
  readonly file: string;
  readonly before: Stats | undefined;
}

async function written(file: string, write: () => void): Promise<void> {
  try {
    await temporarily(write);
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw new CommandError(`${file}: ${fileProblem(error)}`);
  }
}

function targetOf(file: string): Target {
  if (lstatSync(file, { throwIfNoEntry: false }) === undefined) return { file, before: undefined };
  const before = statSync(file, { throwIfNoEntry: false });
  const problem = before === undefined ? 'is a link to nothing' : unwritable(file, before);
  if (problem !== undefined) throw new CommandError(`${file}: ${problem}`);
  return { file: realpathSync(file), before };
}

function unwritable(file: string, stats: Stats): string | undefined {
  if (stats.isDirectory()) return 'is a folder';
  if (!stats.isFile()) return 'is no plain file, and nothing is put in its place';
  // Renaming over it would part the names, and writing into it could leave it half written under all of them.
  if (stats.nlink > 1) return 'has another name (a hard link), which would keep the old content';
  // To the superuser every file is open for writing; the mark on it counts all the same.
  if ((stats.mode & 0o222) === 0) return 'is write-protected';
  try {
    accessSync(file, constants.W_OK);
    return undefined;
  } catch {
    return 'is write-protected';
  }
}

function isSpec(file: string, target: Target, madeFrom: readonly string[]): boolean {
  const isNamedSo = [file, target.file].some((name) => name.toLowerCase().endsWith('.pickup'));
  return (
    isNamedSo ||
    madeFrom.some((source) => {
      const stats = statSync(source, { throwIfNoEntry: false });
      return stats !== undefined && stats.ino === target.before?.ino && stats.dev === target.before.dev;
    })
  );
}

/** Makes the complete new file beside the target; `use` puts it in its place. Nothing is left of it otherwise. */
function withNew({ file, before }: Target, content: string | Uint8Array, use: (made: string) => void): void {
  const made = besideName(file);
  try {
    const handle = openSync(made, 'wx', before ? 0o600 : 0o666);
    try {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
      if (before) keepOwner(handle, file, before);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    use(made);
  } finally {
    rmSync(made, { force: true });
  }
}

function keepOwner(handle: number, file: string, { uid, gid, mode }: Stats): void {
  if (process.platform !== 'win32') {
    try {
      fchownSync(handle, uid, gid);
    } catch {
      throw new CommandError(`${file}: belongs to somebody else, and would not any more`);
    }
  }
  fchmodSync(handle, mode & 0o7777);
}

/** Under a name that was free: what came there in the meantime stays. */
function place(made: string, file: string): void {
  try {
    linkSync(made, file);
  } catch (error) {
    if (errorCode(error) === 'EEXIST') throw new CommandError(`${file}: is already there; --force replaces it`);
    // A file system without second names.
    renameSync(made, file);
  }
}

function tryLink(file: string, other: string): boolean {
  try {
    linkSync(file, other);
    return true;
  } catch {
    return false;
  }
}

const holds = (file: string, content: Uint8Array): boolean => readFileSync(file).equals(content);

const besideName = (file: string): string =>
  path.join(path.dirname(file), `.${path.basename(file).slice(0, 60)}.${randomBytes(6).toString('hex')}.part`);
