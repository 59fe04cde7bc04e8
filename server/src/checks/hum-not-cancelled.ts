import type { Some } from '../../../grammar/values/present.ts';
import { HARDLY_LESS_DB } from '../estimates/common-practice.ts';
import { hearsStrings, humDb, strongestHum } from '../estimates/phase.ts';
import { soundingIn } from '../estimates/quick.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import { coilWords, endLead } from '../words/parts.ts';
import { coilPolesTurned } from '../words/pole-turning.ts';
import { capital, list } from '../words/text.ts';
import { flipPolarity, flipWinding, swapCoilLeads } from './edits.ts';
import type { Remedy } from './finding.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { meantRemedy, remedy } from './remedy.ts';
import { say } from './say.ts';

export const humNotCancelled = definePickupCheck({
  code: 'hum/not-cancelled',
  severity: 'error',
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/output-shorted', 'circuit/open', 'phase/coils-cancel'],
  run: (context) => {
    const { quick, netlist, pickup } = context;
    const live = soundingIn(quick);
    const level = humDb(live);
    if (level === undefined || !(level >= -HARDLY_LESS_DB)) return undefined;
    const strongest = strongestHum(live);
    const majority = live.filter(({ hum }) => hum === strongest);
    // A lower coil is there to oppose the one above it.
    const wrong = majority.findLast(({ coil }) => coil.below !== undefined) ?? majority.at(-1);
    if (!wrong) return undefined;
    const like = live.every(
      ({ pole, coil }) => pole && hearsStrings(coil) && coil.serves === undefined && pole.sign === live[0]?.pole?.sign,
    );
    const coils = majority.map(({ coil }) => coil);
    const adds = level > HARDLY_LESS_DB ? say`adds, ${Math.round(level)} dB over one coil` : say`is not cancelled`;
    const ends = say`${endLead(netlist, wrong.coil, 'start')}, ${endLead(netlist, wrong.coil, 'finish')}`;
    const cause = like
      ? say`; their poles are alike, so no wiring of these coils cancels hum and keeps them in phase`
      : say`, so ${wrong.coil.serves ? 'one half' : coilWords(wrong.coil)} (${ends}) is reversed`;
    return {
      what: say`The hum of ${list(coils.map((each) => coilWords(each)))} ${adds}: the path turns the same way round in each of them${cause}.`,
      action: like
        ? say`${capital(coilPolesTurned(pickup, [wrong.coil]))} and swap its leads.`
        : say`Swap the leads of ${coilWords(wrong.coil)}.`,
      place: placeOfCoilInHookup(netlist, wrong.coil),
      ...(pickup.hookup?.onPurpose ? { severity: 'information' } : {}),
      related: live.flatMap((each) =>
        (each.wind?.places ?? []).map((place) => ({
          message: say`${capital(coilWords(each.coil))} as wound`,
          place,
        })),
      ),
      remedies: () => remedies(context, live),
      subject: {
        coils: coils.map(({ name }) => name),
        nodes: [`coil:${wrong.coil.name}.start`, `coil:${wrong.coil.name}.finish`],
      },
    };
  },
});

function remedies({ pickup, netlist }: PickupContext, live: readonly CoilSigns[]): Some<Remedy> {
  const newestFirst = [...live]
    .reverse()
    .sort((a, b) => Number(b.coil.below !== undefined) - Number(a.coil.below !== undefined))
    .map(({ coil }) => coil);
  // The rods of a stack go through both of its bobbins.
  const ownPoles = newestFirst.filter(
    (coil) => !coil.below && !pickup.coils.some(({ below }) => below?.value === coil.name),
  );
  return [
    ...newestFirst.map((coil, index) => {
      const leads = say`${endLead(netlist, coil, 'start')} and ${endLead(netlist, coil, 'finish')}`;
      return remedy(
        say`Swap the leads of ${coilWords(coil)}: ${leads} change places`,
        swapCoilLeads(pickup, coil),
        index === 0,
      );
    }),
    ...ownPoles.map((coil, index) =>
      remedy(
        say`${capital(coilPolesTurned(pickup, [coil]))} and swap its leads`,
        [swapCoilLeads(pickup, coil), flipPolarity([coil], pickup)].flat(),
        index === 0,
      ),
    ),
    ...newestFirst.map((coil) => remedy(say`Wind ${coilWords(coil)} the other way`, flipWinding([coil], pickup))),
    meantRemedy(pickup),
  ];
}
