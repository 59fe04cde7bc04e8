/** What a meter must read between every pair of leads, with the tolerance of meter, spread and temperature. */
import { type Bench, benchMeter, benchRoomC } from '../model/bench.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { readingLimitOhm } from '../physics/meter.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { type Estimate, scale } from '../quantities/estimate.ts';
import type { LeadReading } from './estimates.ts';
import { type QuickEstimates, resistanceOf } from './quick.ts';

/** Pairs of everything a probe can touch: leads that leave the pickup and metal parts. `netlist` joined or loose. */
export function leadReadings(
  quick: QuickEstimates,
  bench: Bench | undefined,
  netlist: PickupNetlist = quick.netlist,
  temperatureC = benchRoomC(bench),
): readonly LeadReading[] {
  const points = probePoints(netlist);
  const factor = copperTemperatureFactor(temperatureC);
  return points.flatMap((a, index) =>
    points.slice(index + 1).flatMap((b): readonly LeadReading[] => {
      const at20C = resistanceOf(netlist, quick.windings, a.net, b.net);
      if (at20C === undefined) return [];
      // What was read stays a reading at another temperature.
      const resistanceOhm: Estimate | null = at20C && { ...scale(at20C, factor), basis: at20C.basis };
      const limit = resistanceOhm ? readingLimitOhm(benchMeter(bench), resistanceOhm.value) : 0;
      const toleranceOhm = resistanceOhm ? Math.hypot(limit, COVERAGE * resistanceOhm.sd) : 0;
      return [{ leads: [a.name, b.name], resistanceOhm, toleranceOhm, temperatureC }];
    }),
  );
}

/** A good reading lies within two standard deviations of what is computed. */
const COVERAGE = 2;

export function probePoints(netlist: PickupNetlist): readonly { readonly name: string; readonly net: number }[] {
  const leads = [...netlist.leads.values()].flatMap(({ name, node }) => {
    const net = netlist.netOf(node);
    return net === undefined ? [] : [{ name, net }];
  });
  const parts = netlist.metal
    .filter(({ fitting, net }) => fitting !== 'shield' && net >= 0)
    .map(({ name, net }) => ({ name, net }));
  return [...leads, ...parts];
}
