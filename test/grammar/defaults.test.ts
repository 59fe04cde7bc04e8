import assert from 'node:assert/strict';
import { language } from '../../grammar/src/schema/index.ts';
import { DEFAULT_COILS_APART_M, OWN_CABLE_M } from '../../server/src/estimates/common-practice.ts';
import { DEFAULT_LOAD } from '../../server/src/estimates/pickup-estimates.ts';
import { DEFAULT_BENCH } from '../../server/src/model/bench.ts';
import { CABLE_F_PER_M } from '../../server/src/physics/capacitance.ts';
import { SCATTER_PACKING } from '../../server/src/physics/coil-geometry.ts';

/** The reference tells what is assumed; these are the numbers that the estimates assume. */
const ASSUMED: readonly (readonly [told: string | undefined, number: string])[] = [
  [language.coil.facts.packing.assumed, `${SCATTER_PACKING.value} ± ${SCATTER_PACKING.sd}`],
  [language.pickup.facts.coilsApart.assumed, `${DEFAULT_COILS_APART_M * 1000} mm`],
  [language.pickup.facts.cable.assumed, `${OWN_CABLE_M} m`],
  ...Object.values(CABLE_F_PER_M).map(
    ({ least, most }) =>
      [language.pickup.facts.cable.assumed, `${Math.round(least * 1e12)} to ${Math.round(most * 1e12)} pF/m`] as const,
  ),
  [language.bench.facts.mains.assumed, `${DEFAULT_BENCH.mainsHz} Hz`],
  [language.bench.facts.room.assumed, `${DEFAULT_BENCH.roomC} degC`],
  [language.bench.facts.meter.assumed, `${DEFAULT_BENCH.meter.accuracyPercent} % of the reading`],
  [
    language.bench.facts.meter.assumed,
    `${DEFAULT_BENCH.meter.digits} digits of ${DEFAULT_BENCH.meter.resolutionOhm} ohm`,
  ],
  [language.instrument.facts.cable.assumed, `${Math.round(DEFAULT_LOAD.cableF * 1e12)} pF`],
  [language.instrument.facts.input.assumed, `${(DEFAULT_LOAD.inputOhm ?? 0) / 1e6} Mohm`],
];

describe('defaults that the reference tells', () => {
  for (const [told, number] of ASSUMED) it(`${told}`, () => assert.ok(told?.includes(number), number));
});
