/** The circuit between the two points of a sweep, as a pickup's joints make it. */
import type { Coil } from '../model/coil.ts';
import { looseNetlist, type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { ProbedCircuit } from '../physics/sweep/coil-network.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { ownCable } from './own-cable.ts';
import { coilsBetween } from './pickup-circuit.ts';
import { isCoil, type SweepGroup } from './sweep-set-up.ts';

/** The coils whose resistance lies between the points of a sweep; none where one of them is tapped. */
export function coilsSwept({ subject, ...group }: SweepGroup, netlist: PickupNetlist): readonly Coil[] {
  if (isCoil(subject)) return [subject];
  const nets = netsBetween({ subject, ...group }, netlist);
  const coils = nets ? coilsBetween(netlist, nets) : [];
  return coils.some(({ taps }) => taps.length > 0) ? [] : coils;
}

/** Between a tap and another point of its coil: the rest of the winding hangs on it and rings along, as no single coil does. */
export function isPartOfCoil({ subject }: Pick<SweepGroup, 'subject'>, { windings }: PickupNetlist): boolean {
  if (typeof subject !== 'object' || isCoil(subject)) return false;
  return windings.some(({ start, finish, taps }) => {
    const nets = [start, finish, ...taps.map(({ net }) => net)];
    return taps.length > 0 && subject.nets.every((net) => nets.includes(net));
  });
}

function netsBetween({ subject, sweeps }: SweepGroup, netlist: PickupNetlist): readonly [number, number] | undefined {
  const [first] = sweeps;
  const { hot, ground } = netlist;
  if (subject === 'whole') return hot === undefined || ground === undefined ? undefined : [hot, ground];
  return first && probedNets(first.probes, netlist);
}

export const aloneCircuit = (coil: number): ProbedCircuit => ({
  nodes: 2,
  coils: [{ coil, start: 1, finish: 0 }],
  capacitors: [],
});

/**
 * `coils` in the order of their numbers: those that hang on by one end are in it too. What lies about them is a part of their capacitance as
 * it is computed. `undefined` where the points are not known.
 */
export function circuitBetween(
  group: SweepGroup,
  coils: readonly Coil[],
  netlist: PickupNetlist,
  computed: PickupMagnetics | undefined,
): ProbedCircuit | undefined {
  const { subject, block } = group;
  const lying = isCoil(subject) && block.apart ? looseNetlist(netlist.pickup) : netlist;
  const own = lying.windings.find(({ coil }) => coil === subject);
  const nets = isCoil(subject)
    ? own?.start === undefined || own.finish === undefined
      ? undefined
      : ([own.start, own.finish] as const)
    : netsBetween(group, netlist);
  if (!nets || nets[0] === nets[1]) return undefined;
  // What goes to the instrument's ground by itself is ground once the pickup is fitted.
  const meant = (net: number) => (net === lying.chassis && lying.ground !== undefined ? lying.ground : net);
  const nodes = new Map([
    [meant(nets[1]), 0],
    [meant(nets[0]), 1],
  ]);
  const nodeOf = (net: number) => {
    const known = nodes.get(meant(net)) ?? Math.max(2, new Set(nodes.values()).size);
    nodes.set(meant(net), known);
    return known;
  };
  let left = lying.windings.flatMap(({ coil, start, finish }) =>
    coils.includes(coil) && start !== undefined && finish !== undefined ? [{ coil, start, finish }] : [],
  );
  const placed: ProbedCircuit['coils'][number][] = [];
  const held: ProbedCircuit['capacitors'][number][] = [];
  while (left.length > 0) {
    const isReached = ({ start, finish }: (typeof left)[number]) => nodes.has(meant(start)) || nodes.has(meant(finish));
    const next = left.find(isReached) ?? left[0];
    if (!next) break;
    const isFloating = !isReached(next);
    placed.push({ coil: coils.indexOf(next.coil), start: nodeOf(next.start), finish: nodeOf(next.finish) });
    left = left.filter((each) => each !== next);
    // A coil in the air is held by next to nothing.
    if (isFloating) held.push({ from: nodeOf(next.start), to: 0, farad: HELD_FARAD, scaledBy: 'nothing' });
  }
  const [hot, ground] = [lying.hot, lying.ground].map((net) => (net === undefined ? undefined : nodes.get(meant(net))));
  const farad = ownCable(netlist.pickup).value;
  const hasCable = lying === netlist && hot !== undefined && ground !== undefined && hot !== ground && farad > 0;
  const capacitors = computed ? surroundings(placed, coils, computed, lying === netlist ? ground : undefined) : [];
  return {
    nodes: Math.max(2, new Set(nodes.values()).size),
    coils: placed,
    capacitors: [
      ...capacitors,
      ...held,
      ...(hasCable ? [{ from: hot, to: ground, farad, scaledBy: 'cable' as const }] : []),
    ],
  };
}

const HELD_FARAD = 1e-17;

/** To `screen` from both ends, between the outermost turns of neighbours; without a screen the faces lie across their coil. */
function surroundings(
  placed: ProbedCircuit['coils'],
  coils: readonly Coil[],
  { coils: magnetic, between }: PickupMagnetics,
  screen: number | undefined,
): ProbedCircuit['capacitors'] {
  const acrossOf = (coil: Coil) => {
    const { windingF, facesF } = magnetic.get(coil)?.capacitances ?? {};
    return windingF && facesF ? windingF.value - facesF.value / 6 : undefined;
  };
  const own = placed.flatMap(({ coil, start, finish }) => {
    const known = coils[coil] && magnetic.get(coils[coil])?.capacitances;
    const across = coils[coil] && acrossOf(coils[coil]);
    if (!known || !across) return [];
    const { startF, finishF, facesF } = known;
    const part = (from: number, to: number, value: number) => ({ from, to, farad: value / across, scaledBy: { coil } });
    return screen === undefined
      ? [part(start, finish, facesF.value / 6)]
      : [part(start, screen, startF.value + facesF.value / 2), part(finish, screen, finishF.value + facesF.value / 2)];
  });
  const pairs = between.flatMap(({ coils: [a, b], farad }) => {
    const [first, second] = [a, b].map((each) => placed.find(({ coil }) => coils[coil] === each));
    const across = acrossOf(a);
    return first && second && across
      ? [{ from: first.finish, to: second.finish, farad: farad.value / across, scaledBy: { coil: first.coil } }]
      : [];
  });
  return [...own, ...pairs].filter(({ from, to, farad }) => from !== to && farad > 0);
}
