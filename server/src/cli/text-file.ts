/** Spec files as text (UTF-8, a byte-order mark set aside), photographs and other files as bytes. What cannot be read is one line of words, never an exception. */
import { readFileSync, type Stats, statSync } from 'node:fs';
import { type FileBytes, MOST_PHOTO_BYTES, tooManyBytes, unreadPhoto } from '../photos/photo-file.ts';

export type TextFile =
  | { readonly ok: true; readonly text: string; readonly byteOrderMark: boolean }
  /** `problem` follows the path: `parts.pickup: is a folder`. */
  | { readonly ok: false; readonly missing: boolean; readonly problem: string };

/** Larger than any shop's spec by far; beyond it a file is not read at all. */
export const LARGEST_BYTES = 64 * 1024 * 1024;

const TOO_LARGE = `is larger than ${LARGEST_BYTES / 1024 / 1024} MB`;

export function readTextFile(path: string): TextFile {
  try {
    const stats = statSync(path);
    const problem = unusable(stats);
    if (problem !== undefined) return { ok: false, missing: false, problem };
    return decodeText(readFileSync(path));
  } catch (error) {
    return { ok: false, missing: isMissing(error), problem: fileProblem(error) };
  }
}

export function readPhotoFile(path: string): FileBytes {
  try {
    const stats = statSync(path);
    const problem = unusable(stats);
    if (problem !== undefined) return { kind: 'unreadable', reason: problem };
    return stats.size > MOST_PHOTO_BYTES ? tooManyBytes(stats.size) : { kind: 'bytes', bytes: readFileSync(path) };
  } catch (error) {
    return isMissing(error) ? { kind: 'missing' } : unreadPhoto(fileProblem(error));
  }
}

/** The bytes of a file of any other kind; a text: what is wrong with it, as it follows the path. */
export function readPlainFile(path: string): Uint8Array | string {
  try {
    return unusable(statSync(path)) ?? readFileSync(path);
  } catch (error) {
    return fileProblem(error);
  }
}

/** The text of bytes that should be UTF-8. */
export function decodeText(bytes: Uint8Array): TextFile {
  if (bytes.length > LARGEST_BYTES) return { ok: false, missing: false, problem: TOO_LARGE };
  const start = bytes.subarray(0, 2);
  if ((start[0] === 0xff && start[1] === 0xfe) || (start[0] === 0xfe && start[1] === 0xff)) {
    return { ok: false, missing: false, problem: 'is UTF-16 text; save it as UTF-8' };
  }
  try {
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    const byteOrderMark = text.startsWith('\uFEFF');
    return { ok: true, text: byteOrderMark ? text.slice(1) : text, byteOrderMark };
  } catch {
    return { ok: false, missing: false, problem: `is not UTF-8 text (see line ${badLine(bytes)}); save it as UTF-8` };
  }
}

/** The words for what the operating system said. */
export function fileProblem(error: unknown): string {
  const code = errorCode(error);
  const words = code === undefined ? undefined : PROBLEMS[code];
  if (words !== undefined) return words;
  return `cannot be used (${code ?? (error instanceof Error ? error.message : 'unknown reason')})`;
}

export function errorCode(error: unknown): string | undefined {
  return error instanceof Error && 'code' in error && typeof error.code === 'string' ? error.code : undefined;
}

const isMissing = (error: unknown): boolean => ['ENOENT', 'ENOTDIR'].includes(errorCode(error) ?? '');

const PROBLEMS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  ENOTDIR: 'a part of the path is not a folder',
  EACCES: 'permission denied',
  EPERM: 'not permitted',
  EISDIR: 'is a folder',
  ELOOP: 'links to itself',
  ENAMETOOLONG: 'the name is too long',
  ENOSPC: 'no space left on the device',
  EROFS: 'lies on a file system that is read-only',
  EBADF: 'is not open for writing',
  EMFILE: 'too many files are open',
  ERR_INVALID_ARG_VALUE: 'the name holds a character that no file name can',
};

function unusable(stats: Stats): string | undefined {
  if (stats.isDirectory()) return 'is a folder';
  if (!stats.isFile()) return 'is not a file (standard input is read with -)';
  if (stats.size > LARGEST_BYTES) return TOO_LARGE;
  return undefined;
}

/** The first line that does not decode by itself. No UTF-8 sequence holds the byte of a line feed. */
function badLine(bytes: Uint8Array): number {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let line = 1;
  for (let start = 0; start < bytes.length; line++) {
    const feed = bytes.indexOf(0x0a, start);
    const end = feed === -1 ? bytes.length : feed + 1;
    try {
      decoder.decode(bytes.subarray(start, end));
    } catch {
      return line;
    }
    start = end;
  }
  return line;
}
