import type { Connection } from 'vscode-languageserver';
import type { FileContent } from '../analysis/analysis-types.ts';
import { type FileBytes, MOST_PHOTO_BYTES, unreadPhoto } from '../photos/photo-file.ts';
import { fromBase64 } from './base64.ts';
import type { AskClient } from './files.ts';
import { LIST_SPECS_REQUEST, PROTOCOL_VERSION, READ_FILE_REQUEST, type ReadFileParams } from './protocol.ts';
import { MOST_BYTES } from './text-limits.ts';

/** Reads through the client: virtual file systems, and everything where the server runs in a browser. */
export function askClientForFile(connection: Connection): AskClient {
  const ask = (params: Omit<ReadFileParams, 'protocol'>): Promise<unknown> =>
    connection.sendRequest<unknown>(READ_FILE_REQUEST, { protocol: PROTOCOL_VERSION, ...params });
  return {
    text: async (uri) => contentFrom(await ask({ uri, mostBytes: MOST_BYTES })),
    bytes: async (uri) => bytesFrom(await ask({ uri, mostBytes: MOST_PHOTO_BYTES, as: 'bytes' })),
    specs: async () =>
      textsIn(await connection.sendRequest<unknown>(LIST_SPECS_REQUEST, { protocol: PROTOCOL_VERSION })),
  };
}

/** A client's answer, whatever it is. */
function contentFrom(answer: unknown): FileContent {
  const { kind, text } = fieldsOf(answer);
  if (kind === 'text' && typeof text === 'string') return { kind, text };
  if (kind === 'missing') return { kind };
  return { kind: 'unreadable', reason: reasonIn(answer) };
}

function bytesFrom(answer: unknown): FileBytes {
  const { kind, base64 } = fieldsOf(answer);
  if (kind === 'missing') return { kind };
  if (kind !== 'bytes' || typeof base64 !== 'string') return unreadPhoto(reasonIn(answer));
  try {
    return { kind, bytes: fromBase64(base64) };
  } catch {
    return unreadPhoto(NO_REASON);
  }
}

const textsIn = (answer: unknown): readonly string[] =>
  Array.isArray(answer) ? answer.filter((each) => typeof each === 'string') : [];

type Fields = Readonly<Record<'kind' | 'text' | 'base64' | 'reason', unknown>>;

const fieldsOf = (answer: unknown): Fields => Object(answer ?? {});

const NO_REASON = 'the editor could not read it';

function reasonIn(answer: unknown): string {
  const { reason } = fieldsOf(answer);
  return typeof reason === 'string' ? reason : NO_REASON;
}
