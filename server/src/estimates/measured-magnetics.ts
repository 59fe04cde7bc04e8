/** Readings of a pickup's inductance and capacitance, which stand in the place of what is computed. */
import type { PickupNetlist } from '../model/netlist.ts';
import type { ReadingOf } from '../model/readings.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import {
  CAPACITANCE_READING_RELATIVE_SD,
  INDUCTANCE_METER_ANY_FREQUENCY_RELATIVE_SD,
  INDUCTANCE_METER_RELATIVE_SD,
} from './common-practice.ts';

/**
 * The newest reading of the inductance between hot and ground, brought to low frequency. Of R, L and C a meter shows as series
 * inductance L' = Im Z/ω ≈ L/(1 − ω²LC) − R²C (to first order in ω²LC), and eddy currents lower L by a share of their own;
 * all three are taken out, and half of that correction is taken as its error. Without a stated frequency nothing is corrected.
 */
export function measuredInductance(
  netlist: PickupNetlist,
  { ohm, farad }: { readonly ohm: number; readonly farad: number },
  lostShare: (frequencyHz: number) => number,
): Estimate | undefined {
  const line = newest(netlist, 'inductance', ({ probes }) => {
    const nets = [probes.red, probes.black].map((path) => netlist.netOf(netlist.resolve(path) ?? ''));
    return nets.includes(netlist.hot) && nets.includes(netlist.ground);
  });
  if (!line || !(line.value.si > 0)) return undefined;
  const shown = line.value.si;
  const omega = 2 * Math.PI * (line.atHz?.si ?? 0);
  const lost = Math.min(0.5, lostShare(omega / (2 * Math.PI)));
  const inSeries = shown + (omega > 0 ? ohm ** 2 * farad : 0);
  const henry = inSeries / (1 + omega ** 2 * inSeries * farad) / (1 - lost);
  const readSd =
    line.value.sd ?? (line.atHz ? INDUCTANCE_METER_RELATIVE_SD : INDUCTANCE_METER_ANY_FREQUENCY_RELATIVE_SD) * shown;
  return estimateOf(henry, {
    sd: Math.hypot(readSd, Math.abs(henry - shown) / 2),
    basis: 'reading',
    restsOn: [
      `reading ${line.value.written}${line.atHz ? ` at ${line.atHz.written}, brought to low frequency` : ', its frequency not stated'}`,
    ],
  });
}

export function measuredCapacitance(netlist: PickupNetlist): Estimate | undefined {
  const line = newest(netlist, 'capacitance', () => true);
  if (!line || !(line.value.si > 0)) return undefined;
  return estimateOf(line.value.si, {
    sd: line.value.sd ?? CAPACITANCE_READING_RELATIVE_SD * line.value.si,
    basis: 'reading',
    restsOn: [`reading ${line.value.written}`],
  });
}

function newest<K extends 'inductance' | 'capacitance'>(
  { pickup }: PickupNetlist,
  kind: K,
  wanted: (line: ReadingOf<K>) => boolean,
): ReadingOf<K> | undefined {
  return pickup.readings
    .flatMap(({ found, lines }) => (found ? [] : lines))
    .findLast((line): line is ReadingOf<K> => line.kind === kind && wanted(line as ReadingOf<K>));
}
