import { isMeantUnlike } from '../estimates/aims.ts';
import { humVerdict } from '../estimates/phase.ts';
import { sounds } from '../estimates/signs.ts';
import { printDb } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { listIn } from '../words/text.ts';
import { turnsText } from '../words/turns-words.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { definePickupCheck } from './pickup-check.ts';

export const humPartlyCancelled = definePickupCheck({
  code: 'hum/partly-cancelled',
  severity: 'information',
  yieldsTo: [
    'lead/undeclared',
    'lead/reused',
    'circuit/output-shorted',
    'circuit/open',
    'phase/coils-cancel',
    'hum/not-cancelled',
  ],
  run: ({ quick, netlist, bench }) => {
    const live = quick.signs.filter(sounds);
    const left = quick.humDb;
    if (live.length < 2 || !left || humVerdict(left.value) !== 'in part' || isMeantUnlike(quick, bench))
      return undefined;
    const last = live.at(-1)?.coil;
    if (!last) return undefined;
    return {
      what: (t) =>
        t(
          "Hum cancels only in part: {0} of the stronger coil's is left by the best estimate ({1} at one standard deviation).",
          printDb(left.value, { style: t.numbers }),
          printDb(left.value + left.sd, { style: t.numbers }),
        ),
      hint: (t) => {
        const counts = live.flatMap(({ coil }) => {
          const turns = quick.windings.get(coil)?.turns;
          return turns ? [t('{0} in {1}', turnsText(turns, t), coilWords(coil, t))] : [];
        });
        return counts.length === live.length
          ? t('The coils are unequal: {0}.', listIn(t, counts))
          : t('The coils are unequal.');
      },
      ...(netlist.pickup.hookup?.onPurpose
        ? {}
        : {
            action: (t: Language) => t('Match their turns, or say `on purpose` in the hookup where it is meant.'),
          }),
      place: onPurposeOr(netlist.pickup.hookup, placeOfCoilInHookup(netlist, last)),
      subject: { coils: live.map(({ coil }) => coil.name) },
    };
  },
});

/** Where the mismatch is meant, nobody would change the link: the hookup as a whole is the place. */
const onPurposeOr = <T>(hookup: { readonly onPurpose: unknown; readonly place: T } | undefined, place: T): T =>
  hookup?.onPurpose ? hookup.place : place;
