/** Readings of inductance and capacitance, of a whole pickup or of one coil, which stand in the place of what is computed. */

import type { Coil } from '../model/coil.ts';
import { looseNetlist, type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { ReadingOf, Readings } from '../model/readings.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import {
  CAPACITANCE_READING_RELATIVE_SD,
  INDUCTANCE_METER_ANY_FREQUENCY_RELATIVE_SD,
  INDUCTANCE_METER_RELATIVE_SD,
} from './common-practice.ts';
import { because } from './reasons.ts';

type Line = ReadingOf<'inductance'> | ReadingOf<'capacitance'>;

/** What a line was read of: all that lies between hot and ground, one coil with nothing beside it, or what lies between two nets. */
export type MagneticSubject = 'whole' | Coil | { readonly nets: readonly [number, number] };

export function magneticSubject(
  line: { readonly probes: Line['probes'] },
  block: Readings,
  netlist: PickupNetlist,
): MagneticSubject | undefined {
  if (!line.probes) return 'whole';
  const lying = block.apart ? looseNetlist(netlist.pickup) : netlist;
  const nets = probedNets(line.probes, lying);
  if (!nets) return undefined;
  if (!block.apart && nets.includes(netlist.hot ?? -1) && nets.includes(netlist.ground ?? -1)) return 'whole';
  const between = lying.windings.filter(
    ({ start, finish }) =>
      start !== undefined && finish !== undefined && start !== finish && nets.includes(start) && nets.includes(finish),
  );
  if (between.length === 1) return between[0]?.coil;
  return block.apart ? undefined : { nets };
}

/**
 * A reading of inductance, brought to low frequency. Of R, L and C a meter shows as series inductance L' = Im Z/ω ≈ L/(1 − ω²LC) − R²C
 * (to first order in ω²LC), and eddy currents lower L by a share of their own; all three are taken out, and half of that correction is
 * taken as its error. Without a stated frequency nothing is corrected.
 */
export function inductanceAtLowFrequency(
  { value, atHz }: ReadingOf<'inductance'>,
  { ohm, farad }: { readonly ohm: number; readonly farad: number },
  lostShare: (frequencyHz: number) => number,
): Estimate {
  const shown = value.si;
  const omega = 2 * Math.PI * (atHz?.si ?? 0);
  const lost = Math.min(0.5, lostShare(omega / (2 * Math.PI)));
  const inSeries = shown + (omega > 0 ? ohm ** 2 * farad : 0);
  const henry = inSeries / (1 + omega ** 2 * inSeries * farad) / (1 - lost);
  const readSd = value.sd ?? (atHz ? INDUCTANCE_METER_RELATIVE_SD : INDUCTANCE_METER_ANY_FREQUENCY_RELATIVE_SD) * shown;
  return estimateOf(henry, {
    sd: Math.hypot(readSd, Math.abs(henry - shown) / 2),
    basis: 'reading',
    restsOn: [
      atHz
        ? because('reading {0} at {1}, brought to low frequency', value.written, atHz.written)
        : because('reading {0}, its frequency not stated', value.written),
    ],
  });
}

export const capacitanceRead = ({ value }: ReadingOf<'capacitance'>): Estimate =>
  estimateOf(value.si, {
    sd: value.sd ?? CAPACITANCE_READING_RELATIVE_SD * value.si,
    basis: 'reading',
    restsOn: [because('reading {0}', value.written)],
  });

/** The newest reading of its kind of the whole pickup, or of one coil; none from before the work. */
export function newestMagnetic<K extends Line['kind']>(
  netlist: PickupNetlist,
  kind: K,
  of: 'whole' | Coil,
): ReadingOf<K> | undefined {
  return netlist.pickup.readings
    .filter(({ found }) => !found)
    .flatMap((block) =>
      block.lines.filter(
        (line): line is ReadingOf<K> =>
          line.kind === kind && (line as Line).value.si > 0 && magneticSubject(line as Line, block, netlist) === of,
      ),
    )
    .at(-1);
}
