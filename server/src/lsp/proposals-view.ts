/** The target of a pickup and the builds that are proposed for it, as the bench view shows them. */
import { given } from '../../../grammar/values/present.ts';
import type { Analysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { type AimRow, aimRows } from '../features/aim-rows.ts';
import { proposalOf } from '../features/proposal-actions.ts';
import { locateEdits } from '../features/text-edits.ts';
import {
  choiceWords,
  coilFacts,
  coilWords,
  inTheWayWords,
  oddsText,
  openWords,
  windingCautions,
} from '../proposal/build-words.ts';
import type { ProposedBuild } from '../proposal/propose.ts';
import { capital } from '../words/text.ts';
import type { ProposalsView, ProposedBuildView, SectionAsked } from './bench-view-protocol.ts';
import { type ComparedStates, pickupNamed } from './compared-states.ts';
import type { FactTable } from './protocol-parts.ts';
import { toRange } from './to-protocol.ts';

export function proposalsView({ document, now }: ComparedStates, { subject }: SectionAsked): ProposalsView {
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  const rows = pickup ? aimRows(pickup) : [];
  const target = rows.length > 0 ? aimTable('Target', rows) : undefined;
  const base = { version: document.version, ...given({ target }), builds: [], inTheWay: [], cautions: [] };
  const proposal = pickup && target && proposalOf(now, pickup);
  if (proposal === undefined || typeof proposal === 'string') return base;
  const { builds, inTheWay, openings } = proposal;
  return {
    ...base,
    free: capital(openWords(openings)),
    builds: builds.flatMap((each) => buildView(document, now, each)),
    inTheWay: inTheWay ? inTheWayWords(inTheWay) : [],
    cautions: builds[0] ? windingCautions(builds[0]) : [],
  };
}

function buildView(
  document: ComparedStates['document'],
  analysis: Analysis,
  build: ProposedBuild,
): readonly ProposedBuildView[] {
  const edits = locateEdits(analysis, build.edits);
  if (edits?.some(({ at }) => at.uri !== analysis.uri) !== false) return [];
  const { magnet } = build.build;
  return [
    {
      odds: oddsText(build),
      parts: [
        ...coilFacts(build).map((facts) => {
          const { choice } = facts;
          return `${capital(choice.opening.coil.name)}: ${choiceWords(choice)}; ${coilWords(facts)}`;
        }),
        ...(magnet ? [`${magnet.bar.name}, ${magnet.pole} toward ${magnet.toward.name}`] : []),
      ],
      reaches: aimTable('Reaches', rowsOf(build.pickup)),
      givesUp: build.brings.map(({ what }) => what),
      edits: edits.map(({ at, newText }) => ({ range: toRange(document, at), newText })),
    },
  ];
}

const rowsOf = (pickup: PickupAnalysis): readonly AimRow[] => aimRows(pickup);

const aimTable = (caption: string, rows: readonly AimRow[]): FactTable => ({
  caption,
  columns: ['', 'comes to', ''],
  rows: rows.map(({ name, value, verdict }) => [name, value, verdict]),
});
