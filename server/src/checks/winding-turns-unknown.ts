import { grouped } from '../../../grammar/values/quantity.ts';
import { aimsOf } from '../estimates/aims.ts';
import { coilAcross } from '../estimates/coil-reading.ts';
import { turnsForTarget } from '../estimates/turns-plan.ts';
import type { Coil } from '../model/coil.ts';
import { looseNetlist, probedNets } from '../model/netlist.ts';
import type { Language, PlainText, Wording } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import { fitText, plannedTurns, turnsText, wireText } from '../words/turns-words.ts';
import { insertFirstLine, replaceWord } from './edits.ts';
import type { Remedy } from './finding.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { remedy, textRemedy } from './remedy.ts';
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
      what: (t: Language) => t('{0} has neither turns nor a reading of it.', capital(coilWords(coil, t))),
      ...(forTarget(coil, context) ?? asFound(coil, context) ?? { action: kickPairs(coil, context) ?? readIt(coil) }),
      place: coil.place,
      subject: { coils: [coil.name] },
    }));
  },
});

type Advice = Pick<Telling, 'hint' | 'action'> & { readonly remedies?: () => Remedy | undefined };

/** A coil of which nothing is known but that it kicks: nobody opens it to read it by itself. Under a target it is still to be wound. */
function isClosed(coil: Coil, { netlist, pickup }: PickupContext): boolean {
  const { bobbin, wire, spool } = coil;
  if (aimsOf(pickup).length > 0 && pickup.readings.length === 0) return false;
  const ends = netlist.windings.find((each) => each.coil === coil)?.ends;
  return ends !== 'stated' && !bobbin && !wire && !spool;
}

/** Between its ends something was read as the pickup came in, when other coils may have lain beside it: whoever read it knows. */
function asFound(coil: Coil, { pickup }: PickupContext): Advice | undefined {
  if (coil.work?.value === 'new' || pickup.coils.length < 2) return undefined;
  const loose = looseNetlist(pickup);
  for (const { found, apart, lines, place } of pickup.readings) {
    if (!found || apart) continue;
    for (const line of lines) {
      if (line.kind !== 'resistance' || line.value === 'open') continue;
      const { written } = line.value;
      const nets = probedNets(line.probes, loose);
      if (!nets || coilAcross(nets, loose) !== coil) continue;
      const edit = replaceWord(place, 'found', 'found apart');
      return {
        hint: (t) =>
          t('Reading {0} between its ends is not used: as found, the coils may have been joined otherwise.', written),
        action: (t) =>
          t(
            'If nothing joined them, say `readings found apart`; if it is of this coil alone, name it: `{0}`.',
            `${coil.name} ${written}`,
          ),
        remedies: () => edit && textRemedy((t) => t('Read before the leads were joined: `readings apart`'), [edit]),
      };
    }
  }
  return undefined;
}

/** Pairs of conductors were read, and nobody knows whose they are: a kick tells it, not another reading. */
function kickPairs(coil: Coil, { pickup, netlist }: PickupContext): Wording | undefined {
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
  const kick = `kick ${first} at ${coil.name} approach positive`;
  return (t) =>
    others.length > 0
      ? t(
          'Kick the pairs that were read at its poles (`{0}`, else {1}): the one that answers is its own, and its turns follow from its reading.',
          kick,
          listIn(
            t,
            others.map((pair) => `\`${pair}\``),
          ),
        )
      : t(
          'Kick the pairs that were read at its poles (`{0}`): the one that answers is its own, and its turns follow from its reading.',
          kick,
        );
}

const readIt =
  (coil: Coil): Wording =>
  (t) =>
    t(
      'Read its resistance with the temperature (`{0}` in a readings block), and the turns follow from wire and bobbin.',
      `${coil.name} 4.02 kohm at 21 degC`,
    );

/** What is still to be wound is planned by its target. Inductance and resonance ask for more than a finding may wait for. */
function forTarget(coil: Coil, { pickup, quick, bench }: PickupContext): Advice | undefined {
  // What was kept or made is read; what was measured as built is built.
  if (coil.work?.value === 'kept' || pickup.made) return undefined;
  const { resistance } = pickup.target ?? {};
  const proposal =
    resistance &&
    turnsForTarget(quick, bench, { resistanceOhm: resistance.value.si })?.find((each) => each.coil === coil);
  if (!proposal)
    return aimsOf(pickup).length > 0 && pickup.readings.every(({ found }) => found)
      ? { action: toPropose(coil) }
      : undefined;
  const line = `turns ${grouped(plannedTurns(proposal))}`;
  return {
    hint: (t) =>
      t(
        'The target of {0} takes {1} ({2}); {3}.',
        resistance.value.written,
        turnsText(proposal.turns, t),
        fitText(proposal, t),
        wireText(proposal.wire, t),
      ),
    action: (t) =>
      proposal.fits
        ? t('Plan them: `{0}`.', line)
        : t('Take thinner wire or a deeper bobbin, or aim at less; these turns would be `{0}`.', line),
    remedies: () => remedy((t) => t('Wind for the target: `{0}`', line), insertFirstLine(coil.place, line)),
  };
}

/** There is nothing to read yet: what is left out is free, and builds are proposed for it. */
function toPropose({ bobbin, wire }: Coil): Wording {
  const free: readonly PlainText[] = [
    'turns',
    ...(wire ? [] : (['wire'] as const)),
    ...(bobbin ? [] : (['bobbin'] as const)),
  ];
  return (t) =>
    t(
      'Free are its {0}: `Propose Builds` here or at the target, and `pickup-spec propose`, work out what reaches the target with what lies on the shelf.',
      listIn(
        t,
        free.map((each) => t(each)),
      ),
    );
}

/** A line of turns that could not be read is told for itself. */
const isUnread = ({ unread }: Coil): boolean => unread.includes('turns') || unread.includes('counted');
