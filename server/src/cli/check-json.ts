/** `check/1`: findings as data. The shape is published as a JSON Schema beside this file. */

import { jsonEntry, jsonList } from './json-list.ts';
import type { CheckedFile } from './located-finding.ts';

export const JSON_FILES = jsonList('check/1', 'files');

/** One file, as it stands in the list. */
export const jsonPiece = ({ path, findings }: CheckedFile): string =>
  jsonEntry({
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
  });
