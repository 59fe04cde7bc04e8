/**
 * The resistance of a closed pickup: nobody has seen how its coils are joined inside, only that they are heard between hot and ground.
 * What is read there is of all of them together.
 */
import { type Bench, benchMeter } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { causes, coilPath } from './causes.ts';
import { countsNow, type PickupLife } from './coil-life.ts';
import { isResistance, netsOf, readingTemperature, resistanceAt20C } from './coil-reading.ts';
import { UNSEEN_SHARE_RELATIVE_SD } from './common-practice.ts';
import { joinedNetlist } from './pickup-circuit.ts';

/**
 * Each coil's part of what was last read from hot to ground, as if they lay one behind the other and were alike; what one has less the
 * others have more, so that the sum is as sure as the reading. Empty where the pickup is not closed, or was not read so.
 */
export function closedResistances(
  { pickup, windings }: PickupNetlist,
  life: PickupLife,
  bench: Bench | undefined,
): ReadonlyMap<Coil, Estimate> {
  if (windings.length === 0 || !windings.every(({ unseen }) => unseen)) return new Map();
  const whole = wholeReading(pickup.coils, life, bench);
  if (!whole) return new Map();
  const share = 1 / pickup.coils.length;
  const [last] = pickup.coils.slice(-1);
  const others = pickup.coils.filter((coil) => coil !== last);
  const apart = whole.value * share * UNSEEN_SHARE_RELATIVE_SD;
  const causeOf = (coil: Coil) => causes.unseenShare(coilPath(pickup, coil));
  return new Map(
    pickup.coils.map((coil) => {
      const own = coil === last ? others.map((each) => [causeOf(each), -apart]) : [[causeOf(coil), apart]];
      const sources: Readonly<Record<string, number>> = Object.fromEntries([
        ...Object.entries(whole.sources ?? {}).map(([cause, part]) => [cause, part * share]),
        ...own,
      ]);
      const estimate: Estimate = {
        value: whole.value * share,
        sd: Math.hypot(whole.sd * share, ...own.map(() => apart)),
        basis: 'assumed',
        restsOn: [...whole.restsOn, 'its coils alike, as nobody has seen them'],
        sources,
      };
      return [coil, estimate];
    }),
  );
}

/** The newest reading from hot to ground since which every coil was kept. */
function wholeReading(coils: readonly Coil[], life: PickupLife, bench: Bench | undefined): Estimate | undefined {
  const counting = life.blocks.filter((dated) => coils.every(({ name }) => countsNow(life, name, dated)));
  const reads = counting.flatMap(({ block, state }) => {
    const netlist = joinedNetlist(state);
    return block.lines.flatMap((line) => {
      if (!isResistance(line) || line.kind !== 'resistance' || line.value === 'open' || block.apart) return [];
      const nets: readonly number[] = netsOf(line.probes, netlist) ?? [];
      const isWhole = [netlist.hot, netlist.ground].every((net) => net !== undefined && nets.includes(net));
      return isWhole
        ? [resistanceAt20C(line.value, readingTemperature(line.atC, block, bench), benchMeter(bench))]
        : [];
    });
  });
  return reads.at(-1);
}
