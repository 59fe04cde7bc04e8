import { commands, Disposable, type QuickPickItem, TabInputTextDiff, Uri, window, workspace } from 'vscode';
import { FILE_ENDING } from '../../../../server/src/lsp/protocol.ts';
import type { BenchViewControl } from '../bench-view/bench-view-control.ts';
import type { BaseChoice } from '../bench-view/messages.ts';
import { fileName } from '../files/file-choice.ts';
import { t } from '../words.ts';
import { commitsOf, LAST_COMMIT, shortRevision } from './base-text.ts';
import { revisionShown } from './git.ts';

/** What a source control view hands to its commands. */
interface ResourceState {
  readonly resourceUri: Uri;
}

/** The bench view beside another state of the same file, or beside another file. */
export function activateCompare(benchView: BenchViewControl): Disposable {
  const compare = async (choice: BaseChoice | undefined, target: Uri | undefined): Promise<void> => {
    if (choice === undefined) return;
    if (target !== undefined && !target.path.endsWith(FILE_ENDING)) {
      void window.showInformationMessage(
        t('{0} is no pickup spec: there is nothing to compare.', fileName(target.toString())),
      );
      return;
    }
    await benchView.compare(choice, target);
  };
  return Disposable.from(
    commands.registerCommand('pickup.compareWithLastCommit', (from?: unknown) =>
      compare({ kind: 'revision', revision: LAST_COMMIT }, targetOf(from)),
    ),
    commands.registerCommand('pickup.compareWithRevision', async (from?: unknown) =>
      compare(await askRevision(targetOf(from)), targetOf(from)),
    ),
    commands.registerCommand('pickup.compareWithFile', async (from?: unknown) =>
      compare(await askFile(targetOf(from)), targetOf(from)),
    ),
    commands.registerCommand('pickup.compareWithShownRevision', async () => {
      const shown = diffShown();
      await compare(shown && { kind: 'revision', revision: shown.revision }, shown?.file);
    }),
    commands.registerCommand('pickup.endComparison', () => benchView.endComparison()),
  );
}

/** The state of a file that the editor shows beside another, as from the timeline: its right side, unless that is the file itself. */
function diffShown(): { readonly file: Uri; readonly revision: string } | undefined {
  const input = window.tabGroups.activeTabGroup.activeTab?.input;
  if (!(input instanceof TabInputTextDiff)) return undefined;
  const { original, modified } = input;
  const revision = revisionShown(modified) ?? revisionShown(original);
  if (revision === undefined) {
    void window.showInformationMessage(t('What is shown here is no revision of git.'));
    return undefined;
  }
  // On the desktop the editor's git names its files by their place on the disk.
  const file = [original, modified].find(({ scheme }) => scheme !== 'git');
  return { file: file ?? workingFile(modified), revision };
}

/** The file that a text of git is of. */
function workingFile({ path }: Uri): Uri {
  const folders = workspace.workspaceFolders ?? [];
  const home = folders.find(({ uri }) => path.startsWith(`${uri.path}/`));
  return home ? home.uri.with({ path }) : Uri.file(path);
}

function targetOf(from: unknown): Uri | undefined {
  if (from instanceof Uri) return from;
  const { resourceUri }: Partial<ResourceState> = Object(from ?? {});
  return resourceUri instanceof Uri ? resourceUri : undefined;
}

/** One of the commits in which the file changed, or whatever else git has a name for, as typed. */
async function askRevision(target: Uri | undefined): Promise<BaseChoice | undefined> {
  const uri = target ?? window.activeTextEditor?.document.uri;
  const commits = uri === undefined ? [] : await commitsOf(uri);
  const items = commits.map(({ hash, subject, date }) => ({
    label: subject,
    description: [date?.toLocaleDateString(undefined, { dateStyle: 'medium' }), shortRevision(hash)]
      .filter((part) => part !== undefined)
      .join(' · '),
    revision: hash,
  }));
  const revision = await pickOrType(items);
  return revision === undefined ? undefined : { kind: 'revision', revision };
}

/** A revision has no spaces, no colon, and no dash in front. */
const REVISION = /^[^\s:-][^\s:]*$/;

interface RevisionItem extends QuickPickItem {
  readonly revision: string;
}

function pickOrType(commits: readonly RevisionItem[]): Promise<string | undefined> {
  const pick = window.createQuickPick<RevisionItem>();
  pick.title = t('Compare with a revision');
  pick.placeholder = t('A commit of this file; or type a commit, a branch or a tag, as git names it: HEAD~2, main');
  pick.matchOnDescription = true;
  pick.items = commits;
  pick.onDidChangeValue((value) => {
    const written = value.trim();
    const typed = { label: written, description: t('as git names it'), alwaysShow: true, revision: written };
    pick.items = REVISION.test(written) ? [...commits, typed] : commits;
  });
  return new Promise((resolve) => {
    pick.onDidAccept(() => {
      resolve(pick.selectedItems[0]?.revision);
      pick.hide();
    });
    pick.onDidHide(() => {
      resolve(undefined);
      pick.dispose();
    });
    pick.show();
  });
}

async function askFile(target: Uri | undefined): Promise<BaseChoice | undefined> {
  const own = (target ?? window.activeTextEditor?.document.uri)?.toString();
  const files = await workspace.findFiles('**/*.pickup', '**/node_modules/**', 2000);
  const items = files
    .filter((file) => file.toString() !== own)
    .map((uri) => ({ label: fileName(uri), description: workspace.asRelativePath(uri), uri }))
    .sort((a, b) => (a.description < b.description ? -1 : 1));
  const picked = await window.showQuickPick(items, {
    title: t('Compare with another file'),
    placeHolder: t('The file that stands for before'),
    matchOnDescription: true,
  });
  return picked && { kind: 'file', uri: picked.uri.toString() };
}
