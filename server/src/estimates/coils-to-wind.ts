import type { Coil } from '../model/coil.ts';
import type { Spool } from '../model/wire.ts';
import { type Estimate, scale, sum } from '../quantities/estimate.ts';
import { WIRE_ALLOWANCE } from './common-practice.ts';
import type { QuickEstimates } from './quick.ts';

/** Coils of a pickup still to be wound, by their spool: what has been counted, read or handed out has already left it. */
export function coilsToWind({ netlist: { pickup }, readings }: QuickEstimates): ReadonlyMap<Spool, readonly Coil[]> {
  const bySpool = new Map<Spool, readonly Coil[]>();
  if (pickup.made) return bySpool;
  for (const coil of pickup.coils) {
    if (!coil.spool || coil.counted || readings.has(coil)) continue;
    bySpool.set(coil.spool, [...(bySpool.get(coil.spool) ?? []), coil]);
  }
  return bySpool;
}

/** Mass of the wire in coils, kg, and the same with the spare; `undefined` where it is not known of each of them. */
export function wireForCoils(
  masses: readonly (Estimate | undefined)[],
): { readonly kg: Estimate; readonly withSpareKg: Estimate } | undefined {
  const known = masses.flatMap((each): readonly Estimate[] => (each ? [each] : []));
  if (known.length < masses.length) return undefined;
  const kg = sum(...known);
  return { kg, withSpareKg: scale(kg, WIRE_ALLOWANCE) };
}
