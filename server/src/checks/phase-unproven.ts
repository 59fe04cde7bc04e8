import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { openSigns } from '../estimates/phase.ts';
import { type CoilSigns, sounds } from '../estimates/signs.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { missingSigns } from '../words/directions.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords, endLead } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import { definePickupCheck } from './pickup-check.ts';

export const phaseUnproven = definePickupCheck({
  code: 'phase/unproven',
  severity: 'information',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted', 'circuit/open'],
  run: ({ quick, netlist, pickup }) => {
    if (pickup.coils.length < 2) return undefined;
    const unplaced = netlist.windings.filter(({ ends }) => ends === 'unknown');
    if (unplaced.length > 0) {
      const coil = unplaced[0]?.coil ?? pickup.coils[0];
      if (!coil || !pickup.hookup) return undefined;
      const unplacedCoils = (t: Language) =>
        listIn(
          t,
          unplaced.map((each) => coilWords(each.coil, t)),
        );
      return {
        ...(isClosed(netlist)
          ? {
              what: (t: Language) =>
                t(
                  unplaced.length > 1
                    ? 'What {0} give at the output is not measured, so phase and hum stay open.'
                    : 'What {0} gives at the output is not measured, so phase and hum stay open.',
                  unplacedCoils(t),
                ),
              action: (t: Language) =>
                capital(
                  t(
                    'Take {0} with approach or pull-off stated: no lead inside needs to be known.',
                    listIn(
                      t,
                      unplaced.map((each) => t('a kick `hot to ground at {0}`', each.coil.name)),
                    ),
                  ),
                ),
            }
          : {
              what: (t: Language) =>
                t(
                  'Which leads belong to {0} is neither stated nor measured, so phase and hum stay open.',
                  unplacedCoils(t),
                ),
              action: (t: Language) =>
                t(
                  'Read the resistance between pairs of conductors, then kick the pair at its poles (`kick A to B at {0} approach positive`).',
                  coil.name,
                ),
            }),
        place: coil.place,
        subject: { coils: unplaced.map((each) => each.coil.name) },
      };
    }
    const live = quick.signs.filter(sounds);
    const { phase, hum } = openSigns(live);
    const [open, what] = phase.length > 0 ? [phase, 'phase' as const] : [hum, 'hum' as const];
    const first = open[0];
    if (!first || pickup.unread.includes('magnet') || open.some((each) => isUnread(each, pickup))) return undefined;
    return {
      what: (t) =>
        t(
          OPEN[what][open.length > 1 ? 'several' : 'one'],
          listIn(
            t,
            live.map(({ coil }) => coilWords(coil, t)),
          ),
          listIn(
            t,
            open.map((each) => t('{0} of {1}', missingSigns(each, t), coilWords(each.coil, t))),
          ),
        ),
      action: (t) => settles(open, what, netlist, t),
      place: first.coil.place,
      related: open.slice(1).map(({ coil }) => ({
        message: (t: Language) => t('{0} is open too', capital(coilWords(coil, t))),
        place: coil.place,
      })),
      subject: { coils: open.map(({ coil }) => coil.name) },
    };
  },
});

const OPEN = {
  phase: {
    one: 'Whether {0} are in phase is open: {1} is neither stated nor measured.',
    several: 'Whether {0} are in phase is open: {1} are neither stated nor measured.',
  },
  hum: {
    one: 'Whether {0} cancel hum is open: {1} is neither stated nor measured.',
    several: 'Whether {0} cancel hum is open: {1} are neither stated nor measured.',
  },
} as const;

/** A line that says it stands there and could not be read: that is told, and this follows from it. */
const isUnread = ({ coil }: CoilSigns, pickup: Pickup): boolean =>
  coil.unread.some((field) => field === 'wound' || field === 'spindle' || field === 'polarity') ||
  pickup.readings.some(({ unreadSigns }) => unreadSigns.some((words) => isOf(words, coil, pickup)));

/** Names the coil or a lead of it; a line that names none may be of any. */
function isOf(words: readonly string[], coil: Coil, { coils }: Pickup): boolean {
  const names = (each: Coil) => [each.name, ...[each.start, each.finish].flatMap((end) => end?.value.own?.value ?? [])];
  const named = coils.filter((each) =>
    words.some((word) => word.split('.').some((part) => names(each).includes(canonicalLeadName(part)))),
  );
  return named.length === 0 || named.includes(coil);
}

/** Nothing leaves the pickup but hot and ground: there are no pairs of conductors to try. */
const isClosed = ({ leads, netOf, hot, ground, chassis }: PickupNetlist): boolean =>
  hot !== undefined &&
  ground !== undefined &&
  leads.size > 0 &&
  [...leads.values()].every(({ node }) => [hot, ground, chassis].includes(netOf(node)));

/** The measurement that settles it: one per coil. */
function settles(open: readonly CoilSigns[], what: 'phase' | 'hum', netlist: PickupNetlist, t: Language): string {
  const steps = open.map((each) => {
    const probes = `${endLead(netlist, each.coil, 'finish')} to ${endLead(netlist, each.coil, 'start')}`;
    const kick =
      open.length > 1
        ? t('a kick `{0}` at {1} with approach or pull-off stated', probes, each.coil.name)
        : t('a kick `{0}` with approach or pull-off stated', probes);
    const compass = t('a compass reading over {0}', coilWords(each.coil, t));
    if (what === 'hum') return each.windPole ? compass : each.pole ? kick : t('{0}, and {1}', kick, compass);
    return each.wind && !each.pole ? compass : kick;
  });
  return capital(t('Take {0}.', listIn(t, [...new Set(steps)])));
}
