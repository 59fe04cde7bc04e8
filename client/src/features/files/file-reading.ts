import { type Disposable, FileSystemError, FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { READ_FILE_REQUEST, type ReadFileParams, type ReadFileResult } from '../../../../server/src/lsp/protocol.ts';

/** Reads, for the server, files that only the editor reaches: virtual file systems, and all files on the web. */
export function activateFileReading(client: BaseLanguageClient): Disposable {
  return client.onRequest<ReadFileResult, void>(READ_FILE_REQUEST, (...[{ uri, mostBytes }]: [ReadFileParams]) =>
    readFile(uri, mostBytes),
  );
}

async function readFile(uri: string, mostBytes: number): Promise<ReadFileResult> {
  try {
    const target = Uri.parse(uri, true);
    const { type, size } = await workspace.fs.stat(target);
    if ((type & FileType.Directory) !== 0) return unreadable('it is a folder, not a file');
    if (size > mostBytes) return unreadable('it is longer than a spec may be');
    const bytes = await workspace.fs.readFile(target);
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch (error) {
    if (error instanceof FileSystemError && error.code === 'FileNotFound') return { kind: 'missing' };
    return unreadable(error instanceof TypeError ? 'it is not UTF-8 text' : 'the editor could not read it');
  }
}

const unreadable = (reason: string): ReadFileResult => ({ kind: 'unreadable', reason });
