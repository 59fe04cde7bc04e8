/**
 * Pickups whose leads are known, and what a bench would read of them: resistances and kicks from the solved circuit, with a meter's
 * error, written down as for a pickup whose leads nobody knows.
 */
import assert from 'node:assert/strict';
import { quickOf } from '../../../server/src/analysis/pickup-analysis.ts';
import { dcPickup, dcTransfers } from '../../../server/src/estimates/pickup-circuit.ts';
import type { QuickEstimates } from '../../../server/src/estimates/quick.ts';
import { segmentOhm } from '../../../server/src/estimates/segment-shares.ts';
import { looseNetlist, type pickupNetlist } from '../../../server/src/model/netlist.ts';
import { resistanceBetween } from '../../../server/src/physics/circuit/dc.ts';
import { copperTemperatureFactor } from '../../../server/src/physics/wire.ts';
import type { Chance } from '../../support/chance.ts';
import { declaredIn } from '../../support/check-fixture.ts';

export const SHOP = `bench {
  room 22 degC
  meter accuracy 0.8 % digits 2 resolution 10 ohm
}
wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
bobbin six {
  core 63.0 x 5.6 mm
  window 8.2 x 5.8 mm
}
`;

export interface TrueCoil {
  readonly name: string;
  readonly turns: number;
  readonly wound: string;
  readonly poles: string;
  readonly start: string;
  readonly finish: string;
  readonly tap: { readonly lead: string; readonly turns: number } | undefined;
}

export interface TruePickup {
  readonly coils: readonly TrueCoil[];
  readonly conductors: readonly string[];
  readonly shield: boolean;
  /** Every point that a probe touches. */
  readonly points: readonly string[];
  readonly quick: QuickEstimates;
}

const COLOURS = ['violet', 'grey', 'pink', 'turquoise', 'orange', 'gold', 'white', 'blue'] as const;

export interface Kind {
  readonly coils: number;
  readonly spare: boolean;
  readonly tapped: boolean;
  /** One coil starts on the shield, and there is one conductor less. */
  readonly onShield: boolean;
  readonly equalTurns: boolean;
}

export function kindOf(by: Chance): Kind {
  return {
    coils: by.pick([1, 2, 2, 2, 3]),
    spare: by.whole(4) === 0,
    tapped: by.whole(5) === 0,
    onShield: by.whole(6) === 0,
    equalTurns: by.whole(3) === 0,
  };
}

export function truePickup(by: Chance, { coils: count, spare, tapped, onShield, equalTurns }: Kind): TruePickup {
  const colours: string[] = [];
  const left = [...COLOURS] as string[];
  while (left.length > 0) colours.push(...left.splice(by.whole(left.length), 1));
  const ends = 2 * count - (onShield ? 1 : 0);
  const conductors = colours.slice(0, ends + (spare ? 1 : 0)).sort();
  const shield = onShield || by.whole(2) === 0;
  const free = [...colours.slice(0, ends)];
  const coils = ['screw', 'slug', 'third'].slice(0, count).map((name, index): TrueCoil => {
    const finish = free.pop() ?? '';
    const start = onShield && index === 0 ? 'bare' : (free.pop() ?? '');
    const turns = equalTurns ? 5000 : 4000 + 600 * by.whole(4);
    return {
      name,
      turns,
      wound: by.pick(['clockwise', 'counterclockwise']),
      poles: by.pick(['north-up', 'south-up']),
      start,
      finish,
      tap: tapped && index === count - 1 ? { lead: 'yellow', turns: 0.8 * turns } : undefined,
    };
  });
  const taps = coils.flatMap(({ tap }) => tap?.lead ?? []);
  const points = [...conductors, ...(shield ? ['bare'] : []), ...taps];
  const { model, bench } = declaredIn(
    `${SHOP}pickup heron {\n${head(conductors, shield)}${coils
      .map((coil) => coilText(coil, { turns: true, wound: true, poles: true, ends: true }))
      .join('')}}\n`,
  );
  const [pickup] = model.pickups;
  assert.ok(pickup);
  return { coils, conductors, shield, points, quick: quickOf(bench)(pickup) };
}

const head = (conductors: readonly string[], shield: boolean) =>
  `  conductors ${conductors.join(' ')}\n${shield ? '  shield bare\n' : ''}`;

export interface Told {
  readonly turns: boolean;
  readonly wound: boolean;
  readonly poles: boolean;
  readonly ends: boolean;
}

function coilText({ name, turns, wound, poles, start, finish, tap }: TrueCoil, told: Told): string {
  const facts = [
    'bobbin six',
    'wire plain-42',
    'packing 0.65',
    ...(told.turns ? [`turns ${turns}`] : []),
    ...(told.wound ? [`wound ${wound}`] : []),
    ...(told.poles ? [`polarity ${poles}`] : []),
    ...(told.ends ? [`start to ${start}`, `finish to ${finish}`] : []),
    ...(tap ? [`tap ${tap.turns} turns ${tap.lead}`] : []),
  ];
  return `  coil ${name} {\n${facts.map((fact) => `    ${fact}\n`).join('')}  }\n`;
}

/** The same pickup as it comes out of a drawer: its leads are not told. */
export function foundText(pickup: TruePickup, told: readonly Omit<Told, 'ends'>[], lines: readonly string[]): string {
  const coils = pickup.coils.map((coil, index) =>
    coilText(coil, { ...(told[index] ?? { turns: false, wound: false, poles: false }), ends: false }),
  );
  return `${SHOP}pickup heron {\n${head(pickup.conductors, pickup.shield)}${coils.join('')}  readings "on the bench" 2026-08-02 {
    room 22 degC
${lines.map((line) => `    ${line}\n`).join('')}  }
}
`;
}

/** `violet to pink 4.03 kohm`, within the meter's limits of what is true. */
export function readResistance({ quick }: TruePickup, a: string, b: string, by: Chance): string {
  const loose = looseNetlist(quick.netlist.pickup);
  const factor = copperTemperatureFactor(22);
  const [from, to] = [netOf(loose, a), netOf(loose, b)];
  const { network, nodeOf } = dcPickup(loose, (segment) => factor * (segmentOhm(segment, quick.windings) ?? 0), to);
  const ohm = resistanceBetween(network, nodeOf(from), nodeOf(to));
  if (ohm === null) return `${a} to ${b} open`;
  const error = (by.whole(2001) - 1000) / 1000;
  const read = Math.round((ohm * (1 + 0.006 * error)) / 10) * 10;
  return `${a} to ${b} ${(read / 1000).toFixed(2)} kohm`;
}

/** `kick violet to pink at screw approach positive`; `undefined` where the coil is not between the probes. */
export function readKick(pickup: TruePickup, a: string, b: string, coil: TrueCoil, by: Chance): string | undefined {
  const { quick } = pickup;
  const loose = looseNetlist(quick.netlist.pickup);
  const ohmOf = (segment: Parameters<typeof segmentOhm>[0]) => segmentOhm(segment, quick.windings) ?? 1;
  const shares = dcTransfers(loose, ohmOf, netOf(loose, a), netOf(loose, b));
  const share = [...(shares ?? [])].reduce(
    (sum, [segment, each]) => sum + (segment.coil.name === coil.name ? each : 0),
    0,
  );
  if (Math.abs(share) < 1e-6) return undefined;
  // By the induction law: north-up, wound clockwise, red probe on the finish, steel approaching: positive.
  const turned = (coil.wound === 'clockwise' ? 1 : -1) * (coil.poles === 'north-up' ? 1 : -1);
  const approach = Math.sign(share) * turned;
  const motion = by.pick(['approach', 'pull-off']);
  const reads = (motion === 'approach' ? approach : -approach) > 0 ? 'positive' : 'negative';
  return `kick ${a} to ${b} at ${coil.name} ${motion} ${reads}`;
}

function netOf(netlist: ReturnType<typeof pickupNetlist>, lead: string): number {
  const net = netlist.netOf(`lead:${lead}`);
  assert.ok(net !== undefined, `no lead ${lead}`);
  return net;
}

export const pairsOf = (points: readonly string[]): readonly (readonly [string, string])[] =>
  points.flatMap((a, index) => points.slice(index + 1).map((b) => [a, b] as const));
