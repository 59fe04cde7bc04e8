import { type Disposable, type Event, extensions, Uri, workspace } from 'vscode';
import type { BaseState } from '../../../../server/src/lsp/protocol.ts';
import type { BaseChoice } from '../bench-view/messages.ts';
import { fileName } from '../files/file-choice.ts';

/** The part of the built-in git extension's interface, version 1, that is used here. */
interface GitExtension {
  getAPI(version: 1): GitInterface;
}

interface GitInterface {
  readonly state: 'uninitialized' | 'initialized';
  getRepository(uri: Uri): GitRepository | null;
  openRepository?(root: Uri): Promise<GitRepository | null>;
}

interface GitRepository {
  readonly state: { readonly HEAD: { readonly commit?: string } | undefined; readonly onDidChange: Event<void> };
  show(revision: string, path: string): Promise<string>;
  log(options: { readonly path: string; readonly maxEntries: number }): Promise<readonly GitCommit[]>;
}

interface GitCommit {
  readonly hash: string;
  readonly message: string;
  readonly authorDate?: Date;
}

/** A state to compare with, or why there is none, in one line. */
export type Base = { readonly ok: true; readonly state: BaseState } | { readonly ok: false; readonly why: string };

export const LAST_COMMIT = 'HEAD';

/** Reads the text that a choice names. */
export function readBase(choice: BaseChoice, uri: string): Promise<Base> {
  return choice.kind === 'file' ? fileBase(choice.uri) : revisionBase(choice.revision, uri);
}

/** The texts of then of more files; those that were not in that revision are left out, and what is there now stands in for them. */
export async function addTexts(state: BaseState, revision: string, uris: readonly string[]): Promise<BaseState> {
  const texts = await Promise.all(
    uris.map(async (uri) => {
      const target = Uri.parse(uri, true);
      const repository = await repositoryOf(target);
      const text =
        typeof repository === 'string'
          ? undefined
          : await repository.show(revision, target.fsPath).catch(() => undefined);
      return text === undefined ? [] : [{ uri, text }];
    }),
  );
  return { ...state, texts: [...state.texts, ...texts.flat()] };
}

const WHOLE_HASH = /^[0-9a-f]{40,}$/;
const SHORT_HASH = 7;

/** A revision as one would read it out: of a whole hash its beginning. */
export const shortRevision = (revision: string): string =>
  WHOLE_HASH.test(revision) ? revision.slice(0, SHORT_HASH) : revision;

/** A commit in which a file has changed. */
export interface FileCommit {
  readonly hash: string;
  /** The first line of what was said of it. */
  readonly subject: string;
  readonly date: Date | undefined;
}

const MOST_COMMITS = 200;

/** The commits of one file, the newest first; none where there is no repository. */
export async function commitsOf(uri: Uri): Promise<readonly FileCommit[]> {
  const repository = await repositoryOf(uri);
  if (typeof repository === 'string') return [];
  const commits = await repository.log({ path: uri.fsPath, maxEntries: MOST_COMMITS }).catch(() => []);
  return commits.map(({ hash, message, authorDate }) => ({
    hash,
    subject: message.split('\n', 1)[0] ?? '',
    date: authorDate,
  }));
}

/** Calls back when the commit that is checked out has changed: what HEAD stands for is another text then. */
export async function onDidCommit(uri: string, changed: () => void): Promise<Disposable | undefined> {
  const repository = await repositoryOf(Uri.parse(uri, true));
  if (typeof repository === 'string') return undefined;
  let commit = repository.state.HEAD?.commit;
  return repository.state.onDidChange(() => {
    const now = repository.state.HEAD?.commit;
    if (now === commit) return;
    commit = now;
    changed();
  });
}

async function fileBase(uri: string): Promise<Base> {
  const target = Uri.parse(uri, true);
  const name = fileName(target);
  try {
    await workspace.fs.stat(target);
    return { ok: true, state: { label: name, uri, texts: [] } };
  } catch {
    return { ok: false, why: `${name} cannot be read.` };
  }
}

async function revisionBase(revision: string, uri: string): Promise<Base> {
  const target = Uri.parse(uri, true);
  const name = fileName(target);
  const repository = await repositoryOf(target);
  if (typeof repository === 'string') return { ok: false, why: repository };
  try {
    const text = await repository.show(revision, target.fsPath);
    const label = revision === LAST_COMMIT ? 'the last commit' : shortRevision(revision);
    return { ok: true, state: { label, uri, texts: [{ uri, text }] } };
  } catch {
    const hasCommit = repository.state.HEAD?.commit !== undefined;
    if (revision === LAST_COMMIT) {
      return {
        ok: false,
        why: hasCommit ? `${name} is not in the last commit.` : 'This repository has no commit yet.',
      };
    }
    return { ok: false, why: `There is no ${name} at ${revision}, or no such revision.` };
  }
}

/** The repository that holds a file, or why there is none. */
async function repositoryOf(uri: Uri): Promise<GitRepository | string> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  if (extension === undefined) return 'Comparing with a revision needs the editor’s git extension, which is not there.';
  let git: GitInterface;
  try {
    git = (await extension.activate()).getAPI(1);
  } catch {
    return 'Comparing with a revision needs the editor’s git extension, which is switched off.';
  }
  await initialised(git);
  const folder = workspace.getWorkspaceFolder(uri)?.uri;
  const repository =
    git.getRepository(uri) ?? (folder && (await git.openRepository?.(folder).catch(() => null))) ?? null;
  return repository ?? `${fileName(uri)} is not in a git repository that the editor has open.`;
}

const TRIES = 50;

/** Just after the window opens, the git extension is still looking for repositories. */
async function initialised(git: GitInterface): Promise<void> {
  for (let tries = 0; tries < TRIES && git.state !== 'initialized'; tries += 1) {
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
