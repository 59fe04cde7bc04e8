import { Disposable, FileSystemError, FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  FILE_ENDING,
  LIST_SPECS_REQUEST,
  READ_FILE_REQUEST,
  type ReadFileParams,
  type ReadFileResult,
  toBase64,
} from '../../../../server/src/lsp/protocol.ts';

/** Reads and lists, for the server, files that only the editor reaches: virtual file systems, and all files on the web. */
export function activateFileReading(client: BaseLanguageClient): Disposable {
  return Disposable.from(
    client.onRequest<ReadFileResult, void>(READ_FILE_REQUEST, (...[params]: [ReadFileParams]) => readFile(params)),
    client.onRequest<readonly string[], void>(LIST_SPECS_REQUEST, async () => {
      const found = await workspace.findFiles(`**/*${FILE_ENDING}`, '**/{node_modules,.*}/**');
      return found.map((uri) => uri.toString());
    }),
  );
}

async function readFile({ uri, mostBytes, as }: ReadFileParams): Promise<ReadFileResult> {
  try {
    const target = Uri.parse(uri, true);
    const { type, size } = await workspace.fs.stat(target);
    if ((type & FileType.Directory) !== 0) return unreadable('it is a folder, not a file');
    if (size > mostBytes)
      return unreadable(as === 'bytes' ? 'it is larger than a photograph may be' : 'it is longer than a spec may be');
    const bytes = await workspace.fs.readFile(target);
    if (as === 'bytes') return { kind: 'bytes', base64: toBase64(bytes) };
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch (error) {
    if (error instanceof FileSystemError && error.code === 'FileNotFound') return { kind: 'missing' };
    return unreadable(error instanceof TypeError ? 'it is not UTF-8 text' : 'the editor could not read it');
  }
}

const unreadable = (reason: string): ReadFileResult => ({ kind: 'unreadable', reason });
