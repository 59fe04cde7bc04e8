import { type CancellationToken, FileType, RelativePattern, Uri, type WorkspaceFolder, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { CHECK_REQUEST, type CheckResult, FILE_ENDING, PROTOCOL_VERSION } from '../../../../server/src/lsp/protocol.ts';
import { terminalText } from '../terminal-text.ts';

export interface CheckTask {
  readonly folder: WorkspaceFolder;
  /** A file or a folder, absolute or from the folder on; without it the whole folder. */
  readonly path: string | undefined;
}

/**
 * Checks the specs of a folder one after the other and writes what is found, as `pickup-spec check` writes it: place, severity and code
 * in one line, the message in the next. Gives the exit code of that program.
 */
export async function runCheck(
  client: BaseLanguageClient,
  { folder, path }: CheckTask,
  write: (line: string) => void,
  token: CancellationToken,
): Promise<number> {
  const files = await specsAt(folder, path);
  const counts = new Map<string, number>();
  let isUnread = files.length === 0;
  if (isUnread) write(terminalText(`no specs in ${path ?? folder.name}`));
  for (const uri of files) {
    if (token.isCancellationRequested) return STOPPED;
    const name = terminalText(workspace.asRelativePath(uri, false));
    const params = { protocol: PROTOCOL_VERSION, uri: uri.toString() };
    const { findings, problem } = await client.sendRequest<CheckResult>(CHECK_REQUEST, params, token);
    if (problem !== undefined) {
      isUnread = true;
      write(`${name}: ${terminalText(problem)}`);
    }
    for (const { severity, code, message, range } of findings) {
      counts.set(severity, (counts.get(severity) ?? 0) + 1);
      write(`${name}:${range.start.line + 1}:${range.start.character + 1}  ${severity}  ${code}`);
      write(`  ${terminalText(message)}`);
    }
  }
  const told = [...counts].map(([severity, count]) => `${severity}: ${count}`).join(', ');
  write(`${told || 'nothing found'} in ${files.length === 1 ? '1 file' : `${files.length} files`}`);
  if (isUnread) return UNREAD;
  return counts.has('error') ? FAULTY : CLEAN;
}

const [CLEAN, FAULTY, UNREAD, STOPPED] = [0, 1, 2, 130];
const MOST_FILES = 20_000;

async function specsAt(folder: WorkspaceFolder, path: string | undefined): Promise<readonly Uri[]> {
  if (path === undefined || path === '') return specsBelow(folder.uri);
  // An absolute path names a place of the folder's own file system.
  const isAbsolute = path.startsWith('/') || /^[A-Za-z]:[\\/]/.test(path);
  const uri = isAbsolute ? folder.uri.with({ path: Uri.file(path).path }) : Uri.joinPath(folder.uri, path);
  try {
    const { type } = await workspace.fs.stat(uri);
    return (type & FileType.Directory) === 0 ? [uri] : specsBelow(uri);
  } catch {
    return [];
  }
}

async function specsBelow(uri: Uri): Promise<readonly Uri[]> {
  const found = await workspace.findFiles(
    new RelativePattern(uri, `**/*${FILE_ENDING}`),
    '**/{node_modules,.*}/**',
    MOST_FILES,
  );
  return found.toSorted((a, b) => (a.path < b.path ? -1 : 1));
}
