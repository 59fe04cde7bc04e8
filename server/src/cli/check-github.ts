/** Findings as workflow commands, which a CI run shows as annotations beside the lines of a pull request. */
import type { Severity } from '../checks/finding.ts';
import type { CheckedFile } from './located-finding.ts';
import { visibleLines } from './visible.ts';

export function githubText({ findings }: CheckedFile): string {
  return findings
    .map(({ at, severity, code, message, fixes }) => {
      const { start, end } = at.range;
      const fix = fixes.map(({ title }) => `\nfix: ${title}`).join('');
      const columns = start.line === end.line ? { col: start.character + 1, endColumn: end.character + 1 } : {};
      const properties = { file: at.path, line: start.line + 1, endLine: end.line + 1, ...columns, title: code };
      const list = Object.entries(properties).map(([name, value]) => `${name}=${escapeProperty(String(value))}`);
      return `::${COMMANDS[severity]} ${list.join(',')}::${escapeData(visibleLines(message + fix))}\n`;
    })
    .join('');
}

const COMMANDS: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'notice',
  hint: 'notice',
};

const escapeData = (text: string): string =>
  text.replaceAll('%', '%25').replaceAll('\r', '%0D').replaceAll('\n', '%0A');

const escapeProperty = (text: string): string => escapeData(text).replaceAll(':', '%3A').replaceAll(',', '%2C');
