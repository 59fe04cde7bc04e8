/** `check/1`: findings as data. The shape is published as a JSON Schema beside this file. */
import type { CheckedFile } from './located-finding.ts';
import { jsonText } from './visible.ts';

export function checkJson(files: readonly CheckedFile[]): string {
  return jsonText({
    schema: 'check/1',
    files: files.map((file) => ({
      path: file.path,
      findings: file.findings.map((finding) => ({
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
    })),
  });
}
