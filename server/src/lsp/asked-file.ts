import type { CancellationToken } from 'vscode-languageserver';
import { whenRead } from './compared-states.ts';
import { slice } from './pace.ts';
import type { Opened, Session } from './session.ts';
import { MOST_BYTES } from './text-limits.ts';

/** Why a file is not told of. */
export interface Unasked {
  readonly problem: string;
}

/**
 * A file of the workspace, open or not, for somebody who waits for all that is known of it: a pickup or a position a turn, so that
 * whatever is typed meanwhile comes in between. What was made of a file that is not open is let go after `tell`.
 */
export async function askedFile<T>(
  session: Session,
  uri: string,
  token: CancellationToken,
  tell: (file: Opened) => Promise<T | Unasked>,
): Promise<T | Unasked> {
  try {
    const file = await readFile(session, uri, token);
    return 'problem' in file ? file : await tell(file);
  } finally {
    session.release(uri);
  }
}

async function readFile(session: Session, uri: string, token: CancellationToken): Promise<Opened | Unasked> {
  if (!session.files.isInside(uri)) return { problem: 'It lies outside the folders that are open.' };
  while (!session.goOn(uri, slice()).isDone) if (await isOver(token)) return CALLED_OFF;
  const analysis = await whenRead(() => session.analysisOfFile(uri));
  const document = session.files.document(uri);
  if (document === undefined) return { problem: `It cannot be read: ${whyUnread(session, uri)}.` };
  if (analysis === undefined) return document.getText().length > MOST_BYTES ? TOO_LARGE : FAILED;
  return { document, analysis };
}

/** Lets others come in between; true where nobody waits any more. */
export async function isOver(token: CancellationToken): Promise<boolean> {
  await new Promise((resolve) => setTimeout(resolve, 0));
  return token.isCancellationRequested;
}

function whyUnread({ files }: Session, uri: string): string {
  const content = files.content(uri);
  return content?.kind === 'unreadable' ? content.reason : 'there is no such file';
}

const TOO_LARGE: Unasked = { problem: 'It is longer than a spec may be.' };

export const FAILED: Unasked = { problem: 'The server’s output says why it was not checked.' };

export const CALLED_OFF: Unasked = { problem: 'It was called off.' };
