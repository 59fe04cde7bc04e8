/** One pickup's findings and numbers, remembered by the pickup and the bench that they were made from. */

import { onceFor, onceForEach } from '../../../grammar/values/remember.ts';
import { type Owner, runChecks } from '../checks/check.ts';
import { pickupChecks } from '../checks/index.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { judgedAims } from '../estimates/aims.ts';
import { mismatch } from '../estimates/mismatch.ts';
import { outputChange } from '../estimates/output-change.ts';
import { loadOf, pickupEstimates, quickPickupEstimates } from '../estimates/pickup-estimates.ts';
import { type QuickEstimates, quickEstimates } from '../estimates/quick.ts';
import type { Bench } from '../model/bench.ts';
import { pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { PickupAnalysis } from './analysis-types.ts';

const quickUnder = onceFor((pickup: Pickup, bench: Bench | undefined) => quickEstimates(pickupNetlist(pickup), bench));

/** Quick estimates of pickups under one bench, remembered. */
export const quickOf =
  (bench: Bench | undefined) =>
  (pickup: Pickup): QuickEstimates =>
    quickUnder(pickup, bench);

export const pickupAnalysis = onceFor((pickup: Pickup, bench: Bench | undefined): PickupAnalysis => {
  const quick = quickOf(bench)(pickup);
  const { netlist } = quick;
  const owner: Owner = {
    place: pickup.place,
    subject: { pickup: pickup.name },
    // A remedy for this pickup leaves the one that it is `like` alone.
    ownEdits: (edits) => ownEdits(edits, pickup),
  };
  const full = onceForEach((cableF?: number) => pickupEstimates(quick, bench, loadOf(pickup, cableF)));
  const beside = onceForEach((cableF?: number) => mismatch(quick, bench, loadOf(pickup, cableF)));
  return {
    pickup,
    netlist,
    ...runChecks(pickupChecks, { pickup, netlist, quick, bench }, owner),
    quick: quickPickupEstimates(quick),
    estimates: (cableF) => full(cableF),
    aims: () => judgedAims(quick, bench),
    outputSince: (before) => outputChange(quickOf(bench)(before), quick),
    mismatch: (cableF) => beside(cableF),
  };
});
