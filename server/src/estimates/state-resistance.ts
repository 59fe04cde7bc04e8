/**
 * What a meter reads between hot and ground at the lugs in a state of the switches, controls apart, by the nets alone: it holds for what
 * is neither series nor parallel too, and for resistors of the wiring. Capacitors are open; nodal equations at 0 Hz.
 */

import type { Slot } from '../model/instrument.ts';
import { looseNetlist } from '../model/netlist.ts';
import { resistor } from '../physics/circuit/components.ts';
import { resistanceBetween } from '../physics/circuit/dc.ts';
import { networkOf } from '../physics/circuit/network.ts';
import { GROUND, HOT, lugTerminal } from '../physics/switching/rig.ts';
import { type Estimate, estimateOf, functionOf } from '../quantities/estimate.ts';
import { printCelsius } from '../quantities/print.ts';
import { segmentsOf } from './pickup-circuit.ts';
import type { QuickOf } from './position-network.ts';
import type { QuickEstimates } from './quick.ts';
import { because } from './reasons.ts';
import { resistanceCause } from './scaling-causes.ts';
import { segmentOhm } from './segment-shares.ts';
import type { WiredState, WiredStates } from './switch-states.ts';
import { partElement } from './wired-rig.ts';

/** At 20 °C, Ω. `null`: open; `undefined`: a coil of it is not known. */
export function stateResistance(
  { numbered: { rig }, instrument }: WiredStates,
  { meaning }: Pick<WiredState, 'meaning'>,
  quickOf: QuickOf,
): Estimate | null | undefined {
  if (meaning.fault === 'open') return null;
  if (meaning.fault === 'shorted') return estimateOf(0, { basis: 'computed' });
  const quick = instrument.slots.flatMap(({ pickup }) => (pickup ? [quickOf(pickup)] : []));
  const ohms = new Map([
    ...instrument.slots.flatMap((slot) => coilOhms(slot, quickOf)),
    ...(instrument.wiring?.parts ?? []).map(
      ({ kind, value }, index) =>
        [partElement(index), kind === 'resistor' ? value.si : Number.POSITIVE_INFINITY] as const,
    ),
  ]);
  const heard = rig.elements.filter(({ name }) => meaning.sounding.includes(name));
  if (heard.some(({ name }) => ohms.get(name) === undefined)) return undefined;
  const node = (terminal: string) => `net ${meaning.netOf(terminal)}`;
  const between = (factor: number): number | null => {
    const components = heard.flatMap(({ name, isCoil, ends: [high, low] }) => {
      const ohm = ohms.get(name) ?? Number.POSITIVE_INFINITY;
      return Number.isFinite(ohm)
        ? [resistor({ name, from: node(high), to: node(low), ohm: isCoil ? ohm * factor : ohm })]
        : [];
    });
    return resistanceBetween(networkOf({ components }), node(HOT), node(GROUND));
  };
  if (between(1) === null) return null;
  const cause = {
    ...resistanceCause(quick.filter((each) => isHeard(each, heard, instrument.slots))),
    restsOn: [because('at {0}', printCelsius(20)), because('controls apart')],
  };
  return functionOf([cause], ([factor]) => between(factor) ?? Number.NaN);
}

const isHeard = (
  { netlist: { pickup } }: QuickEstimates,
  heard: readonly { readonly name: string }[],
  slots: readonly Slot[],
): boolean =>
  slots.some((slot) => slot.pickup === pickup && heard.some(({ name }) => name.startsWith(`${slot.name}.`)));

function coilOhms({ name: slot, pickup }: Slot, quickOf: QuickOf): readonly (readonly [string, number])[] {
  if (!pickup) return [];
  const { windings } = quickOf(pickup);
  return segmentsOf(looseNetlist(pickup), String).flatMap((segment) => {
    const ohm = segmentOhm(segment, windings);
    return ohm === undefined ? [] : [[lugTerminal(slot, segment.source), ohm] as const];
  });
}
