/** A pickup's nets and windings as a circuit that can be solved. */
import { attached } from '../../../grammar/values/attached.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { type Circuit, type Component, circuit, ground } from '../physics/circuit/circuit.ts';
import { coil as coilComponent } from '../physics/circuit/coil.ts';
import { wire } from '../physics/circuit/components.ts';
import { type Network, networkOf } from '../physics/circuit/network.ts';
import { transfers } from '../physics/circuit/solve.ts';

/** A part of a coil between two of its leads; a coil without taps is one segment. */
export interface Segment {
  /** Name of its source in the circuit. */
  readonly source: string;
  readonly coil: Coil;
  readonly fromTurn: number;
  /** `undefined`: to the coil's end. */
  readonly toTurn: number | undefined;
  readonly start: string;
  readonly finish: string;
}

/** Segments of every coil whose two ends are joined to something, from start to finish. `nodeOf` names a net in the circuit. */
export function segmentsOf(netlist: PickupNetlist, nodeOf: (net: number) => string, prefix = ''): readonly Segment[] {
  return netlist.windings.flatMap((winding): Segment[] => {
    if (winding.start === undefined || winding.finish === undefined) return [];
    const taps = [...winding.taps].sort((a, b) => a.turns - b.turns);
    const stops = [...taps.map(({ net, turns }) => ({ net, turns })), { net: winding.finish, turns: undefined }];
    let from: { net: number; turns: number } = { net: winding.start, turns: 0 };
    return stops.map(({ net, turns }, index): Segment => {
      const segment = {
        source: `${prefix}${winding.coil.name}${taps.length ? `[${index + 1}]` : ''}`,
        coil: winding.coil,
        fromTurn: from.turns,
        toTurn: turns,
        start: nodeOf(from.net),
        finish: nodeOf(net),
      };
      from = { net, turns: turns ?? from.turns };
      return segment;
    });
  });
}

/** The resistive skeleton: enough for directions, open and shorted paths, and what a meter reads. */
export interface DcPickup {
  readonly network: Network;
  readonly segments: readonly Segment[];
  nodeOf(net: number): string;
}

/**
 * The pickup at 0 Hz with `reference` as the zero of voltage. The shield line and ground are one node here, as they are once
 * the pickup is fitted.
 */
export function dcPickup(
  netlist: PickupNetlist,
  ohmOf: (segment: Segment) => number,
  reference: number | undefined,
): DcPickup {
  const nodeOf = (net: number) => (net === reference ? ground : `net ${net}`);
  const segments = segmentsOf(netlist, nodeOf);
  const components: Component[] = segments.map((segment) =>
    coilComponent({
      name: segment.source,
      start: segment.start,
      finish: segment.finish,
      ohm: ohmOf(segment),
      henry: 1,
    }),
  );
  const { ground: groundNet, chassis } = netlist;
  if (groundNet !== undefined && chassis !== undefined && groundNet !== chassis)
    components.push(wire({ name: 'shield to ground', from: nodeOf(chassis), to: nodeOf(groundNet) }));
  const asCircuit: Circuit = circuit(components);
  return { network: networkOf(asCircuit), segments, nodeOf };
}

/**
 * Share of one volt in each segment (finish above start) that appears between two nets; `undefined` where no path joins them. By
 * reciprocity it is also the current through the segment for one ampere sent from `black` to `red`, so that the resistance between
 * the nets is Σ share² · ohm, and its sensitivity to each segment's resistance share².
 */
export function dcTransfers(
  netlist: PickupNetlist,
  ohmOf: (segment: Segment) => number,
  red: number,
  black: number,
): ReadonlyMap<Segment, number> | undefined {
  const { network, segments, nodeOf } = rememberedDcPickup(netlist, ohmOf, black);
  const shares = transfers(network, nodeOf(red), 0);
  if (typeof shares === 'string') return undefined;
  return new Map(segments.map((segment) => [segment, shares[network.sources.indexOf(segment.source)]?.re ?? 0]));
}

/** The coils whose resistance a meter between two nets sees. */
export function coilsBetween(netlist: PickupNetlist, [a, b]: readonly [number, number]): readonly Coil[] {
  const shares = dcTransfers(netlist, () => 1, a, b);
  if (!shares) return [];
  const carrying = new Set([...shares].filter(([, share]) => Math.abs(share) > 1e-3).map(([{ coil }]) => coil));
  return netlist.pickup.coils.filter((coil) => carrying.has(coil));
}

/** Many pairs of leads are asked for with one resistance of each coil: the equations are written once for each black probe. */
function rememberedDcPickup(netlist: PickupNetlist, ohmOf: (segment: Segment) => number, black: number): DcPickup {
  const key = `${black}|${numberedSegments(netlist).map(ohmOf).join()}`;
  const known = solved.get(netlist) ?? new Map<string, DcPickup>();
  solved.set(netlist, known);
  const before = known.get(key);
  if (before) return before;
  const made = dcPickup(netlist, ohmOf, black);
  if (known.size >= MOST_REMEMBERED) known.clear();
  known.set(key, made);
  return made;
}

const numberedSegments = onceFor((netlist: PickupNetlist) => segmentsOf(netlist, String));

const solved = attached<PickupNetlist, Map<string, DcPickup>>();
const MOST_REMEMBERED = 32;
