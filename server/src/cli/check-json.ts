/** `check/1`: findings as data. The shape is published as a JSON Schema beside this file. */
import type { CheckedFile } from './located-finding.ts';
import { jsonText } from './visible.ts';

/** What comes before the files, between two of them, and after them; without any, the list is empty. */
export const JSON_FRAME = {
  begin: '{\n  "schema": "check/1",\n  "files": [\n',
  between: ',\n',
  end: '\n  ]\n}\n',
  empty: '{\n  "schema": "check/1",\n  "files": []\n}\n',
} as const;

/** One file, as it stands in the list. */
export const jsonPiece = ({ path, findings }: CheckedFile): string =>
  jsonText({
    path,
    findings: findings.map((finding) => ({
      code: finding.code,
      severity: finding.severity,
      message: finding.message,
      what: finding.what,
      ...(finding.hint ? { hint: finding.hint } : {}),
      ...(finding.action ? { action: finding.action } : {}),
      range: finding.at.range,
      related: finding.related.map(({ message, at }) => ({ message, path: at.path, range: at.range })),
      fixes: finding.fixes.map((fix) => ({
        title: fix.title,
        edits: fix.edits.map(({ at, newText }) => ({ path: at.path, range: at.range, newText })),
      })),
    })),
  })
    .trimEnd()
    .replace(/^/gm, '    ');
