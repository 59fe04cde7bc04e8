import { declaredRotation } from '../estimates/signs.ts';
import { isOtherWay, sweptCoupling } from '../estimates/sweep-coupling.ts';
import { rotationOf } from '../model/coil.ts';
import { printQuantity } from '../quantities/print.ts';
import { coilWords } from '../words/parts.ts';
import { capital } from '../words/text.ts';
import { flipWinding, swapCoilLeads } from './edits.ts';
import type { Edit, Remedy } from './finding.ts';
import { definePickupCheck } from './pickup-check.ts';
import { type Said, say } from './say.ts';
import { sweepPlace } from './sweep-place.ts';

/** The record is put right: what follows of it, as a phase that it does not have, is told then. */
const record = (title: Said, edits: readonly Edit[] | undefined): readonly Remedy[] =>
  edits && edits.length > 0 ? [{ title, edits, kind: 'text' }] : [];

/** What two coils add or take in series says which way the current turns in them. */
export const readingContradictsSweep = definePickupCheck({
  code: 'reading/contradicts',
  severity: 'warning',
  late: true,
  yieldsTo: ['lead/undeclared', 'lead/reused', 'circuit/open'],
  run: ({ quick, pickup }) => {
    const coupling = sweptCoupling(quick);
    if (!coupling || !isOtherWay(coupling)) return undefined;
    const { coils, alone, together, isSeries, measured, expectedH } = coupling;
    const henries = (value: number, sd?: number) =>
      printQuantity({ value, ...(sd === undefined ? {} : { sd }), dimension: 'inductance' });
    const size = henries(Math.abs(measured.value), measured.sd);
    const gives = (henry: number, one: 'each coil' | 'each', verb: 'gives' | 'should give', each: string) =>
      henry > 0
        ? say`${one} ${verb} the other ${each}`
        : say`${one} ${verb === 'gives' ? 'takes' : 'should take'} ${each} from the other`;
    const turns = measured.value > 0 ? 'against each other' : 'the same way round';
    const expected = henries(Math.abs(expectedH));
    const [first, second] = coils;
    const winds = coils.map((coil) => {
      const wind = declaredRotation(coil);
      return wind ? say`${coil.name} ${rotationOf(wind.sign)}` : say`${coil.name}`;
    });
    return {
      what: say`${isSeries ? 'In series' : 'In parallel'} ${henries(together.inductanceH.value, together.inductanceH.sd)}, alone ${henries(alone[0].inductanceH.value)} and ${henries(alone[1].inductanceH.value)}: ${gives(measured.value, 'each coil', 'gives', size)}, so the current turns ${turns}. As stated (${winds.join(', ')}, and as they are joined) ${gives(expectedH, 'each', 'should give', expected)}.`,
      hint: say`One coil is joined the other way round, or wound the other way, than stated: hum and phase are not what is told of them.`,
      action: say`Kick both coils: with the compass that tells which of them it is.`,
      place: sweepPlace(together),
      related: alone.map((each) => ({ message: say`the coil by itself`, place: sweepPlace(each) })),
      remedies: () =>
        [second, first].flatMap((coil) => [
          ...record(say`The leads of ${coilWords(coil)} are swapped: say so`, swapCoilLeads(pickup, coil)),
          ...record(say`${capital(coilWords(coil))} is wound the other way: say so`, flipWinding([coil], pickup)),
        ]),
      subject: { coils: coils.map(({ name }) => name) },
    };
  },
});
