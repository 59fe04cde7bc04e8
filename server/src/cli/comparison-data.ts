/** `compare/1`: a comparison as data. */
import type { Analysis } from '../analysis/analysis-types.ts';
import type { Finding } from '../checks/finding.ts';
import type { FactChange } from '../comparison/compare-facts.ts';
import type { NumberChange } from '../comparison/compare-numbers.ts';
import { type Comparison, joined, sameMeaning } from '../comparison/comparison.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type Figure, figureOf } from '../quantities/figure.ts';
import { isToldApart } from '../words/number-text.ts';
import type { ComparedFolders } from './compare-folders.ts';
import type { Compared } from './compared-states.ts';

/** What one call of compare has compared: two states, every rework of a file, or the files of a folder. */
export interface ComparedAll {
  readonly names: Compared['names'];
  readonly compared: readonly Compared[];
  /** Of folders, the files that only one has. */
  readonly folders?: ComparedFolders;
}

/** All of it as one, and where it is more than one comparison, each by itself. */
export function comparedData({ names, compared, folders }: ComparedAll) {
  const isOne = compared.length === 1 && folders === undefined;
  return {
    schema: 'compare/1',
    ...names,
    ...comparisonData(joined(compared.map(({ comparison }) => comparison))),
    ...(isOne ? {} : { comparisons: compared.map((each) => ({ ...each.names, ...comparisonData(each.comparison) })) }),
    ...(folders ? { filesGone: folders.gone, filesCome: folders.come } : {}),
  };
}

function comparisonData(comparison: Comparison) {
  return {
    same: sameMeaning(comparison),
    facts: comparison.facts.map(factData),
    numbers: comparison.numbers.map(numberData),
    phases: comparison.phases,
    findings: {
      gone: comparison.findings.gone.map(findingData),
      come: comparison.findings.come.map(findingData),
      changed: comparison.findings.changed.map(({ before, after }) => ({
        ...findingData(after),
        severityBefore: before.severity,
      })),
    },
  };
}

export const numberData = ({ path, key, before, after, difference }: NumberChange) => ({
  path,
  key,
  ...(before === undefined ? {} : { before: figure(before) }),
  ...(after === undefined ? {} : { after: figure(after) }),
  ...(difference === undefined
    ? {}
    : {
        difference: {
          value: difference.value,
          uncertainty: finiteOrNull(difference.sd),
          toldApart: isToldApart(difference),
        },
      }),
});

/** Line of a finding, from one, for people. */
export function lineOf(finding: Finding, analysis: Analysis): number {
  const at = analysis.locate(finding.place);
  if (at === undefined || at.uri !== analysis.uri) return 1;
  return analysis.text.slice(0, at.start).split(/\r\n|\r|\n/).length;
}

function factData(change: FactChange) {
  const { path, kind } = change;
  switch (change.kind) {
    case 'fact added':
      return { path, kind, after: change.after.text };
    case 'fact removed':
      return { path, kind, before: change.before.text };
    case 'fact changed':
      return { path, kind, before: change.before.text, after: change.after.text };
    case 'renamed':
      return { path, kind, before: change.from, after: change.to };
    default:
      return { path, kind, facts: change.facts.map(({ text }) => text) };
  }
}

const figure = (estimate: Estimate | null): Figure | null => (estimate && figureOf(estimate)) ?? null;

const finiteOrNull = (value: number): number | null => (Number.isFinite(value) ? value : null);

const findingData = ({ code, severity, message, subject }: Finding) => ({
  code,
  severity,
  message,
  ...(subject.pickup === undefined ? {} : { pickup: subject.pickup }),
  ...(subject.instrument === undefined ? {} : { instrument: subject.instrument }),
  ...(subject.position === undefined ? {} : { position: subject.position }),
});
