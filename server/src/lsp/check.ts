import type { CancellationToken } from 'vscode-languageserver';
import { diagnostics } from '../features/diagnostics.ts';
import { whenRead } from './compared-states.ts';
import type { AnswerOwn } from './guard.ts';
import { slice } from './pace.ts';
import { CHECK_REQUEST, type CheckResult } from './protocol.ts';
import type { AboutFile } from './protocol-parts.ts';
import type { Session } from './session.ts';
import { MOST_BYTES } from './text-limits.ts';
import { toRange } from './to-protocol.ts';

/** The findings of one file for somebody who waits for all of them. */
export function serveChecks(own: AnswerOwn, session: Session): void {
  own<AboutFile, CheckResult>(CHECK_REQUEST, 'check', FAILED, async ({ uri }, token) => {
    try {
      return await check(session, uri, token);
    } finally {
      session.release(uri);
    }
  });
}

/** A pickup or a position a turn, so that whatever is typed meanwhile comes in between. */
async function check(session: Session, uri: string, token: CancellationToken): Promise<Omit<CheckResult, 'protocol'>> {
  if (!session.files.isInside(uri)) return unchecked('It lies outside the folders that are open.');
  while (!session.goOn(uri, slice()).isDone) if (await isOver(token)) return CALLED_OFF;
  const analysis = await whenRead(() => session.analysisOfFile(uri));
  const document = session.files.document(uri);
  if (document === undefined) return unchecked(`It cannot be read: ${whyUnread(session, uri)}.`);
  if (analysis === undefined) return document.getText().length > MOST_BYTES ? TOO_LARGE : FAILED;
  for (const each of [...analysis.pickups, ...analysis.instruments]) {
    each.lateFindings();
    if (await isOver(token)) return CALLED_OFF;
  }
  const found = diagnostics({ ...analysis, findings: analysis.allFindings() });
  return {
    findings: found.map(({ code, severity, message, span }) => ({
      code,
      severity,
      message,
      range: toRange(document, span),
    })),
    uris: analysis.uris,
  };
}

async function isOver(token: CancellationToken): Promise<boolean> {
  await new Promise((resolve) => setTimeout(resolve, 0));
  return token.isCancellationRequested;
}

function whyUnread({ files }: Session, uri: string): string {
  const content = files.content(uri);
  return content?.kind === 'unreadable' ? content.reason : 'there is no such file';
}

const unchecked = (problem: string) => ({ findings: [], uris: [], problem });

const TOO_LARGE = unchecked('It is longer than a spec may be.');

const FAILED = unchecked('The server’s output says why it was not checked.');

const CALLED_OFF = unchecked('It was called off.');
