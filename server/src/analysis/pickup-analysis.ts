/** One pickup's findings and numbers, remembered by the pickup and the bench that they were made from. */

import { type Owner, runChecks } from '../checks/check.ts';
import { pickupChecks } from '../checks/index.ts';
import { ownEdits } from '../checks/own-edits.ts';
import { mismatch } from '../estimates/mismatch.ts';
import { outputChange } from '../estimates/output-change.ts';
import { loadOf, pickupEstimates, quickPickupEstimates } from '../estimates/pickup-estimates.ts';
import { type QuickEstimates, quickEstimates } from '../estimates/quick.ts';
import type { Bench } from '../model/bench.ts';
import { pickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import type { PickupAnalysis } from './analysis-types.ts';

const remembered = new WeakMap<Pickup, { readonly bench: Bench | undefined; readonly analysis: PickupAnalysis }>();

/** Where it has been made. */
export function knownPickupAnalysis(pickup: Pickup, bench: Bench | undefined): PickupAnalysis | undefined {
  const before = remembered.get(pickup);
  return before && before.bench === bench ? before.analysis : undefined;
}

export function pickupAnalysis(pickup: Pickup, bench: Bench | undefined): PickupAnalysis {
  const known = knownPickupAnalysis(pickup, bench);
  if (known) return known;
  const analysis = analyse(pickup, bench);
  remembered.set(pickup, { bench, analysis });
  return analysis;
}

const quickMemory = new WeakMap<Pickup, { readonly bench: Bench | undefined; readonly quick: QuickEstimates }>();

/** Quick estimates of pickups under one bench, remembered. */
export const quickOf =
  (bench: Bench | undefined) =>
  (pickup: Pickup): QuickEstimates => {
    const before = quickMemory.get(pickup);
    if (before && before.bench === bench) return before.quick;
    const quick = quickEstimates(pickupNetlist(pickup), bench);
    quickMemory.set(pickup, { bench, quick });
    return quick;
  };

function analyse(pickup: Pickup, bench: Bench | undefined): PickupAnalysis {
  const quick = quickOf(bench)(pickup);
  const { netlist } = quick;
  const owner: Owner = {
    place: pickup.place,
    subject: { pickup: pickup.name },
    // A remedy for this pickup leaves the one that it is `like` alone.
    ownEdits: (edits) => ownEdits(edits, pickup),
  };
  const full = rememberedByCable((cableF) => pickupEstimates(quick, bench, loadOf(pickup, cableF)));
  const beside = rememberedByCable((cableF) => mismatch(quick, bench, loadOf(pickup, cableF)));
  return {
    pickup,
    netlist,
    ...runChecks(pickupChecks, { pickup, netlist, quick, bench }, owner),
    quick: quickPickupEstimates(quick),
    estimates: (cableF) => full(cableF),
    outputSince: (before) => outputChange(quickOf(bench)(before), quick),
    mismatch: (cableF) => beside(cableF),
  };
}

function rememberedByCable<T>(make: (cableF: number | undefined) => T): (cableF: number | undefined) => T {
  const made = new Map<number | undefined, { readonly value: T }>();
  return (cableF) => {
    const known = made.get(cableF) ?? { value: make(cableF) };
    made.set(cableF, known);
    return known.value;
  };
}
