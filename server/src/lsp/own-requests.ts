import type { Connection } from 'vscode-languageserver';
import { given } from '../../../grammar/values/present.ts';
import { explanationPage } from '../features/explanation-page.ts';
import type { Language } from '../words/languages/language.ts';
import { serveBench } from './bench-view-requests.ts';
import { serveChecks } from './check.ts';
import { drawing } from './drawings.ts';
import { serveFences } from './fence.ts';
import { answeringOwn, type Report } from './guard.ts';
import { serveNew } from './new-requests.ts';
import {
  DRAWING_REQUEST,
  type DrawingParams,
  type DrawingResult,
  EXPLAIN_REQUEST,
  type ExplainParams,
  type ExplainResult,
} from './protocol.ts';
import { serveReports } from './report.ts';
import type { Session } from './session.ts';
import { serveSweeps } from './sweep-requests.ts';

/** Requests that only our own client makes. */
export function serveOwnRequests(
  connection: Connection,
  { session, report, t }: { readonly session: Session; readonly report: Report; readonly t: Language },
): void {
  const own = answeringOwn(connection, report);
  serveBench(own, session, t);
  serveNew(own, session);
  serveChecks(own, session);
  serveFences(own, session, t);
  serveReports(own, session, t);
  serveSweeps(own, session, t);
  own<ExplainParams, ExplainResult>(EXPLAIN_REQUEST, 'explanation', {}, ({ code }) =>
    given({ page: typeof code === 'string' ? explanationPage(code) : undefined }),
  );
  own<DrawingParams, DrawingResult | null>(DRAWING_REQUEST, 'drawing', null, async (params, token) => {
    const found = await session.whenAnalysed(params.uri, token);
    return found ? drawing(params, found, t) : null;
  });
}
