import type { Connection } from 'vscode-languageserver';
import { explanationPage } from '../features/explanation-page.ts';
import { serveBench } from './bench-view-requests.ts';
import { drawing } from './drawings.ts';
import { answering, type Report } from './guard.ts';
import { serveNew } from './new-requests.ts';
import {
  DRAWING_REQUEST,
  type DrawingParams,
  type DrawingResult,
  EXPLAIN_REQUEST,
  type ExplainParams,
  type ExplainResult,
  PROTOCOL_VERSION,
} from './protocol.ts';
import type { Session } from './session.ts';

/** Requests that only our own client makes. */
export function serveOwnRequests(
  connection: Connection,
  { session, report }: { readonly session: Session; readonly report: Report },
): void {
  serveBench(connection, { session, report });
  serveNew(connection, { session, report });
  connection.onRequest(
    EXPLAIN_REQUEST,
    answering<ExplainParams, ExplainResult>(report, 'explanation', { protocol: PROTOCOL_VERSION }, ({ code }) => {
      const page = typeof code === 'string' ? explanationPage(code) : undefined;
      return { protocol: PROTOCOL_VERSION, ...(page === undefined ? {} : { page }) };
    }),
  );
  connection.onRequest(
    DRAWING_REQUEST,
    answering<DrawingParams, DrawingResult | null>(report, 'drawing', null, async (params, token) => {
      const document = session.documents.get(params.uri);
      const analysis = document && (await session.whenAnalysed(document, token));
      return document && analysis ? drawing(params, { document, analysis }) : null;
    }),
  );
}
