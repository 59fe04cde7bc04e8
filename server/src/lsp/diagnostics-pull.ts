import type {
  CancellationToken,
  Diagnostic,
  DocumentDiagnosticParams,
  DocumentDiagnosticReport,
  WorkspaceDiagnosticParams,
  WorkspaceDiagnosticReport,
} from 'vscode-languageserver';
import type { Documents } from './documents.ts';
import { fileKey } from './file-key.ts';
import { DocumentDiagnosticReportKind } from './protocol-library.ts';

/** Findings for an editor that asks for them: what would have been sent is kept until it does. */
export interface Pull {
  /** What is found now of a file; `version`: of the text that is open. */
  publish(uri: string, version: number | null, found: Diagnostic[]): void;
  /** Closed: who waits for it waits in vain. */
  dropped(uri: string): void;
  /** Waits for what is found of the text as it is then. */
  ofDocument(params: DocumentDiagnosticParams, token: CancellationToken): Promise<DocumentDiagnosticReport>;
  /** Of all files of which something was found, or is found no more. */
  ofWorkspace(params: WorkspaceDiagnosticParams): WorkspaceDiagnosticReport;
}

export interface PullTarget {
  readonly documents: Documents;
  /** Lets the editor ask again: what it has been told of a text that has not changed is no longer so. */
  readonly refresh: () => void;
}

interface Report {
  readonly uri: string;
  readonly version: number | null;
  readonly found: Diagnostic[];
  readonly text: string;
  /** The same as long as the same is found. */
  readonly id: string;
}

export function createPull({ documents, refresh }: PullTarget): Pull {
  const reports = new Map<string, Report>();
  /** What the editor was told last of a document. */
  const told = new Map<string, Report>();
  const waiting = new Set<() => void>();
  let ids = 0;
  const wake = (): void => {
    const woken = [...waiting];
    waiting.clear();
    for (const each of woken) each();
  };
  return {
    publish: (uri, version, found) => {
      const key = fileKey(uri);
      const text = JSON.stringify(found);
      const before = reports.get(key);
      if (before?.text !== text) ids += 1;
      const id = before?.text === text ? before.id : String(ids);
      reports.set(key, { uri, version, found, text, id });
      const last = told.get(key);
      if (last && last.version === version && last.id !== id) {
        told.delete(key);
        refresh();
      }
      wake();
    },
    dropped: (uri) => {
      reports.delete(fileKey(uri));
      told.delete(fileKey(uri));
      wake();
    },
    ofDocument: async ({ textDocument, previousResultId }, token) => {
      const key = fileKey(textDocument.uri);
      const cancelling = token.onCancellationRequested(wake);
      try {
        for (;;) {
          const document = documents.get(textDocument.uri);
          const report = reports.get(key);
          if (!document || token.isCancellationRequested) return { kind: DocumentDiagnosticReportKind.Full, items: [] };
          if (report?.version === document.version) {
            told.set(key, report);
            return reportOf(report, previousResultId);
          }
          await new Promise<void>((resolve) => waiting.add(resolve));
        }
      } finally {
        cancelling.dispose();
      }
    },
    ofWorkspace: ({ previousResultIds }) => {
      const before = new Map(previousResultIds.map(({ uri, value }) => [fileKey(uri), value]));
      return {
        items: [...reports].map(([key, report]) => ({
          ...reportOf(report, before.get(key)),
          uri: report.uri,
          version: report.version,
        })),
      };
    },
  };
}

const reportOf = ({ id, found }: Report, previous: string | undefined): DocumentDiagnosticReport =>
  previous === id
    ? { kind: DocumentDiagnosticReportKind.Unchanged, resultId: id }
    : { kind: DocumentDiagnosticReportKind.Full, resultId: id, items: found };
