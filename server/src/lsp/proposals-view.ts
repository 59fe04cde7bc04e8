/** The target of a pickup and the builds that are proposed for it, as the bench view shows them. */
import { given } from '../../../grammar/values/present.ts';
import type { PickupAnalysis } from '../analysis/analysis-types.ts';
import { tellIn } from '../checks/telling.ts';
import { type AimRow, aimRows } from '../features/aim-rows.ts';
import { proposalOf } from '../features/proposal-actions.ts';
import { locateEdits } from '../features/text-edits.ts';
import {
  choiceWords,
  coilFacts,
  coilWords,
  inTheWayWords,
  magnetWords,
  oddsText,
  openWords,
  windingCautions,
} from '../proposal/build-words.ts';
import type { ProposedBuild } from '../proposal/propose.ts';
import type { Language } from '../words/languages/language.ts';
import { capital } from '../words/text.ts';
import type { ProposalsView, ProposedBuildView, SectionAsked } from './bench-view-protocol.ts';
import { type ComparedStates, pickupNamed } from './compared-states.ts';
import type { FactTable } from './protocol-parts.ts';
import { toRange } from './to-protocol.ts';

export function proposalsView({ document, now, t }: ComparedStates, { subject }: SectionAsked): ProposalsView {
  const pickup = subject.kind === 'pickup' ? pickupNamed(now, subject.name) : undefined;
  const rows = pickup ? aimRows(pickup, t) : [];
  const target = rows.length > 0 ? aimTable(t('Target'), rows, t) : undefined;
  const base = { version: document.version, ...given({ target }), builds: [], inTheWay: [], cautions: [] };
  const proposal = pickup && target && proposalOf(now, pickup);
  if (proposal === undefined || typeof proposal === 'string') return base;
  const { builds, inTheWay, openings } = proposal;
  return {
    ...base,
    free: capital(openWords(openings, t)),
    builds: builds.flatMap((each) => buildView({ document, now, t }, each)),
    inTheWay: inTheWay ? inTheWayWords(inTheWay, t) : [],
    cautions: builds[0] ? windingCautions(builds[0]).map((each) => t(each)) : [],
  };
}

function buildView(
  { document, now: analysis, t }: Pick<ComparedStates, 'document' | 'now' | 't'>,
  build: ProposedBuild,
): readonly ProposedBuildView[] {
  const edits = locateEdits(analysis, build.edits);
  if (edits?.some(({ at }) => at.uri !== analysis.uri) !== false) return [];
  return [
    {
      odds: oddsText(build, t),
      parts: [
        ...coilFacts(build).map((facts) => {
          const { choice } = facts;
          return `${capital(choice.opening.coil.name)}: ${choiceWords(choice, t)}; ${coilWords(facts, t)}`;
        }),
        ...magnetWords(build.build, t),
      ],
      reaches: aimTable(t('Reaches'), rowsOf(build.pickup, t), t),
      givesUp: build.brings.map((finding) => {
        const { what, foreign } = tellIn(finding, t);
        return { what, ...given({ foreign }) };
      }),
      edits: edits.map(({ at, newText }) => ({ range: toRange(document, at), newText })),
    },
  ];
}

const rowsOf = (pickup: PickupAnalysis, t: Language): readonly AimRow[] => aimRows(pickup, t);

const aimTable = (caption: string, rows: readonly AimRow[], t: Language): FactTable => ({
  caption,
  columns: ['', t('comes to'), ''],
  rows: rows.map(({ name, value, verdict }) => [name, value, verdict]),
});
