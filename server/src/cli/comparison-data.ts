/** `compare/1`: a comparison as data. */

import type { Finding } from '../checks/finding.ts';
import { type FactChange, sidesOf } from '../comparison/compare-facts.ts';
import type { NumberChange } from '../comparison/compare-numbers.ts';
import { type Comparison, joined, sameMeaning } from '../comparison/comparison.ts';
import { changesOf } from '../estimates/sweep-comparison.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type Figure, figureOf } from '../quantities/figure.ts';
import { isToldApart } from '../words/number-text.ts';
import { changeWords } from '../words/sweep-words.ts';
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
    comparisons: isOne ? undefined : compared.map((each) => ({ ...each.names, ...comparisonData(each.comparison) })),
    filesGone: folders?.gone,
    filesCome: folders?.come,
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
    sweeps: comparison.sweeps.map(({ path, pair }) => ({
      path,
      text: changeWords(pair),
      changes: Object.fromEntries(
        Object.entries(changesOf(pair)).map(([key, { value, sd, basis }]) => [
          key,
          { value, uncertainty: finiteOrNull(sd), basis },
        ]),
      ),
    })),
  };
}

export const numberData = ({ path, key, before, after, difference }: NumberChange) => ({
  path,
  key,
  before: figure(before),
  after: figure(after),
  difference: difference && {
    value: difference.value,
    uncertainty: finiteOrNull(difference.sd),
    toldApart: isToldApart(difference),
  },
});

function factData(change: FactChange) {
  const { path, kind } = change;
  if ('facts' in change) return { path, kind, facts: change.facts.map(({ text }) => text) };
  const [[before, after] = []] = sidesOf(change);
  return { path, kind, before: before || undefined, after: after || undefined };
}

/** `undefined`, which JSON leaves out: not known; `null`: there is none. */
const figure = (estimate: Estimate | null | undefined): Figure | null | undefined =>
  estimate === undefined ? undefined : ((estimate && figureOf(estimate)) ?? null);

const finiteOrNull = (value: number): number | null => (Number.isFinite(value) ? value : null);

const findingData = ({ code, severity, message, subject }: Finding) => ({
  code,
  severity,
  message,
  pickup: subject.pickup,
  instrument: subject.instrument,
  position: subject.position,
});
