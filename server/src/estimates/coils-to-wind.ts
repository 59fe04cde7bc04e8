import type { Coil } from '../model/coil.ts';
import { sweepsOf } from '../model/sweeps.ts';
import type { Spool } from '../model/wire.ts';
import { type Estimate, scale, sum } from '../quantities/estimate.ts';
import { WIRE_ALLOWANCE } from './common-practice.ts';
import { magneticSubject } from './measured-magnetics.ts';
import { coilsBetween } from './pickup-circuit.ts';
import type { QuickEstimates } from './quick.ts';

/** A coil that was kept, counted, read or swept is wound: what it is is no question any more. */
export const isWound = (coil: Coil, quick: Pick<QuickEstimates, 'netlist' | 'readings'>): boolean =>
  coil.work?.value === 'kept' || coil.counted !== undefined || quick.readings.has(coil) || isSwept(coil, quick);

/** After the work, by itself or among others. */
const isSwept = (coil: Coil, { netlist }: Pick<QuickEstimates, 'netlist'>): boolean =>
  sweepsOf(netlist.pickup).some(({ sweep, block }) => {
    if (block.found) return false;
    const subject = magneticSubject(sweep, block, netlist);
    if (typeof subject !== 'object' || 'name' in subject) return subject === 'whole' || subject === coil;
    return coilsBetween(netlist, subject.nets).includes(coil);
  });

/** Coils of a pickup still to be wound, by their spool: what is wound or handed out has already left it. */
export function coilsToWind(quick: QuickEstimates): ReadonlyMap<Spool, readonly Coil[]> {
  const { pickup } = quick.netlist;
  const bySpool = new Map<Spool, readonly Coil[]>();
  if (pickup.made) return bySpool;
  for (const coil of pickup.coils) {
    if (!coil.spool || isWound(coil, quick)) continue;
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
