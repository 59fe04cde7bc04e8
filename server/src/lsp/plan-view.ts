/** The planned wiring of an instrument, or why there is none, as the bench view shows it. */
import type { InstrumentAnalysis } from '../analysis/analysis-types.ts';
import { solderingOrder } from '../documents/soldering-order.ts';
import { switchPicture } from '../documents/switch-diagram/from-model.ts';
import { switchDiagram, switchTable } from '../documents/switch-diagram/switch-diagram.ts';
import { wiredStates } from '../estimates/switch-states.ts';
import { locateEdits } from '../features/text-edits.ts';
import { finished, type Steps } from '../physics/switching/steps.ts';
import { isUnwired, type WiringAnswer, type WiringProposal, wiringFor } from '../repair/wiring-proposal.ts';
import { cautionsOf } from '../words/cautions.ts';
import type { Language } from '../words/languages/language.ts';
import { capital } from '../words/text.ts';
import { clashWords, otherWords, SEARCH_ENDED, takenWords, wiresWords } from '../words/wiring-words.ts';
import type { SectionAsked, WiringPlanView } from './bench-view-protocol.ts';
import { type ComparedStates, instrumentNamed } from './compared-states.ts';
import { heardAt } from './heard.ts';
import type { Subject } from './protocol-parts.ts';
import { sheetWidth } from './sheet-width.ts';
import { toRange } from './to-protocol.ts';

/** What takes long of it. */
export function* plannedBefore({ now }: ComparedStates, subject: Subject): Steps<void> {
  const instrument = unwired({ now }, subject);
  if (instrument) yield* wiringFor(now, instrument);
}

function unwired({ now }: Pick<ComparedStates, 'now'>, { kind, name }: Subject): InstrumentAnalysis | undefined {
  const instrument = kind === 'instrument' ? instrumentNamed(now, name) : undefined;
  return instrument && isUnwired(now, instrument) ? instrument : undefined;
}

export function planView(states: ComparedStates, params: SectionAsked): WiringPlanView {
  const { now, document, t } = states;
  const instrument = unwired(states, params.subject);
  const answer = instrument && finished(wiringFor(now, instrument));
  const bare = {
    version: document.version,
    says: answer ? says(answer, t) : [],
    drawn: {},
    lines: [],
    cautions: [],
    edits: [],
  };
  if (!instrument || answer?.kind !== 'proposal') return bare;
  const { edit, lines } = answer.proposal;
  const edits = locateEdits(now, [edit]) ?? [];
  return {
    ...bare,
    ...drawnOnce(states, answer.proposal, params),
    lines: ['wiring {', ...lines.map((line) => `  ${line}`), '}'],
    cautions: cautionsOf('solder').map((each) => t(each)),
    edits: edits.some(({ at }) => at.uri !== now.uri)
      ? []
      : edits.map(({ at, newText }) => ({ range: toRange(document, at), newText })),
  };
}

function says(answer: WiringAnswer, t: Language): readonly string[] {
  const sentence = (text: string) => `${capital(text)}.`;
  switch (answer.kind) {
    case 'proposal': {
      const { plan, taken } = answer.proposal;
      return [sentence([wiresWords(plan, t), ...(taken ? [takenWords(taken, t)] : [])].join(', '))];
    }
    case 'impossible':
      return [
        sentence(t('no wiring does it: {0}', clashWords(answer.why, t))),
        ...answer.others.map((each) => sentence(otherWords(each, t))),
        ...(answer.looseWires === undefined
          ? []
          : [t('If coils that are not heard may hang on hot by one end, {0} wires do it.', String(answer.looseWires))]),
      ];
    case 'ended':
      return [sentence(t(SEARCH_ENDED))];
    // What is missing for it is a finding of its own.
    case 'not planned':
      return [];
  }
}

/** The instrument as it is once the plan is written. */
function drawnOnce(
  { now, t }: ComparedStates,
  { edit }: WiringProposal,
  params: SectionAsked,
): Pick<WiringPlanView, 'drawn' | 'joints'> {
  const after = now.edited([edit]);
  const heard = after && heardAt(after, params);
  const picture = heard && switchPicture(after, heard.instrument, heard.position.key.value, t);
  const states = heard && wiredStates(heard.instrument.written);
  if (!picture || !states) return { drawn: {} };
  return {
    drawn: {
      svg: switchDiagram({ ...picture, id: `plan-${picture.id}` }, sheetWidth(params.width)),
      table: switchTable(picture),
    },
    joints: {
      caption: t('Joints, in this order: jumpers, commons, leads, grounds'),
      columns: [t('solder'), t('onto')],
      rows: solderingOrder(states.numbered.rig, heard.instrument.written).map((each) => [
        t.word(each.from),
        t.word(each.to),
      ]),
    },
  };
}
