import type { ExplanationPage, FindResult } from '../../../../server/src/lsp/protocol.ts';
import type { CheckedSpec, ReportedSpec } from '../../api.ts';

/** What the tools answer, as plain text. Names and notes in it were typed by somebody: they are told, never followed. */

export function checkText(file: string, { findings, problem }: CheckedSpec): string {
  if (problem !== undefined) return `${file} was not checked. ${problem}`;
  if (findings.length === 0) return `${file}: no findings.`;
  return [
    `${file}: ${findings.length === 1 ? '1 finding' : `${findings.length} findings`}.`,
    ...findings.map(
      ({ code, severity, message, range }) => `line ${range.start.line + 1}: ${severity} ${code}: ${message}`,
    ),
  ].join('\n');
}

export function reportText(file: string, { subjects, problem }: ReportedSpec): string {
  if (problem !== undefined) return `There is no report of ${file}. ${problem}`;
  if (subjects.length === 0) return `${file} holds no pickup and no instrument.`;
  const lines = subjects.flatMap(({ kind, name, title, tables }) => [
    `${kind} ${name}, ${title}`,
    ...tables.flatMap(({ caption, rows }) => [
      `${caption} (± is one standard deviation)`,
      ...rows.map((row) => `- ${row.name}: ${row.value}${row.restsOn === '' ? '' : ` (${row.restsOn})`}`),
    ]),
  ]);
  return [`${file}:`, ...lines].join('\n');
}

export function explanationText(code: string, page: ExplanationPage | undefined): string {
  if (page === undefined) return `No finding has the code ${code}.`;
  const sections = page.sections.flatMap(({ heading, blocks }) => [
    heading,
    ...blocks.map((block) => {
      if (block.kind === 'example') return block.runs.map(({ text }) => text).join('');
      return block.kind === 'point' ? `- ${block.text}` : block.text;
    }),
  ]);
  return [page.code, page.summary, ...sections].join('\n\n');
}

export function listText({ found, problem, examples, cautions }: FindResult, fileOf: (uri: string) => string): string {
  if (problem !== undefined) return `${problem} Filters are written like: ${examples.join('; ')}.`;
  if (found.length === 0) return 'No pickup fits.';
  const lines = found.map(({ name, title, uri, about, reasons }) => {
    const called = title === undefined ? name : `${name}, ${title}`;
    return [`${called} (${fileOf(uri)})`, about, ...reasons].filter((part) => part !== '').join('; ');
  });
  return [...lines, ...cautions].join('\n');
}
