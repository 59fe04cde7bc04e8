/** The cable that a pickup brings along. */
import type { Pickup } from '../model/pickup.ts';
import { leadCapacitanceF } from '../physics/capacitance.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { causes } from './causes.ts';

/**
 * Capacitance of the pickup's own cable, across the output: as stated, else of a usual length where a shield or conductors say that
 * there is one. Length and spread are common practice, no published source.
 */
export function ownCable({ name, cable, shield, conductors }: Pickup): Estimate {
  const source = causes.leadCapacitance(name);
  if (cable) {
    const { length: lengthM, capacitancePerLength } = cable.value;
    const value = leadCapacitanceF(lengthM.si, capacitancePerLength?.si);
    return estimateOf(value, {
      sd: value * (capacitancePerLength ? STATED_CABLE_RELATIVE_SD : CABLE_RELATIVE_SD),
      basis: 'declared',
      restsOn: [`its cable, ${lengthM.written}`],
      source,
    });
  }
  if (!shield && conductors.length === 0) return estimateOf(0, { basis: 'assumed' });
  const value = leadCapacitanceF(OWN_CABLE_M);
  return estimateOf(value, {
    sd: value * ASSUMED_CABLE_RELATIVE_SD,
    basis: 'assumed',
    restsOn: [`its own cable of ${OWN_CABLE_M} m at 120 pF/m, assumed`],
    source,
  });
}

export const OWN_CABLE_M = 0.35;
const STATED_CABLE_RELATIVE_SD = 0.1;
const CABLE_RELATIVE_SD = 0.25;
const ASSUMED_CABLE_RELATIVE_SD = 0.4;
