/** The findings of all files as one text, written as they come; and the exit code that they give. */
import { cautionsFor } from '../checks/explanation.ts';
import type { Finding, Severity } from '../checks/finding.ts';
import type { CheckSettings, FileCheck } from './check-file.ts';
import { JSON_FILES } from './check-json.ts';
import { checkSarif, type SarifFile } from './check-sarif.ts';
import { endText } from './check-text.ts';
import type { ExitCode } from './command.ts';
import type { Context } from './context.ts';
import { visibleLines } from './visible.ts';

export function checkReport(format: CheckSettings['format'], context: Context) {
  const problems: string[] = [];
  const sarif: SarifFile[] = [];
  const counts = new Map<Severity, number>();
  const kinds = new Map<string, Pick<Finding, 'code' | 'severity'>>();
  let files = 0;
  const write = (text: string): void => {
    if (text === '') return;
    context.progress.clear();
    context.stdout.write(text);
  };
  const unusable = (problem: string): void => {
    problems.push(problem);
    context.progress.clear();
    context.stderr.write(`pickup-spec: ${visibleLines(problem)}\n`);
  };
  return {
    unusable,
    add(file: FileCheck): void {
      if (!file.ok) {
        unusable(file.problem);
        return;
      }
      if (file.sarif) sarif.push(file.sarif);
      if (format === 'json') write(JSON_FILES.before(files === 0));
      write(file.text);
      files += 1;
      for (const each of file.told) {
        counts.set(each.severity, (counts.get(each.severity) ?? 0) + 1);
        kinds.set(`${each.code} ${each.severity}`, each);
      }
    },
    /** Writes what comes last. */
    end(): ExitCode {
      write(last());
      if (problems.length > 0) return 2;
      return (counts.get('error') ?? 0) > 0 ? 1 : 0;
    },
  };

  function last(): string {
    switch (format) {
      case 'text':
        if (files === 0 && problems.length > 0) return '';
        return endText({ files, counts }, cautionsFor([...kinds.values()]), context.stdout.columns);
      case 'json':
        return JSON_FILES.end(files === 0);
      case 'sarif':
        return checkSarif(sarif, problems);
      case 'github':
        return '';
    }
  }
}
