import type { Connection } from 'vscode-languageserver';
import type { FileContent } from '../analysis/analysis-types.ts';
import { PROTOCOL_VERSION, READ_FILE_REQUEST, type ReadFileParams } from './protocol.ts';
import { MOST_BYTES } from './text-limits.ts';

/** Reads through the client: virtual file systems, and everything where the server runs in a browser. */
export const askClientForFile =
  (connection: Connection) =>
  async (uri: string): Promise<FileContent> => {
    const params: ReadFileParams = { protocol: PROTOCOL_VERSION, uri, mostBytes: MOST_BYTES };
    return contentFrom(await connection.sendRequest<unknown>(READ_FILE_REQUEST, params));
  };

/** A client's answer, whatever it is. */
function contentFrom(answer: unknown): FileContent {
  const { kind, text, reason }: { kind?: unknown; text?: unknown; reason?: unknown } = Object(answer ?? {});
  if (kind === 'text' && typeof text === 'string') return { kind, text };
  if (kind === 'missing') return { kind };
  return { kind: 'unreadable', reason: typeof reason === 'string' ? reason : 'the editor could not read it' };
}
