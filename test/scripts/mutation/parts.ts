/** Whose tests have to notice what: the sources that are changed on purpose, and the test files of their part, the quick ones first. */
export interface MutatedPart {
  readonly name: string;
  readonly sources: readonly string[];
  readonly tests: readonly string[];
}

const estimates = (...names: readonly string[]) => names.map((name) => `server/src/estimates/${name}.ts`);

export const MUTATED_PARTS: readonly MutatedPart[] = [
  {
    name: 'signs',
    sources: estimates('signs', 'sign-system', 'phase', 'sources'),
    tests: [
      'test/estimates/sign-system.test.ts',
      'test/estimates/kicks.test.ts',
      'test/estimates/phase.test.ts',
      'test/estimates/sources.test.ts',
      'test/sweeps/whole.test.ts',
      'test/checks/sign-table.test.ts',
      'test/checks/contradictions.test.ts',
    ],
  },
  {
    name: 'life',
    sources: estimates('coil-life'),
    // Every combination for two coils: some ten seconds.
    tests: ['test/estimates/coil-life.test.ts', 'test/estimates/kicks.test.ts', 'test/estimates/life-table.test.ts'],
  },
  {
    name: 'netlist',
    sources: ['server/src/model/netlist.ts', 'server/src/model/joined-nodes.ts', ...estimates('pickup-circuit')],
    tests: [
      'test/model/netlist.test.ts',
      'test/checks/sign-table.test.ts',
      'test/checks/wiring.test.ts',
      'test/checks/contradictions.test.ts',
    ],
  },
  {
    name: 'planner',
    sources: [
      'changed-pickup',
      'faults',
      'identified-leads',
      'impossible',
      'keep-likes',
      'moves',
      'outlook',
      'pickup-edits',
      'plan-repairs',
      'scope',
      'search',
      'step-words',
      'wired-leads',
      'work',
    ].map((name) => `server/src/repair/${name}.ts`),
    tests: [
      'test/repair/moves.test.ts',
      'test/repair/outlook.test.ts',
      'test/repair/changed-pickup.test.ts',
      'test/repair/written.test.ts',
      'test/repair/impossible.test.ts',
      'test/repair/search.test.ts',
      'test/repair/judge.test.ts',
      'test/repair/plan-repairs.test.ts',
      'test/repair/wired.test.ts',
      'test/repair/hookup-to-solder.test.ts',
      'test/features/identify-actions.test.ts',
    ],
  },
  {
    name: 'reading again',
    sources: ['grammar/src/cut.ts', 'grammar/src/read-file.ts'],
    tests: ['test/grammar/cut.test.ts', 'test/grammar/read-file.test.ts', 'test/grammar/same-but-for-spaces.test.ts'],
  },
  {
    name: 'dependencies',
    sources: [
      'analysis',
      'early-findings',
      'faults',
      'file-mentions',
      'file-state',
      'former-states',
      'instrument-analysis',
      'newest',
      'own-parts',
      'pickup-analysis',
      'record',
      'text-findings',
      'use-graph',
      'verified-fixes',
    ].map((name) => `server/src/analysis/${name}.ts`),
    tests: [
      'test/analysis/dependencies.test.ts',
      'test/analysis/whole-file.test.ts',
      'test/analysis/steps.test.ts',
      'test/sweeps/curve-files.test.ts',
      'test/checks/verified-fixes.test.ts',
      'test/checks/not-analysed.test.ts',
    ],
  },
  {
    name: 'limits',
    sources: [
      'server/src/analysis/limits.ts',
      'grammar/src/match-selection.ts',
      'server/src/lsp/too-large.ts',
      ...estimates('reading-limits'),
    ],
    tests: [
      'test/analysis/limits.test.ts',
      'test/estimates/reading-limits.test.ts',
      'test/checks/not-analysed.test.ts',
    ],
  },
];
