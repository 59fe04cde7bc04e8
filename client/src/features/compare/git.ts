import { type Event, extensions, Uri, workspace } from 'vscode';
import { fileName } from '../files/file-choice.ts';
import { t } from '../words.ts';

/** The part of the built-in git extension's interface, version 1, that is used here. */
interface GitExtension {
  getAPI(version: 1): GitInterface;
}

interface GitInterface {
  readonly state: 'uninitialized' | 'initialized';
  init?(root: Uri): Promise<GitRepository | null>;
  getRepository(uri: Uri): GitRepository | null;
  openRepository?(root: Uri): Promise<GitRepository | null>;
}

export interface GitRepository {
  add(paths: readonly string[]): Promise<void>;
  commit(message: string): Promise<void>;
  readonly state: { readonly HEAD: { readonly commit?: string } | undefined; readonly onDidChange: Event<void> };
  show(revision: string, path: string): Promise<string>;
  log(options: { readonly path: string; readonly maxEntries: number }): Promise<readonly GitCommit[]>;
}

interface GitCommit {
  readonly hash: string;
  readonly message: string;
  readonly authorDate?: Date;
}

/** What the editor's git writes behind the address of a text that it holds; nothing of the index, which has no revision. */
export function revisionShown({ scheme, query }: Uri): string | undefined {
  if (scheme !== 'git') return undefined;
  try {
    const { ref }: { readonly ref?: unknown } = Object(JSON.parse(query));
    return typeof ref === 'string' && /^\w[\w^~./-]*$/.test(ref) ? ref : undefined;
  } catch {
    return undefined;
  }
}

/** The repository that holds a file, or why there is none. */
export async function repositoryOf(uri: Uri): Promise<GitRepository | string> {
  const git = await gitInterface();
  if (typeof git === 'string') return git;
  const folder = workspace.getWorkspaceFolder(uri)?.uri;
  const repository =
    git.getRepository(uri) ?? (folder && (await git.openRepository?.(folder).catch(() => null))) ?? null;
  return repository ?? t('{0} is not in a git repository that the editor has open.', fileName(uri));
}

/**
 * Keeps one file as it is on the disk: in the repository that holds it, or in a new one of its folder. Answers why it could not,
 * in one line.
 */
export async function commitFile(uri: Uri, message: string): Promise<string | undefined> {
  const git = await gitInterface();
  if (typeof git === 'string') return git;
  try {
    const folder = Uri.joinPath(uri, '..');
    // What lies outside of the workspace has to be opened by name once it is there; older editors want to be allowed that.
    const repository =
      git.getRepository(uri) ?? (await git.init?.(folder)) ?? (await git.openRepository?.(folder)) ?? undefined;
    if (repository === undefined)
      return t(
        'The editor’s git opens no repository outside of the open folders. Its setting git.openRepositoryInParentFolders allows it: “always”.',
      );
    await repository.add([uri.fsPath]);
    await repository.commit(message);
    return undefined;
  } catch (error) {
    const { stderr, message: said }: { stderr?: unknown; message?: unknown } = Object(error ?? {});
    const why = [stderr, said].find((each) => typeof each === 'string' && each.trim() !== '');
    return t('git could not keep it: {0}', String(why ?? t('no reason given')).trim());
  }
}

/** The editor's git, once it has found the repositories that are there; or why it cannot be asked. */
async function gitInterface(): Promise<GitInterface | string> {
  const extension = extensions.getExtension<GitExtension>('vscode.git');
  if (extension === undefined) return t('This needs the editor’s git extension, which is not there.');
  try {
    const git = (await extension.activate()).getAPI(1);
    await initialised(git);
    return git;
  } catch {
    return t('This needs the editor’s git extension, which is switched off.');
  }
}

const TRIES = 50;

/** Just after the window opens, the git extension is still looking for repositories. */
async function initialised(git: GitInterface): Promise<void> {
  for (let tries = 0; tries < TRIES && git.state !== 'initialized'; tries += 1) {
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}
