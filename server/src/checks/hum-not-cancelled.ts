import { combinedDb } from '../estimates/quick.ts';
import { type CoilSigns, sounds } from '../estimates/signs.ts';
import { coilWords, endLead } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { flipPolarity, flipWinding, insertLineAfter, present, swapCoilLeads } from './edits.ts';
import type { Edit, Remedy } from './finding.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';

export const humNotCancelled = definePickupCheck({
  code: 'hum/not-cancelled',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted', 'circuit/open', 'phase/coils-cancel'],
  run: (context) => {
    const { quick, netlist, pickup } = context;
    const live = quick.signs.filter(sounds);
    if (live.length < 2 || live.some(({ hum }) => hum === undefined)) return [];
    const level = humDb(live, context);
    if (!(level >= -HARDLY_LESS_DB)) return [];
    const majority = live.filter(({ hum }) => hum === strongestSign(live, context));
    const wrong = majority.at(-1);
    if (!wrong) return [];
    const like = live.every(({ pole, coil }) => pole && coil.serves === undefined && pole.sign === live[0]?.pole?.sign);
    const coils = majority.map(({ coil }) => coil);
    const adds = level > HARDLY_LESS_DB ? `adds, ${Math.round(level)} dB over one coil` : 'is not cancelled';
    return [
      {
        message:
          `The hum of ${list(coils.map(coilWords))} ${adds}: the path turns the same way round in each of them` +
          (like
            ? `; their poles are alike, so no wiring of these coils cancels hum and keeps them in phase.`
            : `, so ${wrong.coil.serves ? 'one half' : coilWords(wrong.coil)} (${endLead(netlist, wrong.coil, 'start')}, ${endLead(netlist, wrong.coil, 'finish')}) is reversed.`),
        place: placeOfCoilInHookup(netlist, wrong.coil),
        ...(pickup.hookup?.onPurpose ? { severity: 'information' } : {}),
        related: live.flatMap((each) =>
          (each.wind?.places ?? []).map((place) => ({ message: `${capital(coilWords(each.coil))} as wound`, place })),
        ),
        remedies: () => remedies(context, live),
        subject: {
          coils: coils.map(({ name }) => name),
          nodes: [`coil:${wrong.coil.name}.start`, `coil:${wrong.coil.name}.finish`],
        },
      },
    ];
  },
});

/** Nearer to the strongest coil's own hum than this counts as not cancelled at all. */
const HARDLY_LESS_DB = 1;

const area = ({ coil, transfer = 0 }: CoilSigns, { quick }: PickupContext): number =>
  Math.abs(transfer) * (quick.windings.get(coil)?.turnAreaM2?.value ?? 1);

const humDb = (live: readonly CoilSigns[], context: PickupContext): number =>
  combinedDb(live.map((each) => (each.hum ?? 1) * area(each, context)));

function strongestSign(live: readonly CoilSigns[], context: PickupContext): 1 | -1 {
  const total = live.reduce((sum, each) => sum + (each.hum ?? 1) * area(each, context), 0);
  return total >= 0 ? 1 : -1;
}

function remedies({ pickup, netlist }: PickupContext, live: readonly CoilSigns[]): readonly Remedy[] {
  const both = (a: readonly Edit[] | undefined, b: readonly Edit[] | undefined) => (a && b ? [...a, ...b] : undefined);
  const remedy = (title: string, edits: readonly Edit[] | undefined, preferred = false): Remedy | undefined =>
    edits ? { title, edits, kind: 'build', preferred } : undefined;
  const newestFirst = [...live].reverse().map(({ coil }) => coil);
  const lastJoint = pickup.hookup?.joints.at(-1);
  return present([
    ...newestFirst.map((coil, index) => {
      const leads = `${endLead(netlist, coil, 'start')} and ${endLead(netlist, coil, 'finish')}`;
      return remedy(
        `Swap the leads of the ${coil.name} coil: ${leads} change places`,
        swapCoilLeads(pickup, coil),
        index === 0,
      );
    }),
    ...newestFirst.map((coil, index) =>
      remedy(
        `Turn the poles of the ${coil.name} coil over and swap its leads`,
        both(swapCoilLeads(pickup, coil), flipPolarity([coil], pickup)),
        index === 0,
      ),
    ),
    ...newestFirst.map((coil) => {
      return remedy(`Wind the ${coil.name} coil the other way`, flipWinding([coil], pickup));
    }),
    lastJoint ? remedy('It is meant: say `on purpose`', [insertLineAfter(lastJoint.place, 'on purpose')]) : undefined,
  ]);
}
