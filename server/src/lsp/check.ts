import { diagnostics } from '../features/diagnostics.ts';
import { askedFile, CALLED_OFF, FAILED, isOver } from './asked-file.ts';
import type { AnswerOwn } from './guard.ts';
import { CHECK_REQUEST, type CheckResult } from './protocol.ts';
import type { AboutFile } from './protocol-parts.ts';
import type { Session } from './session.ts';
import { toRange } from './to-protocol.ts';

const NOTHING = { findings: [], uris: [] };

/** The findings of one file for somebody who waits for all of them. */
export function serveChecks(own: AnswerOwn, session: Session): void {
  own<AboutFile, CheckResult>(CHECK_REQUEST, 'check', { ...NOTHING, ...FAILED }, async ({ uri }, token) => {
    const told = await askedFile(session, uri, token, async ({ document, analysis }) => {
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
    });
    return { ...NOTHING, ...told };
  });
}
