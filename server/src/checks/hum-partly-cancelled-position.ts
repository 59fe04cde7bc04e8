import { humVerdict, humWeights, phaseOf } from '../estimates/phase.ts';
import { positionHum, type SoundingCoil } from '../estimates/positions.ts';
import type { SelectionPart } from '../model/selection.ts';
import { scale } from '../quantities/estimate.ts';
import { printDb } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { positionWords } from '../words/parts.ts';
import { listIn } from '../words/text.ts';
import { turnsText } from '../words/turns-words.ts';
import { definePositionCheck } from './instrument-check.ts';

export const humPartlyCancelledPosition = definePositionCheck({
  code: 'hum/partly-cancelled',
  severity: 'information',
  late: true,
  yieldsTo: ['circuit/open', 'circuit/output-shorted', 'phase/position-cancels', 'hum/position-hums'],
  at: (solved, context) => {
    const { position, selection, coils } = solved;
    if (!cancelsAcross(coils) || phaseOf(coils) === 'out') return undefined;
    // Coils of open turns count alike where signs are asked for only: of those no number is told.
    const left = positionHum(context, selection);
    if (!left || humVerdict(left.value) !== 'in part') return undefined;
    return {
      what: (t) =>
        t(
          "In {0} hum cancels only in part: {1} of the strongest coil's hum in the same place is left by the best estimate ({2} at one standard deviation).",
          positionWords(position, t),
          printDb(left.value, { style: t.numbers }),
          printDb(left.value + left.sd, { style: t.numbers }),
        ),
      hint: (t) => reason(coils, t),
      action: (t) => t('Where less hum is wanted, take coils that are nearer to each other in turns and wire.'),
    };
  },
});

/**
 * True where coils of different pickups, or parts of one taken by themselves, cancel each other. What a whole pickup leaves of its
 * own hum is told at the pickup.
 */
function cancelsAcross(coils: readonly SoundingCoil[]): boolean {
  if (coils.length < 2 || coils.some(({ hum }) => hum === undefined)) return false;
  const groups = new Map<SelectionPart, number>();
  const weights = humWeights(coils);
  coils.forEach(({ placed: { part }, hum = 1 }, index) => {
    groups.set(part, (groups.get(part) ?? 0) + hum * (weights[index] ?? 0));
  });
  const nets = [...groups.values()];
  const strongest = Math.max(...nets.map(Math.abs));
  const audible = nets.filter((net) => Math.abs(net) > 0.1 * strongest);
  return audible.some((net) => net > 0) && audible.some((net) => net < 0);
}

function reason(coils: readonly SoundingCoil[], t: Language): string {
  const wires = new Set(
    coils.map(({ placed }) => placed.segment.coil.wire?.gaugeAwg?.value ?? placed.segment.coil.wire?.name),
  );
  const turns = coils.flatMap(({ placed: { slot, segment, quick }, turnsShare }) => {
    const own = quick.windings.get(segment.coil)?.turns;
    return own ? [t('{0} in {1}', turnsText(scale(own, turnsShare), t), `${slot.name}.${segment.coil.name}`)] : [];
  });
  const known = turns.length === coils.length ? [listIn(t, turns)] : [];
  const unlike = [...known, ...(wires.size > 1 ? [t('in different wire')] : [])];
  return unlike.length > 0
    ? t('The coils weigh by turns over impedance, and they are unequal ({0}).', unlike.join(', '))
    : t('The coils weigh by turns over impedance, and they are unequal.');
}
