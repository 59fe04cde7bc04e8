import {
  closeSync,
  constants,
  fstatSync,
  openSync,
  promises,
  readdirSync,
  readFileSync,
  realpathSync,
  statSync,
} from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import type { FileContent } from '../analysis/analysis-types.ts';
import { type FileBytes, MOST_PHOTO_BYTES, tooManyBytes, unreadPhoto } from '../photos/photo-file.ts';
import type { Disk } from './files.ts';
import { decodeText, MOST_BYTES, MOST_SPECS, tooLarge } from './text-limits.ts';

/** The disk through Node. Only regular files of a sensible size are read; anything else is told in one line. */
export const nodeDisk: Disk = {
  stamp: (uri) => {
    try {
      const { mtimeMs, size, ino } = statSync(fileURLToPath(uri));
      return `${mtimeMs} ${size} ${ino}`;
    } catch (error) {
      return isAbsent(error) ? undefined : 'unknown';
    }
  },
  read: (uri) => {
    try {
      return readFile<FileContent>(fileURLToPath(uri), MOST_BYTES, tooLarge, decodeText);
    } catch (error) {
      return isAbsent(error) ? { kind: 'missing' } : { kind: 'unreadable', reason: reasonOf(error) };
    }
  },
  bytes: (uri) => {
    try {
      const whole = (bytes: Uint8Array): FileBytes => ({ kind: 'bytes', bytes });
      const file = readFile(fileURLToPath(uri), MOST_PHOTO_BYTES, tooManyBytes, whole);
      return file.kind === 'unreadable' ? unreadPhoto(file.reason) : file;
    } catch (error) {
      return isAbsent(error) ? { kind: 'missing' } : unreadPhoto(reasonOf(error));
    }
  },
  siblings: (uri) => {
    try {
      const names = readdirSync(path.dirname(fileURLToPath(uri)));
      return names.filter((name) => name.endsWith('.pickup')).slice(0, MOST_SIBLINGS);
    } catch {
      return [];
    }
  },
  specsBelow,
  namesNear: (uri, isWanted) => {
    try {
      const folder = path.dirname(fileURLToPath(uri));
      const inside = readdirSync(folder, { withFileTypes: true })
        .filter((entry) => entry.isDirectory() && !entry.name.startsWith('.') && entry.name !== 'node_modules')
        .flatMap(({ name }) => readdirSync(path.join(folder, name)).map((each) => `${name}/${each}`));
      return [...readdirSync(folder), ...inside].filter(isWanted).slice(0, MOST_SIBLINGS);
    } catch {
      return [];
    }
  },
  behindLinks: (uri) => {
    try {
      return pathToFileURL(behindLinks(fileURLToPath(uri))).href;
    } catch {
      return uri;
    }
  },
};

const MOST_SIBLINGS = 500;

/** As the command line takes a folder: without `node_modules`, folders with a dot in front, and links to folders. */
async function specsBelow(folder: string): Promise<readonly string[]> {
  const found: string[] = [];
  const waiting = [fileURLToPath(folder)];
  for (let at = waiting.pop(); at !== undefined && found.length < MOST_SPECS; at = waiting.pop()) {
    // A folder that may not be read holds no spec that could be opened.
    for (const entry of await promises.readdir(at, { withFileTypes: true }).catch(() => [])) {
      const file = path.join(at, entry.name);
      if (entry.isDirectory()) {
        if (entry.name !== 'node_modules' && !entry.name.startsWith('.')) waiting.push(file);
      } else if (entry.name.endsWith('.pickup')) found.push(pathToFileURL(file).href);
    }
  }
  return found;
}

function readFile<T>(
  file: string,
  most: number,
  refused: (bytes: number) => T,
  taken: (bytes: Uint8Array) => T,
): T | { readonly kind: 'unreadable'; readonly reason: string } {
  // Without O_NONBLOCK, opening a pipe that nobody writes to would wait for ever.
  const descriptor = openSync(file, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
  try {
    const stat = fstatSync(descriptor);
    if (stat.isDirectory()) return { kind: 'unreadable', reason: 'it is a folder, not a file' };
    if (!stat.isFile()) return { kind: 'unreadable', reason: 'it is not a regular file' };
    if (stat.size > most) return refused(stat.size);
    return taken(readFileSync(descriptor));
  } finally {
    closeSync(descriptor);
  }
}

function behindLinks(file: string): string {
  try {
    return realpathSync(file);
  } catch {
    const parent = path.dirname(file);
    return parent === file ? file : path.join(behindLinks(parent), path.basename(file));
  }
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : '';
}

const isAbsent = (error: unknown): boolean => codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR';

function reasonOf(error: unknown): string {
  switch (codeOf(error)) {
    case 'EACCES':
    case 'EPERM':
      return 'reading it is not permitted';
    case 'EISDIR':
      return 'it is a folder, not a file';
    case 'ELOOP':
      return 'its links lead in a circle';
    case 'ENAMETOOLONG':
      return 'its name is too long';
    default:
      return `it cannot be read${codeOf(error) === '' ? '' : ` (${codeOf(error)})`}`;
  }
}
