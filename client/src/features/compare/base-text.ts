import { type Disposable, Uri, workspace } from 'vscode';
import type { BaseState } from '../../../../server/src/lsp/protocol.ts';
import type { BaseChoice } from '../bench-view/messages.ts';
import { fileName } from '../files/file-choice.ts';
import { t } from '../words.ts';
import { repositoryOf } from './git.ts';

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
    // What lies outside of the workspace is not read by the server: its text is handed over.
    const text = workspace.getWorkspaceFolder(target) ? undefined : await workspace.fs.readFile(target);
    await workspace.fs.stat(target);
    const texts = text === undefined ? [] : [{ uri, text: new TextDecoder().decode(text) }];
    return { ok: true, state: { label: name, uri, texts } };
  } catch {
    return { ok: false, why: t('{0} cannot be read.', name) };
  }
}

async function revisionBase(revision: string, uri: string): Promise<Base> {
  const target = Uri.parse(uri, true);
  const name = fileName(target);
  const repository = await repositoryOf(target);
  if (typeof repository === 'string') return { ok: false, why: repository };
  try {
    const text = await repository.show(revision, target.fsPath);
    const label = revision === LAST_COMMIT ? t('the last commit') : shortRevision(revision);
    return { ok: true, state: { label, uri, texts: [{ uri, text }] } };
  } catch {
    const hasCommit = repository.state.HEAD?.commit !== undefined;
    if (revision === LAST_COMMIT) {
      return {
        ok: false,
        why: hasCommit ? t('{0} is not in the last commit.', name) : t('This repository has no commit yet.'),
      };
    }
    return { ok: false, why: t('There is no {0} at {1}, or no such revision.', name, revision) };
  }
}
