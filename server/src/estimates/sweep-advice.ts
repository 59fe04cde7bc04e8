/** What a sweep could not tell, why, and the measurement that would. */
import type { PickupNetlist } from '../model/netlist.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { magneticSubject } from './measured-magnetics.ts';
import { lossToldOf } from './sweep-comparison.ts';
import { isCoil } from './sweep-set-up.ts';
import type { Swept, SweptCoil, SweptNumber } from './sweeps-measured.ts';
import { isPartOfCoil } from './swept-circuit.ts';

export interface Untold {
  readonly number: SweptNumber;
  readonly because: 'input capacitance' | 'one exciter' | 'hardly any' | 'far above' | 'scatter';
}

export function untoldOf(swept: SweptCoil): readonly Untold[] {
  const { tooWeak, group, sweeps } = swept;
  const kinds = new Set(group.sweeps.map(({ setUp }) => setUp.kind));
  const isAlone = sweeps.curves.some(({ kind }) => kind === 'alone');
  return tooWeak.map((number): Untold => {
    if (number === 'losses') return { number, because: isLossSeen(swept) ? 'far above' : 'hardly any' };
    if (kinds.size === 1 && kinds.has('excited')) return { number, because: 'one exciter' };
    if (number === 'capacitance' && kinds.has('through') && !isAlone) return { number, because: 'input capacitance' };
    return { number, because: 'scatter' };
  });
}

function isLossSeen(swept: SweptCoil): boolean {
  const { value, sd } = lossToldOf(swept);
  return value > 2 * sd;
}

/** The next measurement of a pickup that says most; `undefined` where nothing is missing. */
export type NextMeasurement =
  | 'over'
  | 'recorder alone'
  | 'with a capacitor'
  | 'resistance'
  | 'set-up'
  | 'rejoin'
  | 'again'
  | 'coils apart'
  | 'all at once';

export function nextMeasurement(swept: Swept, netlist: PickupNetlist): NextMeasurement | undefined {
  if (swept.kind === 'open') return 'rejoin';
  if (swept.kind === 'set-up') return 'set-up';
  if (swept.kind === 'no coil') return 'again';
  if (isPartOfCoil(swept.group, netlist)) return undefined;
  if (swept.verdict !== 'holds' && isOnlyJoined(swept, netlist)) return 'coils apart';
  if (swept.verdict === 'does not hold') return isBesideOnly(swept, netlist) ? 'all at once' : 'again';
  const untold = untoldOf(swept);
  if (untold.some(({ because }) => because === 'one exciter')) return 'with a capacitor';
  if (untold.some(({ because }) => because === 'input capacitance')) return 'recorder alone';
  if (untold.some(({ because }) => because === 'scatter')) return 'over';
  return swept.sweeps.dc.length === 0 ? 'resistance' : undefined;
}

/** One coil of several, none of which was swept together with another: that rings along. */
const isBesideOnly = ({ group }: SweptCoil, netlist: PickupNetlist): boolean =>
  netlist.pickup.coils.length > 1 &&
  isCoil(group.subject) &&
  sweepsOf(netlist.pickup).every(({ sweep, block }) => isCoil(magneticSubject(sweep, block, netlist)));

/** Coils that were swept as they are joined only: the formula of one coil does not hold for two that differ. */
const isOnlyJoined = ({ group }: SweptCoil, netlist: PickupNetlist): boolean =>
  netlist.pickup.coils.length > 1 &&
  !isCoil(group.subject) &&
  sweepsOf(netlist.pickup).every(({ sweep, block }) => !isCoil(magneticSubject(sweep, block, netlist)));
