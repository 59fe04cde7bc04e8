/** Files as git keeps them: read only, no network, no hooks, no text conversion. What git refuses is one line of words. */
import { execFileSync } from 'node:child_process';
import path from 'node:path';
import { recent } from '../../../grammar/values/remember.ts';
import type { FileContent, Host } from '../analysis/analysis-types.ts';
import { type FileBytes, type PhotoFile, photoFile, tooManyBytes } from '../photos/photo-file.ts';
import { CommandError } from './command.ts';
import { KEPT_CONTENTS, lies, pathOf } from './files.ts';
import { type Environment, findProgram } from './program.ts';
import { decodeText, errorCode } from './text-file.ts';

/** `HEAD~2:samples/hesk-neck.pickup` */
export interface GitPath {
  readonly revision: string;
  readonly path: string;
}

/** Splits `REV:PATH`; a name without a colon, or with a drive's letter before it, is a file. */
export function gitPath(name: string): GitPath | undefined {
  const colon = name.indexOf(':');
  const drive = process.platform === 'win32' && colon === 1;
  return colon < 0 || drive ? undefined : { revision: name.slice(0, colon), path: name.slice(colon + 1) };
}

export interface GitFile {
  readonly file: string;
  readonly text: string;
  readonly root: string;
  /** Reads every file as it was in that revision. */
  readonly host: Host;
}

/**
 * A file in a revision; an empty revision is the index, what is staged. The path counts from the repository's top folder, as git
 * takes it, or else from the current folder. Throws a `CommandError` of one line.
 */
export function readFromGit({ revision, path: wanted }: GitPath, cwd: string, environment: Environment): GitFile {
  const named = `${revision}:${wanted}`;
  const git = gitIn(environment);
  const root = topFolder(git, cwd, named);
  const commit = revision === '' ? '' : resolveRevision(git, revision, cwd, named);
  const fromHere = path.relative(root, path.resolve(cwd, wanted)).split(path.sep).join('/');
  for (const candidate of new Set([wanted.startsWith('.') ? fromHere : wanted, fromHere])) {
    const content = contentAt(git, commit, candidate, root);
    if (content?.kind === 'unreadable') throw new CommandError(`${named}: ${content.reason}`);
    if (content?.kind !== 'text') continue;
    const file = path.join(root, ...candidate.split('/'));
    return { file, text: content.text, root, host: revisionHost(git, commit, root) };
  }
  const where = revision === '' ? 'the index' : revision;
  throw new CommandError(`${named}: git has no such file in ${where}`);
}

/** The paths of the specs in a folder, from it, as the folder was in a revision. */
export function specsInGit(revision: string, folder: string, environment: Environment): readonly string[] {
  const git = gitIn(environment);
  topFolder(git, folder, folder);
  // Of the folder itself, names from it, of any bytes.
  const listed = git(['ls-tree', '-r', '-z', '--name-only', revision, '--', '.'], folder).toString('utf8');
  return listed
    .split('\0')
    .filter((file) => file.endsWith('.pickup'))
    .sort();
}

/** A revision by its name; of a day, month or year, the newest commit before it. */
export function revisionAt(since: string, folder: string, environment: Environment): string {
  const git = gitIn(environment);
  topFolder(git, folder, since);
  const [, year, month = '01', day = '01'] = /^(\d{4})(?:-(\d{2}))?(?:-(\d{2}))?$/.exec(since) ?? [];
  if (year === undefined) return resolveRevision(git, since, folder, since);
  const before = `--before=${year}-${month}-${day}T00:00:00`;
  const found = git(['rev-list', '-1', before, 'HEAD'], folder).toString('utf8').trim();
  if (found === '') throw new CommandError(`${since}: git has no commit before that day`);
  return found;
}

function topFolder(git: Git, cwd: string, named: string): string {
  try {
    return path.resolve(git(['rev-parse', '--show-toplevel'], cwd).toString('utf8').trim());
  } catch (error) {
    if (error instanceof CommandError) throw new CommandError(`${named}: ${error.message}`);
    throw new CommandError(`${named}: this folder is in no git repository`);
  }
}

function resolveRevision(git: Git, revision: string, cwd: string, named: string): string {
  try {
    const found = git(['rev-parse', '--verify', '--quiet', '--end-of-options', `${revision}^{commit}`], cwd);
    return found.toString('utf8').trim();
  } catch {
    const reason = isShallow(git, cwd)
      ? 'git has no such revision here; the clone is shallow: git fetch --unshallow brings the rest'
      : 'git has no such revision';
    throw new CommandError(`${named}: ${reason}`);
  }
}

function isShallow(git: Git, cwd: string): boolean {
  try {
    return git(['rev-parse', '--is-shallow-repository'], cwd).toString('utf8').trim() === 'true';
  } catch {
    return false;
  }
}

function contentAt(git: Git, commit: string, file: string, root: string): FileContent {
  if (file === '' || file.startsWith('../')) return { kind: 'missing' };
  try {
    const decoded = decodeText(git(['cat-file', 'blob', `${commit}:${file}`], root));
    return decoded.ok ? { kind: 'text', text: decoded.text } : { kind: 'unreadable', reason: decoded.problem };
  } catch (error) {
    return errorCode(error) === 'ENOBUFS'
      ? { kind: 'unreadable', reason: 'is larger than 64 MB' }
      : { kind: 'missing' };
  }
}

function photoBytesAt(git: Git, commit: string, file: string, root: string): FileBytes {
  try {
    return { kind: 'bytes', bytes: git(['cat-file', 'blob', `${commit}:${file}`], root) };
  } catch (error) {
    return errorCode(error) === 'ENOBUFS' ? tooManyBytes(MOST_BLOB_BYTES) : { kind: 'missing' };
  }
}

function revisionHost(git: Git, commit: string, root: string): Host {
  const read = recent<string, FileContent>(KEPT_CONTENTS);
  const photos = recent<string, PhotoFile>(KEPT_CONTENTS);
  const within = (uri: string): string | undefined => {
    const file = pathOf(uri);
    return file !== undefined && lies(file, root) ? path.relative(root, file).split(path.sep).join('/') : undefined;
  };
  return {
    content: (uri) => read(uri, () => contentAt(git, commit, within(uri) ?? '', root)),
    isInside: (uri) => within(uri) !== undefined,
    photo: (uri) => photos(uri, () => photoFile(photoBytesAt(git, commit, within(uri) ?? '', root))),
  };
}

const MOST_BLOB_BYTES = 64 * 1024 * 1024;

type Git = (args: readonly string[], cwd: string) => Buffer;

const gitIn =
  (environment: Environment): Git =>
  (args, cwd) => {
    const git = findProgram('git', environment, cwd);
    if (git === undefined) throw new CommandError('git is needed for this and was not found');
    return execFileSync(git, args, {
      cwd,
      stdio: ['ignore', 'pipe', 'ignore'],
      maxBuffer: MOST_BLOB_BYTES,
      // A partial clone would fetch what is missing.
      env: { ...environment, GIT_NO_LAZY_FETCH: '1', GIT_TERMINAL_PROMPT: '0', GIT_OPTIONAL_LOCKS: '0' },
    });
  };
