import { WIRE_ALLOWANCE } from '../estimates/common-practice.ts';
import type { Coil } from '../model/coil.ts';
import type { Spool } from '../model/wire.ts';
import { type Estimate, sum } from '../quantities/estimate.ts';
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
  run: (context) => [...coilsToWind(context)].flatMap(([spool, coils]) => shortage(spool, coils, context)),
});

/** Coils still to be wound, by their spool: what has been counted, read or handed out has already left it. */
function coilsToWind({ pickup, quick }: PickupContext): ReadonlyMap<Spool, readonly Coil[]> {
  const bySpool = new Map<Spool, readonly Coil[]>();
  if (pickup.made) return bySpool;
  for (const coil of pickup.coils) {
    if (!coil.spool || coil.counted || quick.readings.has(coil)) continue;
    bySpool.set(coil.spool, [...(bySpool.get(coil.spool) ?? []), coil]);
  }
  return bySpool;
}

function shortage(spool: Spool, coils: readonly Coil[], { quick }: PickupContext): readonly Found[] {
  const left = spool.left;
  const masses = coils.map((coil) => quick.windings.get(coil)?.wireMassKg);
  const known = masses.flatMap((each): readonly Estimate[] => (each ? [each] : []));
  const place = coils[0]?.wirePlace;
  if (!left || !place || known.length < coils.length) return [];
  const needed = sum(...known);
  const withAllowance = needed.value * WIRE_ALLOWANCE;
  if (withAllowance <= left.value.si) return [];
  const grams = (value: number) => printQuantity({ value, dimension: 'mass', unit: 'g', digits: 2 });
  return [
    {
      what: say`${capital(list(coils.map(coilWords)))} ${coils.length > 1 ? 'take' : 'takes'} ${grams(needed.value)} of wire, ${grams(withAllowance)} with ${WIRE_SPARE}; spool ${spool.name} has ${left.value.written} left: it runs out before the last turn.`,
      action: say`Begin on a fuller spool.`,
      place,
      related: [{ message: say`What is left on the spool`, place: left.place }],
      subject: { coils: coils.map(({ name }) => name) },
    },
  ];
}
