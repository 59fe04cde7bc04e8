import type { Some } from '../../../grammar/values/present.ts';
import { HARDLY_LESS_DB } from '../estimates/common-practice.ts';
import { hearsStrings, humDb, isHumMeasurable, strongestHum } from '../estimates/phase.ts';
import { soundingIn } from '../estimates/quick.ts';
import type { CoilSigns } from '../estimates/signs.ts';
import type { Language } from '../words/languages/language.ts';
import { bothLeads, coilWords, endLead } from '../words/parts.ts';
import { coilPolesTurned } from '../words/pole-turning.ts';
import { capital, listIn } from '../words/text.ts';
import { flipPolarity, flipWinding, swapCoilLeads } from './edits.ts';
import type { Remedy } from './finding.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { meantRemedy, remedy } from './remedy.ts';

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
    const ends = `${endLead(netlist, wrong.coil, 'start')}, ${endLead(netlist, wrong.coil, 'finish')}`;
    return {
      what: (t) => {
        const named = listIn(
          t,
          coils.map((each) => coilWords(each, t)),
        );
        const adds = isHumMeasurable(live)
          ? t('The hum of {0} adds, {1} dB over one coil', named, String(Math.round(level)))
          : t('The hum of {0} adds', named);
        const hum = level > HARDLY_LESS_DB ? adds : t('The hum of {0} is not cancelled', named);
        if (like)
          return t(
            '{0}: the path turns the same way round in each of them; their poles are alike, so no wiring of these coils cancels hum and keeps them in phase.',
            hum,
          );
        return t(
          '{0}: the path turns the same way round in each of them, so {1} ({2}) is reversed.',
          hum,
          wrong.coil.serves ? t('one half') : coilWords(wrong.coil, t),
          ends,
        );
      },
      action: (t) =>
        like
          ? t('{0} and swap its leads.', capital(coilPolesTurned(pickup, [wrong.coil], { t })))
          : t('Swap the leads of {0}.', coilWords(wrong.coil, t)),
      place: placeOfCoilInHookup(netlist, wrong.coil),
      ...(pickup.hookup?.onPurpose ? { severity: 'information' } : {}),
      related: live.flatMap((each) =>
        (each.wind?.places ?? []).map((place) => ({
          message: (t: Language) => t('{0} as wound', capital(coilWords(each.coil, t))),
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
      return remedy(
        (t) => t('Swap the leads of {0}: {1} change places', coilWords(coil, t), bothLeads(netlist, coil, t)),
        swapCoilLeads(pickup, coil),
        index === 0,
      );
    }),
    ...ownPoles.map((coil, index) =>
      remedy(
        (t) => t('{0} and swap its leads', capital(coilPolesTurned(pickup, [coil], { t }))),
        [swapCoilLeads(pickup, coil), flipPolarity([coil], pickup)].flat(),
        index === 0,
      ),
    ),
    ...newestFirst.map((coil) =>
      remedy((t) => t('Wind {0} the other way', coilWords(coil, t)), flipWinding([coil], pickup)),
    ),
    meantRemedy(pickup),
  ];
}
