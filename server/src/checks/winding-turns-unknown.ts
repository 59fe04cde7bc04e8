import { grouped } from '../../../grammar/values/quantity.ts';
import { aimsOf } from '../estimates/aims.ts';
import { turnsForTarget } from '../estimates/turns-plan.ts';
import type { Coil } from '../model/coil.ts';
import { coilWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { fitText, plannedTurns, turnsText, wireText } from '../words/turns-words.ts';
import { insertFirstLine } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy } from './remedy.ts';
import { type Said, say } from './say.ts';
import type { Telling } from './telling.ts';

export const windingTurnsUnknown = definePickupCheck({
  code: 'winding/turns-unknown',
  severity: 'information',
  yieldsTo: [],
  run: (context) => {
    const { pickup, quick } = context;
    const open = pickup.coils.filter(
      (coil) =>
        !coil.turns && !coil.counted && !quick.readings.has(coil) && !isUnread(coil) && !isClosed(coil, context),
    );
    return open.map((coil) => ({
      what: say`${capital(coilWords(coil))} has neither turns nor a reading of it.`,
      ...(forTarget(coil, context) ?? { action: kickPairs(coil, context) ?? readIt(coil) }),
      place: coil.place,
      subject: { coils: [coil.name] },
    }));
  },
});

/** A coil of which nothing is known but that it kicks: nobody opens it to read it by itself. Under a target it is still to be wound. */
function isClosed(coil: Coil, { netlist, pickup }: PickupContext): boolean {
  const { bobbin, wire, spool } = coil;
  if (aimsOf(pickup).length > 0 && pickup.readings.length === 0) return false;
  const ends = netlist.windings.find((each) => each.coil === coil)?.ends;
  return ends !== 'stated' && !bobbin && !wire && !spool;
}

/** Pairs of conductors were read, and nobody knows whose they are: a kick tells it, not another reading. */
function kickPairs(coil: Coil, { pickup, netlist }: PickupContext): Said | undefined {
  if (netlist.windings.find((each) => each.coil === coil)?.ends !== 'unknown') return undefined;
  const pairs = pickup.readings.flatMap(({ lines }) =>
    lines.flatMap((line) =>
      line.kind === 'resistance' && line.value !== 'open'
        ? [`${line.probes.red.text} to ${line.probes.black.text}`]
        : [],
    ),
  );
  const [first, ...others] = [...new Set(pairs)];
  if (first === undefined) return undefined;
  const orElse = others.length > 0 ? say`, else ${list(others.map((pair) => say`\`${pair}\``))}` : '';
  return say`Kick the pairs that were read at its poles (\`kick ${first} at ${coil.name} approach positive\`${orElse}): the one that answers is its own, and its turns follow from its reading.`;
}

const readIt = (coil: Coil) =>
  say`Read its resistance with the temperature (\`${coil.name} 4.02 kohm at 21 degC\` in a readings block), and the turns follow from wire and bobbin.`;

/** What is still to be wound is planned by its target. Inductance and resonance ask for more than a finding may wait for. */
function forTarget(
  coil: Coil,
  { pickup, quick, bench }: PickupContext,
): (Pick<Telling, 'hint' | 'action'> & { readonly remedies?: () => Remedy | undefined }) | undefined {
  // What was kept is read; what was measured as built is built.
  if (coil.work?.value === 'kept') return undefined;
  const { resistance } = pickup.target ?? {};
  const proposal =
    resistance &&
    turnsForTarget(quick, bench, { resistanceOhm: resistance.value.si })?.find((each) => each.coil === coil);
  if (!proposal)
    return aimsOf(pickup).length > 0 && pickup.readings.every(({ found }) => found)
      ? { action: toPropose(coil) }
      : undefined;
  const line = say`turns ${grouped(plannedTurns(proposal))}`;
  return {
    hint: say`The target of ${resistance.value.written} takes ${turnsText(proposal.turns)} (${fitText(proposal)}); ${wireText(proposal.wire)}.`,
    action: proposal.fits
      ? say`Plan them: \`${line}\`.`
      : say`Take thinner wire or a deeper bobbin, or aim at less; these turns would be \`${line}\`.`,
    remedies: () => remedy(say`Wind for the target: \`${line}\``, insertFirstLine(coil.place, line)),
  };
}

/** There is nothing to read yet: what is left out is free, and builds are proposed for it. */
function toPropose({ bobbin, wire }: Coil): Said {
  const free = ['turns', ...(wire ? [] : ['wire']), ...(bobbin ? [] : ['bobbin'])];
  return say`Free are its ${list(free)}: \`Propose Builds\` here or at the target, and \`pickup-spec propose\`, work out what reaches the target with what lies on the shelf.`;
}

/** A line of turns that could not be read is told for itself. */
const isUnread = ({ unread }: Coil): boolean => unread.includes('turns') || unread.includes('counted');
