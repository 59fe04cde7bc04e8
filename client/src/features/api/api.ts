import { type Disposable, EventEmitter, languages, Range, type Uri } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  CHECK_REQUEST,
  type CheckResult,
  FILE_ENDING,
  PROTOCOL_VERSION,
  REPORT_REQUEST,
  type ReportResult,
} from '../../../../server/src/lsp/protocol.ts';
import type { PickupSpecApi } from '../../api.ts';

export function createApi(client: BaseLanguageClient): PickupSpecApi & Disposable {
  const changed = new EventEmitter<readonly Uri[]>();
  const listening = languages.onDidChangeDiagnostics(({ uris }) => {
    const specs = uris.filter(({ path }) => path.endsWith(FILE_ENDING));
    if (specs.length > 0) changed.fire(specs);
  });
  const about = (uri: Uri) => ({ protocol: PROTOCOL_VERSION, uri: uri.toString() });
  return {
    apiVersion: 1,
    check: async (uri) => {
      const { findings, problem } = await client.sendRequest<CheckResult>(CHECK_REQUEST, about(uri));
      return {
        findings: findings.map(({ code, severity, message, range: { start, end } }) => ({
          code,
          severity,
          message,
          range: new Range(start.line, start.character, end.line, end.character),
        })),
        ...(problem === undefined ? {} : { problem }),
      };
    },
    report: async (uri) => {
      const { subjects, problem } = await client.sendRequest<ReportResult>(REPORT_REQUEST, about(uri));
      return {
        subjects: subjects.map(({ tables, ...subject }) => ({
          ...subject,
          tables: tables.map(({ caption, rows }) => ({
            caption,
            rows: rows.map(({ name, now, restsOn }) => ({ name, value: now, restsOn })),
          })),
        })),
        ...(problem === undefined ? {} : { problem }),
      };
    },
    onDidChangeFindings: changed.event,
    dispose: () => {
      listening.dispose();
      changed.dispose();
    },
  };
}
