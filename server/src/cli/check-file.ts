/** One file checked, and its findings as they are written: all that is kept of it. */
import type { Analyser } from '../analysis/analysis.ts';
import type { Finding } from '../checks/finding.ts';
import { githubText } from './check-github.ts';
import { jsonPiece } from './check-json.ts';
import { type SarifFile, sarifFile } from './check-sarif.ts';
import { findingsText } from './check-text.ts';
import { isPlannable, locateFindings } from './located-finding.ts';
import { type SourceResult, sourceReader } from './source.ts';
import { stylesFor } from './styles.ts';
import type { Task } from './threads.ts';

export interface CheckSettings {
  readonly cwd: string;
  readonly root: string | undefined;
  readonly format: 'text' | 'json' | 'sarif' | 'github';
  readonly isTerminal: boolean;
  /** What of it says whether colours are shown. */
  readonly environment: Readonly<Record<string, string | undefined>>;
  readonly columns: number | undefined;
}

export interface FileToCheck {
  readonly file: string;
  /** Whether the best plan of repair is searched for: for a person who reads it. */
  readonly isPlanned: boolean;
}

export type FileCheck =
  | {
      readonly ok: true;
      readonly path: string;
      readonly text: string;
      readonly sarif: SarifFile | undefined;
      readonly told: readonly Pick<Finding, 'code' | 'severity'>[];
      /** A plan of repair may settle something in it. */
      readonly isFaulty: boolean;
    }
  | { readonly ok: false; readonly problem: string };

export const checkTask: Task<CheckSettings, FileToCheck, FileCheck> = {
  name: 'check',
  begin(settings, analyser) {
    const read = sourceReader(settings.root, settings.cwd);
    return ({ file, isPlanned }) => {
      const result = read(file);
      const checked = checkSource(result, settings, isPlanned, analyser);
      // Only a file that others use is asked for again; what is let go at once is never moved to where the old is kept.
      if (result.ok) analyser.forget(result.source.uri);
      return checked;
    };
  },
};

export function checkSource(
  read: SourceResult,
  settings: CheckSettings,
  isPlanned: boolean,
  analyser: Analyser,
): FileCheck {
  if (!read.ok) return read;
  const { cwd, format, columns } = settings;
  const { shown: path, uri, host } = read.source;
  const analysis = analyser.analyse(uri, host);
  const checked = { path, findings: locateFindings(analysis, cwd, isPlanned) };
  const told = checked.findings.map(({ code, severity }) => ({ code, severity }));
  const texts = {
    text: () => findingsText(checked, { styles: stylesFor(settings.isTerminal, settings.environment), columns }),
    json: () => jsonPiece(checked),
    github: () => githubText(checked),
    sarif: () => '',
  };
  const isFaulty = analysis.findings.some(isPlannable);
  const sarif = format === 'sarif' ? sarifFile(checked) : undefined;
  return { ok: true, path, told, isFaulty, text: texts[format](), sarif };
}
