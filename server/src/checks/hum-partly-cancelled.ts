import { isMeantUnlike } from '../estimates/aims.ts';
import { humVerdict } from '../estimates/phase.ts';
import { sounds } from '../estimates/signs.ts';
import { printDb } from '../quantities/print.ts';
import { coilWords } from '../words/parts.ts';
import { list } from '../words/text.ts';
import { turnsText } from '../words/turns-words.ts';
import { placeOfCoilInHookup } from './joints.ts';
import { definePickupCheck } from './pickup-check.ts';
import { say } from './say.ts';

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
    const counts = live.flatMap(({ coil }) => {
      const turns = quick.windings.get(coil)?.turns;
      return turns ? [say`${turnsText(turns)} in ${coilWords(coil)}`] : [];
    });
    const turnsWords = counts.length === live.length ? say`: ${list(counts)}` : '';
    return {
      what: say`Hum cancels only in part: ${printDb(left.value)} of the stronger coil's is left by the best estimate (${printDb(left.value + left.sd)} at one standard deviation).`,
      hint: say`The coils are unequal${turnsWords}.`,
      ...(netlist.pickup.hookup?.onPurpose
        ? {}
        : { action: say`Match their turns, or say \`on purpose\` in the hookup where it is meant.` }),
      place: onPurposeOr(netlist.pickup.hookup, placeOfCoilInHookup(netlist, last)),
      subject: { coils: live.map(({ coil }) => coil.name) },
    };
  },
});

/** Where the mismatch is meant, nobody would change the link: the hookup as a whole is the place. */
const onPurposeOr = <T>(hookup: { readonly onPurpose: unknown; readonly place: T } | undefined, place: T): T =>
  hookup?.onPurpose ? hookup.place : place;
