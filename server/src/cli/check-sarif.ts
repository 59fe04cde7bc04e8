/** Findings in the Static Analysis Results Interchange Format, OASIS standard SARIF 2.1.0. */
import path from 'node:path';
import manifest from '../../../package.json' with { type: 'json' };
import { explanationOf } from '../checks/explanation.ts';
import type { Severity } from '../checks/finding.ts';
import { summaryOf } from './explain.ts';
import type { Range } from './line-map.ts';
import type { CheckedFile, LocatedFinding, LocatedFix, Location } from './located-finding.ts';
import { jsonText } from './visible.ts';

/** What is said of one file; its place among the rules is known when all have been seen. */
export interface SarifFile {
  readonly artifact: ReturnType<typeof artifact>;
  readonly results: readonly ReturnType<typeof resultOf>[];
}

export const sarifFile = ({ path: file, findings }: CheckedFile): SarifFile => ({
  artifact: artifact(file),
  results: findings.map(resultOf),
});

export function checkSarif(files: readonly SarifFile[], problems: readonly string[]): string {
  const results = files.flatMap((file) => file.results);
  const codes = [...new Set(results.map(({ ruleId }) => ruleId))].sort();
  return jsonText({
    $schema: 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'pickup-spec',
            version: manifest.version,
            rules: codes.map(rule),
          },
        },
        columnKind: 'utf16CodeUnits',
        invocations: [
          {
            executionSuccessful: problems.length === 0,
            toolExecutionNotifications: problems.map((text) => ({ level: 'error', message: { text } })),
          },
        ],
        artifacts: files.map((file) => ({ location: file.artifact })),
        results: results.map(({ ruleId, ...rest }) => ({ ruleId, ruleIndex: codes.indexOf(ruleId), ...rest })),
      },
    ],
  });
}

const resultOf = (finding: LocatedFinding) => ({
  ruleId: finding.code,
  level: LEVELS[finding.severity],
  message: { text: finding.message },
  locations: [location(finding.at)],
  relatedLocations: finding.related.map(({ at, message }, id) => ({ id, ...location(at), message: { text: message } })),
  fixes: finding.fixes.length === 0 ? undefined : finding.fixes.map(fix),
});

function rule(id: string) {
  const page = explanationOf(id);
  return page === undefined
    ? { id }
    : { id, shortDescription: { text: summaryOf(id) }, help: { text: page, markdown: page } };
}

const LEVELS: Readonly<Record<Severity, string>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
  hint: 'note',
};

const location = (at: Location) => ({
  physicalLocation: { artifactLocation: artifact(at.path), region: region(at.range) },
});

/** A relative reference as RFC 3986 writes it; absolute paths become file URIs. */
function artifact(file: string): { readonly uri: string } {
  const encoded = file.split('/').map(encodeURIComponent).join('/');
  return { uri: path.isAbsolute(file) ? `file://${encoded.startsWith('/') ? '' : '/'}${encoded}` : encoded };
}

/** SARIF counts lines and columns from one; the end column is the one after the last character. */
const region = ({ start, end }: Range) => ({
  startLine: start.line + 1,
  startColumn: start.character + 1,
  endLine: end.line + 1,
  endColumn: end.character + 1,
});

function fix({ title, edits }: LocatedFix) {
  const paths = [...new Set(edits.map(({ at }) => at.path))];
  return {
    description: { text: title },
    artifactChanges: paths.map((each) => ({
      artifactLocation: artifact(each),
      replacements: edits
        .filter(({ at }) => at.path === each)
        .map(({ at, newText }) => ({ deletedRegion: region(at.range), insertedContent: { text: newText } })),
    })),
  };
}
