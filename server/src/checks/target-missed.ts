import { grouped } from '../../../grammar/values/quantity.ts';
import { type JudgedAim, judgedAims, quickAims } from '../estimates/aims.ts';
import { type Target, type TurnsProposal, turnsForTarget } from '../estimates/turns-plan.ts';
import { printCount } from '../quantities/print.ts';
import { aimName, gapText, reachedText } from '../words/aim-words.ts';
import type { Language } from '../words/languages/language.ts';
import { plannedTurns } from '../words/turns-words.ts';
import type { Found } from './check.ts';
import { replaceNumber } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';

const TARGET_MISSED = {
  code: 'target/missed',
  severity: 'information',
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'circuit/coil-shorted', 'winding/does-not-fit'],
} as const;

/** Resistance, and the turns of two coils. */
export const targetMissed = definePickupCheck({
  ...TARGET_MISSED,
  run: (context) => quickAims(context.quick, context.bench).map((each) => missed(context, each)),
});

/** All that asks for an inductance. */
export const targetSoundMissed = definePickupCheck({
  ...TARGET_MISSED,
  late: true,
  run: (context) => {
    const told = new Set(quickAims(context.quick, context.bench).map(({ aim }) => aim));
    return judgedAims(context.quick, context.bench).flatMap((each) =>
      told.has(each.aim) ? [] : (missed(context, each) ?? []),
    );
  },
});

function missed(context: PickupContext, judged: JudgedAim): Found | undefined {
  const { aim, reached, verdict } = judged;
  if (verdict !== 'missed' || reached === undefined) return undefined;
  const { place } = aim;
  if (reached === null)
    return aim.kind === 'resistance'
      ? undefined
      : {
          what: (t) =>
            t(
              aim.load === 'unloaded'
                ? 'The unloaded response has no peak: there is none that could reach the target of {0}.'
                : 'The loaded response has no peak: there is none that could reach the target of {0}.',
              aim.written,
            ),
          action: (t) =>
            t(
              'Thinner metal about the coils, or metal that conducts less, brings a peak back; under a load larger pots do, too.',
            ),
          place,
        };
  return {
    what: (t) =>
      t(
        reached.value > aim.wanted
          ? 'The {0} comes to {1}, {2} above the target of {3}: turns, wire or target are not what was meant.'
          : 'The {0} comes to {1}, {2} below the target of {3}: turns, wire or target are not what was meant.',
        aimName(judged, t).what,
        reachedText(judged, t),
        gapText(aim, reached.value, t),
        aim.written,
      ),
    place,
    remedies: () => remedies(turnsFor(aim, context) ?? []),
  };
}

function turnsFor(
  { kind, wanted, load }: JudgedAim['aim'],
  { quick, bench }: PickupContext,
): readonly TurnsProposal[] | undefined {
  const target: Target | undefined =
    kind === 'resistance'
      ? { resistanceOhm: wanted }
      : kind === 'inductance'
        ? { inductanceH: wanted }
        : kind === 'resonance'
          ? { resonanceHz: wanted, loaded: load === 'loaded' }
          : undefined;
  return target && turnsForTarget(quick, bench, target);
}

/** Only a plan can be changed: a coil that was counted has been wound. */
function remedies(proposals: readonly TurnsProposal[]): Remedy | undefined {
  if (proposals.length === 0 || proposals.some(({ coil, fits }) => coil.counted || !coil.turns || !fits))
    return undefined;
  const edits = proposals.map((each) => {
    const line = each.coil.turns?.place;
    return line && replaceNumber(line, grouped(plannedTurns(each)));
  });
  const each = (t: Language) =>
    proposals.map((proposal) => `${proposal.coil.name} ${printCount(plannedTurns(proposal), t.numbers)}`).join(', ');
  return remedy((t) => t('Wind the turns that reach it: {0}', each(t)), edits);
}
