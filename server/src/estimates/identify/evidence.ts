/** What readings between leads that nobody traced say, before anything is deduced from them. */

import { type Bench, benchMeter } from '../../model/bench.ts';
import { type Coil, oppositeSign, poleSign, type Sign } from '../../model/coil.ts';
import type { LeadPath, Probes } from '../../model/lead.ts';
import { magnetWorkAt } from '../../model/life.ts';
import { looseNetlist, type PickupNetlist } from '../../model/netlist.ts';
import type { Place } from '../../model/place.ts';
import type { ReadingOf, Readings } from '../../model/readings.ts';
import { disjointSets } from '../../physics/circuit/circuit.ts';
import { readingLimitOhm } from '../../physics/meter.ts';
import { copperTemperatureFactor } from '../../physics/wire.ts';
import { countsNow, type PickupLife, readingUpTo } from '../coil-life.ts';
import { readingTemperature } from '../coil-reading.ts';
import { OPEN_FROM_OHM, PROBES_OHM, READING_SPREAD_SD, SHORT_OHM } from '../common-practice.ts';
import type { QuickEstimates } from '../quick.ts';
import { wireShareOf } from '../segment-shares.ts';
import { declaredPolarity, declaredRotation } from '../signs.ts';

/** A point that a probe can touch: a net of the pickup before its leads are joined; points that read nearly nothing are one. */
export type Point = number;

export interface PairReading {
  readonly a: Point;
  readonly b: Point;
  /** Brought to 20 degC; `null`: open. */
  readonly at20COhm: number | null;
  readonly limitOhm: number;
  readonly place: Place;
}

export interface KickReading {
  readonly red: Point;
  readonly black: Point;
  /** Whose poles; `undefined`: not said. */
  readonly coil: Coil | undefined;
  /** What it reads, or would read, on approach. */
  readonly onApproach: Sign;
  readonly place: Place;
}

export interface CoilEvidence {
  readonly coil: Coil;
  readonly start: Point | undefined;
  readonly finish: Point | undefined;
  /** From the start on; the share of the coil's wire up to a tap is known where its turns are. */
  readonly taps: readonly { readonly point: Point; readonly shareFromStart: number | undefined }[];
  readonly wind: Sign | undefined;
  readonly pole: Sign | undefined;
  /** From a reading of the coil itself, or from its turns. */
  readonly ohm20C: { readonly value: number; readonly limit: number } | undefined;
}

export interface Evidence {
  readonly coils: readonly CoilEvidence[];
  /** Conductors that nothing places. */
  readonly untraced: readonly Point[];
  /** Where else an end might be soldered: the shield, conductors that carry an end already. */
  readonly others: readonly Point[];
  readonly readings: readonly PairReading[];
  readonly kicks: readonly KickReading[];
  /** Conductors that read nearly nothing to a metal part. */
  readonly onMetal: readonly { readonly lead: string; readonly part: string; readonly place: Place }[];
  nameOf(point: Point): string;
}

export function evidenceOf(quick: QuickEstimates, bench: Bench | undefined): Evidence {
  const { pickup } = quick.netlist;
  const loose = looseNetlist(pickup);
  const lines = looseLines(quick.life);
  const read = lines.flatMap(({ line, block }) => pairReading(line, block, loose, bench) ?? []);
  const pointOf = unions(read);
  const at = (path: LeadPath): Point | undefined => {
    const net = loose.netAt(path);
    return net === undefined ? undefined : pointOf(net);
  };
  const measured = kicksNow(quick.life).flatMap(({ kick, turned }): readonly KickReading[] => {
    const [red, black] = [at(kick.probes.red), at(kick.probes.black)];
    if (red === undefined || black === undefined || red === black) return [];
    const onApproach: Sign = ((kick.reads === 'positive') === (kick.motion === 'approach')) !== turned ? 1 : -1;
    const coil = kick.at && pickup.coils.find(({ name }) => name === kick.at?.text);
    return kick.at && !coil ? [] : [{ red, black, coil, onApproach, place: kick.place }];
  });
  const metalNets = new Set(loose.metal.map(({ net }) => pointOf(net)));
  const free = [...loose.leads.values()].filter(({ what, ends }) => what === 'conductor' && ends.length === 0);
  const netOfLead = (node: string) => loose.netOf(node) ?? -1;
  const untraced = [...new Set(free.map(({ node }) => pointOf(netOfLead(node))))].filter((net) => !metalNets.has(net));
  const others = [...loose.leads.values()]
    .filter(({ what, ends }) => what === 'shield' || (what !== 'tap' && ends.length > 0))
    .map(({ node }) => pointOf(netOfLead(node)));
  return {
    coils: pickup.coils.map((coil) => coilEvidence(coil, quick, loose, bench, pointOf)),
    untraced,
    others: [...new Set(others)].filter((point) => !untraced.includes(point)),
    readings: read.map((each) => ({ ...each, a: pointOf(each.a), b: pointOf(each.b) })).filter(({ a, b }) => a !== b),
    kicks: measured,
    onMetal: free.flatMap(({ name, node }) => onMetal(name, netOfLead(node), loose, read)),
    nameOf: (point) => nameOf(point, loose, pointOf),
  };
}

type ReadLine = ReadingOf<'resistance'>;

/**
 * A block that names hot or ground was read with the leads joined: it says nothing of single leads. One of a former state counts where
 * every coil was kept.
 */
function looseLines(life: PickupLife): readonly { readonly line: ReadLine; readonly block: Readings }[] {
  const joined = ({ parts }: LeadPath) => parts.length === 1 && (parts[0] === 'hot' || parts[0] === 'ground');
  const coils = life.states[0]?.pickup.coils ?? [];
  return life.blocks.flatMap((dated) => {
    const { block } = dated;
    const lines = block.lines.filter((line) => line.kind === 'resistance');
    const isJoined = lines.some(({ probes }) => joined(probes.red) || joined(probes.black));
    return isJoined || !coils.every(({ name }) => countsNow(life, name, dated))
      ? []
      : lines.map((line) => ({ line, block }));
  });
}

/** Kicks of coils as they are now, over the magnet as it is: over one turned since they read the other way round. */
function kicksNow(life: PickupLife): readonly { readonly kick: ReadingOf<'kick'>; readonly turned: boolean }[] {
  const coils = life.states[0]?.pickup.coils ?? [];
  return life.blocks.flatMap((dated) =>
    dated.block.lines.flatMap((kick) => {
      if (kick.kind !== 'kick') return [];
      const name = kick.at?.text ?? (coils.length === 1 ? coils[0]?.name : undefined);
      if (name === undefined) return dated.worksAgo === 0 ? [{ kick, turned: false }] : [];
      const turned = turnedSince(life, name, dated.worksAgo);
      return turned === undefined || !countsNow(life, name, dated) ? [] : [{ kick, turned }];
    }),
  );
}

/** `undefined`: the magnet was exchanged since, or nobody says what became of it. */
function turnedSince({ states }: PickupLife, name: string, worksAgo: number): boolean | undefined {
  let turned = false;
  for (const { pickup } of states.slice(0, worksAgo)) {
    const coil = pickup.coils.find((each) => each.name === name);
    const work = coil && magnetWorkAt(coil, pickup);
    if (work !== 'kept' && work !== 'turned') return undefined;
    if (work === 'turned') turned = !turned;
  }
  return turned;
}

function pairReading(
  line: ReadLine,
  block: Readings,
  loose: PickupNetlist,
  bench: Bench | undefined,
): PairReading | undefined {
  const [a, b] = pointsOf(line.probes, loose);
  if (a === undefined || b === undefined) return undefined;
  const { value, place } = line;
  if (value === 'open' || value.si >= OPEN_FROM_OHM) return { a, b, at20COhm: null, limitOhm: 0, place };
  const { celsius, sdK } = readingTemperature(line.atC, block, bench);
  const factor = copperTemperatureFactor(celsius);
  const perKelvin = copperTemperatureFactor(21) - 1;
  const limitOhm =
    readingLimitOhm(benchMeter(bench), value.si) + PROBES_OHM + READING_SPREAD_SD * perKelvin * sdK * value.si;
  return { a, b, at20COhm: value.si / factor, limitOhm, place };
}

const pointsOf = ({ red, black }: Probes, loose: PickupNetlist) => [loose.netAt(red), loose.netAt(black)] as const;

/** Nets that read nearly nothing between them are one point. */
function unions(read: readonly PairReading[]): (net: number) => Point {
  const points = disjointSets(Math.max(0, ...read.flatMap(({ a, b }) => [a + 1, b + 1])));
  for (const { a, b, at20COhm } of read) if (at20COhm !== null && at20COhm < SHORT_OHM) points.unite(a, b);
  return points.find;
}

function onMetal(lead: string, net: number, loose: PickupNetlist, read: readonly PairReading[]): Evidence['onMetal'] {
  return loose.metal.flatMap(({ fitting, name, net: metal }) =>
    read.flatMap(({ a, b, at20COhm, place }) => {
      const touches = (a === net && b === metal) || (b === net && a === metal);
      return touches && fitting !== 'shield' && at20COhm !== null && at20COhm < SHORT_OHM
        ? [{ lead, part: name, place }]
        : [];
    }),
  );
}

function nameOf(point: Point, loose: PickupNetlist, pointOf: (net: number) => Point): string {
  const nodes = loose.nets.filter(({ index }) => pointOf(index) === point).flatMap((net) => net.nodes);
  const node = nodes.find((each) => each.startsWith('lead:')) ?? nodes[0] ?? '';
  return node.slice(node.indexOf(':') + 1);
}

function coilEvidence(
  coil: Coil,
  quick: QuickEstimates,
  loose: PickupNetlist,
  bench: Bench | undefined,
  pointOf: (net: number) => Point,
): CoilEvidence {
  const { pickup } = loose;
  const winding = loose.windings.find((each) => each.coil === coil);
  const point = (net: number | undefined, stated: unknown) =>
    stated !== undefined && net !== undefined ? pointOf(net) : undefined;
  const shown = shownPole(quick.life, coil);
  return {
    coil,
    start: point(winding?.start, coil.start),
    finish: point(winding?.finish, coil.finish),
    taps: [...(winding?.taps ?? [])]
      .sort((a, b) => a.turns - b.turns)
      .map(({ net, turns }) => ({
        point: pointOf(net),
        shareFromStart:
          (coil.counted ?? coil.turns)
            ? wireShareOf(
                { source: '', coil, fromTurn: 0, toTurn: turns, start: '', finish: '' },
                quick.windings.get(coil),
              )
            : undefined,
      })),
    wind: declaredRotation(coil)?.sign,
    pole: declaredPolarity(coil, pickup)?.sign ?? shown,
    ohm20C: ownResistance(coil, quick, bench),
  };
}

/** By a compass, over the magnet as it is. */
function shownPole(life: PickupLife, { name }: Coil): Sign | undefined {
  for (const { block, worksAgo } of life.blocks.toReversed()) {
    const compass = block.lines.find((line) => line.kind === 'compass' && line.coil.text === name);
    const turned = turnedSince(life, name, worksAgo);
    if (compass?.kind === 'compass' && turned !== undefined)
      return turned ? oppositeSign(poleSign(compass.shows)) : poleSign(compass.shows);
  }
  return undefined;
}

/** A coil read by itself, the newest reading last; else what its turns compute to. */
function ownResistance(coil: Coil, quick: QuickEstimates, bench: Bench | undefined): CoilEvidence['ohm20C'] {
  // What a pair of leads read is evidence of its own here.
  const reads = (quick.life.reads.get(coil) ?? []).filter(({ line }) => line.kind === 'coil resistance');
  const own = readingUpTo({ ...quick.life, reads: new Map([[coil, reads]]) }, coil, undefined, bench)?.at20COhm;
  const known = own ?? quick.windings.get(coil)?.computed20COhm;
  return known && known.value > 0 ? { value: known.value, limit: READING_SPREAD_SD * known.sd } : undefined;
}
