/** `check/1`: findings as data. The shape is published as a JSON Schema beside this file. */

import { jsonEntry, jsonList } from './json-list.ts';
import type { CheckedFile } from './located-finding.ts';

export const JSON_FILES = jsonList('check/1', 'files');

/** One file, as it stands in the list. */
export const jsonPiece = ({ path, findings }: CheckedFile): string =>
  jsonEntry({
    path,
    findings: findings.map(({ code, severity, message, what, hint, action, at, related, fixes }) => ({
      code,
      severity,
      message,
      what,
      hint: hint || undefined,
      action: action || undefined,
      range: at.range,
      related: related.map(({ message, at }) => ({ message, path: at.path, range: at.range })),
      fixes: fixes.map(({ title, edits }) => ({
        title,
        edits: edits.map(({ at, newText }) => ({ path: at.path, range: at.range, newText })),
      })),
    })),
  });
