/** The form of a check over one pickup. */
import type { QuickEstimates } from '../estimates/quick.ts';
import type { Bench } from '../model/bench.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Check } from './check.ts';
import type { Code } from './pages.ts';

export interface PickupContext {
  readonly pickup: Pickup;
  readonly netlist: PickupNetlist;
  readonly quick: QuickEstimates;
  readonly bench: Bench | undefined;
}

export type PickupCheck<C extends Code = Code, Y extends Code = Code> = Check<PickupContext, C, Y>;

export const definePickupCheck = <C extends Code, Y extends Code = never>(check: PickupCheck<C, Y>) => check;
