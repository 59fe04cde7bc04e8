/** The disk as the analysis sees it: one state per run, nothing outside the workspace, nothing but spec files. */
import { existsSync, readdirSync, realpathSync, statSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { recent } from '../../../grammar/values/remember.ts';
import type { Analysis, FileContent, Host } from '../analysis/analysis-types.ts';
import { isCurveName } from '../model/curve-file.ts';
import { type FileBytes, isPhotoName, type PhotoFile, photoFile, unreadPhoto } from '../photos/photo-file.ts';
import { CommandError } from './command.ts';
import { fileProblem, readPhotoFile, readTextFile } from './text-file.ts';

export const uriOf = (file: string): string => pathToFileURL(file).href;

/** The path of a file URI; other schemes have none. */
export function pathOf(uri: string): string | undefined {
  try {
    return fileURLToPath(uri);
  } catch {
    return undefined;
  }
}

/** The files that an analysis was made from. */
export const filesOf = ({ uris }: Analysis): readonly string[] => uris.flatMap((uri) => pathOf(uri) ?? []);

/** A path as results name it: from the folder where the command was given, with forward slashes; absolute outside it. */
export function shownPath(file: string, cwd: string): string {
  const relative = path.relative(cwd, file);
  return (relative !== '' && lies(file, cwd) ? relative : file).split(path.sep).join('/');
}

/** A path as paper names it: from the workspace on, never from the root of one machine's disk. */
export const shownInWorkspace = (file: string, root: string): string =>
  (lies(file, root) ? path.relative(root, file) : path.basename(file)).split(path.sep).join('/');

/**
 * The folder that `use` may not leave: the one stated; else the nearest folder upward that holds `.git`; else the current
 * folder where it holds the file; else the file's own.
 */
export function workspaceRoot(file: string, stated: string | undefined, cwd: string): string {
  if (stated !== undefined) {
    const root = path.resolve(cwd, stated);
    if (!isFolder(root)) throw new CommandError(`--root ${stated}: no such folder`);
    return root;
  }
  const folder = path.dirname(path.resolve(cwd, file));
  for (let at = folder; ; at = path.dirname(at)) {
    if (existsSync(path.join(at, '.git'))) return at;
    if (at === path.dirname(at)) break;
  }
  return lies(folder, cwd) ? cwd : folder;
}

/** Contents kept: parts files are asked for with each file that uses them. */
export const KEPT_CONTENTS = 64;

/** Reads through the disk, except what `given` holds by URI (standard input). Each file is read once, or once in a long while. */
export function diskHost(root: string, given: ReadonlyMap<string, string> = new Map()): Host {
  const realRoot = real(root);
  const read = recent<string, FileContent>(KEPT_CONTENTS);
  const photos = recent<string, PhotoFile>(KEPT_CONTENTS);
  const places = recent<string, { readonly isInside: boolean }>(KEPT_CONTENTS);
  const isInWorkspace = (file: string | undefined): boolean =>
    file !== undefined && lies(file, root) && lies(real(file), realRoot);
  return {
    content(uri) {
      const text = given.get(uri);
      return text === undefined ? read(uri, () => readContent(uri)) : { kind: 'text', text };
    },
    isInside: (uri) => places(uri, () => ({ isInside: isInWorkspace(pathOf(uri)) })).isInside,
    siblings: (uri) => namesBeside(uri, root, isSpecName),
    photo: (uri) => photos(uri, () => photoFile(photoBytes(uri))),
    photosNear: (uri) => namesBeside(uri, root, isPhotoName),
    curvesNear: (uri) => namesBeside(uri, root, isCurveName),
  };
}

/** The spec files that the arguments name, each once: a folder stands for all in it. Unusable arguments come as problems. */
export function specFiles(
  named: readonly string[],
  cwd: string,
): { readonly files: readonly string[]; readonly problems: readonly string[] } {
  // By what lies behind links.
  const files = new Map<string, string>();
  const problems: string[] = [];
  for (const name of named) {
    const at = path.resolve(cwd, name);
    try {
      const found = statSync(at).isDirectory() ? specsUnder(at, problems, cwd) : [at];
      for (const file of found) {
        const behind = real(file);
        if (!files.has(behind)) files.set(behind, file);
      }
    } catch (error) {
      problems.push(`${name}: ${fileProblem(error)}`);
    }
  }
  return { files: [...files.values()], problems };
}

/** `*.pickup` in a folder and below, in order of path; `node_modules`, folders with a dot in front, and links to folders are left out. */
function specsUnder(folder: string, problems: string[], cwd: string): readonly string[] {
  const found: string[] = [];
  const waiting = [folder];
  for (let at = waiting.pop(); at !== undefined; at = waiting.pop()) {
    try {
      for (const entry of readdirSync(at, { withFileTypes: true })) {
        const file = path.join(at, entry.name);
        if (entry.isDirectory()) {
          if (entry.name !== 'node_modules' && !entry.name.startsWith('.')) waiting.push(file);
        } else if (entry.name.endsWith('.pickup') && !(entry.isSymbolicLink() && isFolder(file))) found.push(file);
      }
    } catch (error) {
      problems.push(`${shownPath(at, cwd)}: ${fileProblem(error)}`);
    }
  }
  return found.sort((a, b) => (a < b ? -1 : 1));
}

function readContent(uri: string): FileContent {
  const file = pathOf(uri);
  if (file === undefined) return { kind: 'unreadable', reason: 'is not a file' };
  const content = readTextFile(file);
  if (content.ok) return { kind: 'text', text: content.text };
  return content.missing ? { kind: 'missing' } : { kind: 'unreadable', reason: content.problem };
}

/** The file of a photograph; whether it lies inside is asked before. */
export function photoBytes(uri: string): FileBytes {
  const file = pathOf(uri);
  return file === undefined ? unreadPhoto('it is not a file') : readPhotoFile(file);
}

const isSpecName = (name: string): boolean => name.endsWith('.pickup');

/** In the folder of a file of the workspace. */
function namesBeside(uri: string, root: string, isWanted: (name: string) => boolean): readonly string[] {
  const file = pathOf(uri);
  if (file === undefined || !lies(file, root)) return [];
  try {
    return readdirSync(path.dirname(file)).filter(isWanted).sort();
  } catch {
    return [];
  }
}

/** What links to itself is none, and is told when it is read. */
function isFolder(at: string): boolean {
  try {
    return statSync(at).isDirectory();
  } catch {
    return false;
  }
}

export function lies(file: string, folder: string): boolean {
  const relative = path.relative(folder, file);
  return relative === '' || !(relative === '..' || relative.startsWith(`..${path.sep}`) || path.isAbsolute(relative));
}

/** The path behind links, as far as it exists. */
function real(file: string): string {
  try {
    return realpathSync.native(file);
  } catch {
    const parent = path.dirname(file);
    return parent === file ? file : path.join(real(parent), path.basename(file));
  }
}
