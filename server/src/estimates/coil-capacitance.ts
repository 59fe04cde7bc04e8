/** Capacitance of one coil's winding. */
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { EFFECTIVE_PERMITTIVITY, windingCapacitance } from '../physics/capacitance.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import { windowHeightM } from './coil-places.ts';
import type { WindingEstimates } from './coil-winding.ts';

export function capacitanceOf(coil: Coil, winding: WindingEstimates, pickup: Pickup): Estimate {
  const { meanTurnM: meanTurn, buildM: build, bareDiameterM: bare, overallDiameterM: overall } = winding;
  if (!meanTurn || !build || !bare || !overall) return estimateOf(0, { basis: 'assumed' });
  const waxed = pickup.potting !== undefined;
  const { capacitanceF, factorSd } = windingCapacitance(
    {
      meanTurnM: meanTurn.value,
      heightM: windowHeightM(coil.bobbin),
      buildM: build.value,
      bareDiameterM: bare.value,
      overallDiameterM: overall.value,
      scatter: true,
    },
    waxed ? EFFECTIVE_PERMITTIVITY.wax : EFFECTIVE_PERMITTIVITY.air,
  );
  return estimateOf(capacitanceF, {
    sd: capacitanceF * (factorSd - 1) * 0.75,
    basis: 'computed',
    restsOn: [
      'energy between layers of a scatter winding, known to a factor of two',
      waxed ? 'wax between turns' : 'air between turns',
    ],
    source: causes.windingCapacitance,
  });
}
