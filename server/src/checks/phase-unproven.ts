import { canonicalLeadName } from '../../../grammar/values/lead-name.ts';
import { openSigns } from '../estimates/phase.ts';
import { type CoilSigns, sounds } from '../estimates/signs.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { missingSigns } from '../words/directions.ts';
import { coilWords, endLead } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { definePickupCheck } from './pickup-check.ts';
import { type Said, say } from './say.ts';

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
      return {
        ...(isClosed(netlist)
          ? {
              what: say`What ${list(unplaced.map((each) => coilWords(each.coil)))} ${unplaced.length > 1 ? 'give' : 'gives'} at the output is not measured, so phase and hum stay open.`,
              action: say`Take ${list(unplaced.map((each) => say`a kick \`hot to ground at ${each.coil.name}\``))} with approach or pull-off stated: no lead inside needs to be known.`,
            }
          : {
              what: say`Which leads belong to ${list(unplaced.map((each) => coilWords(each.coil)))} is neither stated nor measured, so phase and hum stay open.`,
              action: say`Read the resistance between pairs of conductors, then kick the pair at its poles (\`kick A to B at ${coil.name} approach positive\`).`,
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
      what: say`Whether ${list(live.map(({ coil }) => coilWords(coil)))} ${what === 'phase' ? 'are in phase' : 'cancel hum'} is open: ${list(open.map((each) => say`${missingSigns(each)} of ${coilWords(each.coil)}`))} ${open.length > 1 ? 'are' : 'is'} neither stated nor measured.`,
      action: settles(open, what, netlist),
      place: first.coil.place,
      related: open
        .slice(1)
        .map(({ coil }) => ({ message: say`${capital(coilWords(coil))} is open too`, place: coil.place })),
      subject: { coils: open.map(({ coil }) => coil.name) },
    };
  },
});

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
function settles(open: readonly CoilSigns[], what: 'phase' | 'hum', netlist: PickupNetlist): Said {
  const steps = open.map((each) => {
    const kick = say`a kick \`${endLead(netlist, each.coil, 'finish')} to ${endLead(netlist, each.coil, 'start')}\`${open.length > 1 ? say` at ${each.coil.name}` : ''} with approach or pull-off stated`;
    const compass = say`a compass reading over ${coilWords(each.coil)}`;
    if (what === 'hum') return each.windPole ? compass : each.pole ? kick : say`${kick}, and ${compass}`;
    return each.wind && !each.pole ? compass : kick;
  });
  return say`Take ${list([...new Set(steps)])}.`;
}
