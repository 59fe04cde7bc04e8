import { coilsToWind, wireForCoils } from '../estimates/coils-to-wind.ts';
import type { Coil } from '../model/coil.ts';
import type { Spool } from '../model/wire.ts';
import { printQuantity } from '../quantities/print.ts';
import type { Language } from '../words/languages/language.ts';
import { coilWords } from '../words/parts.ts';
import { capital, listIn } from '../words/text.ts';
import { WIRE_SPARE_SHARE } from '../words/wire-spare.ts';
import type { Found } from './check.ts';
import { definePickupCheck, type PickupContext } from './pickup-check.ts';

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
  const grams = (value: number, t: Language) =>
    printQuantity({ value, dimension: 'mass', unit: 'g', digits: 2, style: t.numbers });
  return {
    what: (t) =>
      t(
        coils.length > 1
          ? '{0} take {1} of wire, {2}; spool {3} has {4} left: it runs out before the last turn.'
          : '{0} takes {1} of wire, {2}; spool {3} has {4} left: it runs out before the last turn.',
        capital(
          listIn(
            t,
            coils.map((each) => coilWords(each, t)),
          ),
        ),
        grams(needed.kg.value, t),
        t('{0} with {1} spare', grams(needed.withSpareKg.value, t), WIRE_SPARE_SHARE),
        spool.name,
        left.value.written,
      ),
    action: (t) => t('Begin on a fuller spool.'),
    place,
    related: [{ message: (t: Language) => t('What is left on the spool'), place: left.place }],
    subject: { coils: coils.map(({ name }) => name) },
  };
}
