import type { Diagnostic } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { DiagnosticSeverity } from './protocol-library.ts';
import { MOST_BYTES } from './text-limits.ts';

/** What is said of a document too long to be a spec; nothing where it is not, and its analysis failed for another reason. */
export function tooLargeDiagnostic(document: TextDocument): Diagnostic[] {
  const { length } = document.getText();
  if (length <= MOST_BYTES) return [];
  const limit = MOST_BYTES / 1024 / 1024;
  return [
    {
      range: { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
      severity: DiagnosticSeverity.Warning,
      source: 'pickup',
      code: 'file/too-large',
      message: `This text has ${Math.ceil(length / 1024 / 1024)} MB; above ${limit} MB nothing is checked.`,
    },
  ];
}
