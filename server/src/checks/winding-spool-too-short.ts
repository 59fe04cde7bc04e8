import { coilsToWind, wireForCoils } from '../estimates/coils-to-wind.ts';
import type { Coil } from '../model/coil.ts';
import type { Spool } from '../model/wire.ts';
import { printQuantity } from '../quantities/print.ts';
import { coilWords } from '../words/parts.ts';
import { capital, list } from '../words/text.ts';
import { WIRE_SPARE } from '../words/wire-spare.ts';
import type { Found } from './check.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';
import { say } from './say.ts';

export const windingSpoolTooShort = definePickupCheck({
  code: 'winding/spool-too-short',
  severity: 'warning',
  yieldsTo: [],
  run: (context) => [...coilsToWind(context.quick)].map(([spool, coils]) => shortage(spool, coils, context)),
});

function shortage(spool: Spool, coils: readonly Coil[], { quick }: PickupContext): Found | undefined {
  const left = spool.left;
  const masses = coils.map((coil) => quick.windings.get(coil)?.wireMassKg);
  const needed = wireForCoils(masses);
  const place = coils[0]?.wirePlace;
  if (!left || !place || !needed || needed.withSpareKg.value <= left.value.si) return undefined;
  const grams = (value: number) => printQuantity({ value, dimension: 'mass', unit: 'g', digits: 2 });
  return {
    what: say`${capital(list(coils.map((each) => coilWords(each))))} ${coils.length > 1 ? 'take' : 'takes'} ${grams(needed.kg.value)} of wire, ${grams(needed.withSpareKg.value)} with ${WIRE_SPARE}; spool ${spool.name} has ${left.value.written} left: it runs out before the last turn.`,
    action: say`Begin on a fuller spool.`,
    place,
    related: [{ message: say`What is left on the spool`, place: left.place }],
    subject: { coils: coils.map(({ name }) => name) },
  };
}
