/** A pickup's numbers as features, documents and reports read them. */
import type { Bench } from '../model/bench.ts';
import type { CoilEstimates, PickupEstimates } from './estimates.ts';
import type { QuickEstimates } from './quick.ts';

/** What is known without any inductance. */
export function quickPickupEstimates(quick: QuickEstimates): PickupEstimates {
  const coils = new Map<string, CoilEstimates>();
  for (const [coil, winding] of quick.windings)
    coils.set(coil.name, { ...winding, inductanceAirH: undefined, inductanceH: undefined, capacitanceF: undefined });
  return {
    coils,
    resistance20COhm: quick.resistance20COhm,
    inductanceH: undefined,
    capacitanceF: undefined,
    resonanceHz: undefined,
    peakDb: undefined,
    phase: quick.phase,
    signalDb: quick.signalDb,
    humDb: quick.humDb,
    leadReadings: [],
  };
}

export function pickupEstimates(quick: QuickEstimates, _bench: Bench | undefined): PickupEstimates {
  return quickPickupEstimates(quick);
}
