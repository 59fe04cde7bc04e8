import type { Connection } from 'vscode-languageserver';
import { BENCH_REQUEST, type BenchParams, type BenchResult } from './bench-protocol.ts';
import { benchSection } from './bench-sections.ts';
import { createBases } from './bench-states.ts';
import { answering, type Report } from './guard.ts';
import { PROTOCOL_VERSION } from './protocol.ts';
import type { Session } from './session.ts';

/** Requests of the bench view: one section each, so that whatever is typed meanwhile comes between them. */
export function serveBench(
  connection: Connection,
  { session, report }: { readonly session: Session; readonly report: Report },
): void {
  const bases = createBases(session.files);
  connection.onRequest(
    BENCH_REQUEST,
    answering<BenchParams, BenchResult | null>(report, 'bench view', null, async (params) => {
      const document = session.documents.get(params.uri);
      const now = document && session.analysisOf(document);
      if (!document || !now) return null;
      const before = params.base && (await bases.before(params.base, now));
      const content = benchSection({ document, now, before }, params);
      return content === undefined
        ? null
        : { protocol: PROTOCOL_VERSION, uri: params.uri, version: document.version, content };
    }),
  );
}
