/** Two states of a spec by meaning: what was changed, and what that changes. */
import type { Analysis, Played } from '../analysis/analysis-types.ts';
import { compareFacts, type FactChange, type FactComparison } from './compare-facts.ts';
import { compareFindings, type FindingComparison } from './compare-findings.ts';
import { compareNumbers, type NumberChange, type PhaseChange } from './compare-numbers.ts';
import { compareSweeps, type SweepChange } from './compare-sweeps.ts';
import type { StatedBlock } from './stated-blocks.ts';

/** A state: its analysis, and what its file and those that it uses state. */
export interface State {
  readonly analysis: Analysis;
  readonly blocks: readonly StatedBlock[];
}

export interface Comparison {
  readonly facts: readonly FactChange[];
  readonly numbers: readonly NumberChange[];
  readonly phases: readonly PhaseChange[];
  readonly findings: FindingComparison;
  /** As measured in both. */
  readonly sweeps: readonly SweepChange[];
  /** Names after the change by names before it. */
  readonly renamed: ReadonlyMap<string, string>;
}

export const compareStates = (before: State, after: State, played?: Played): Comparison =>
  compareAnalyses(before.analysis, after.analysis, compareFacts(before.blocks, after.blocks), played);

/** What facts that are compared already change. */
export function compareAnalyses(
  before: Analysis,
  after: Analysis,
  { changes, renamed }: FactComparison,
  played?: Played,
): Comparison {
  return {
    facts: changes,
    ...compareNumbers(before, after, renamed, played),
    findings: compareFindings(before.allFindings(), after.allFindings(), renamed),
    sweeps: compareSweeps(before, after, renamed),
    renamed,
  };
}

/** Several comparisons told as one. */
export const joined = (all: readonly Comparison[]): Comparison => ({
  facts: all.flatMap(({ facts }) => facts),
  numbers: all.flatMap(({ numbers }) => numbers),
  phases: all.flatMap(({ phases }) => phases),
  findings: {
    gone: all.flatMap(({ findings }) => findings.gone),
    come: all.flatMap(({ findings }) => findings.come),
    changed: all.flatMap(({ findings }) => findings.changed),
  },
  sweeps: all.flatMap(({ sweeps }) => sweeps),
  renamed: new Map(all.flatMap(({ renamed }) => [...renamed])),
});

/** True where nothing differs but order, layout and comments. */
export const sameMeaning = ({ facts, numbers, phases, findings }: Comparison): boolean =>
  facts.length === 0 &&
  numbers.length === 0 &&
  phases.length === 0 &&
  findings.gone.length === 0 &&
  findings.come.length === 0 &&
  findings.changed.length === 0;
