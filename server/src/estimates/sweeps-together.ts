/**
 * Sweeps of several coils of a pickup, some by themselves and some as they are joined, looked at as one: one resistor and one recorder for
 * all, each coil one coil wherever it lies, and what the coils couple.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Bench } from '../model/bench.ts';
import type { Coil } from '../model/coil.ts';
import { type PickupNetlist, probedNets } from '../model/netlist.ts';
import type { CoilsJoined, NetworkCoil, ProbedCircuit } from '../physics/sweep/coil-network.ts';
import { partOfFit, type SweepFit } from '../physics/sweep/sweep-fit.ts';
import type { SweepsOfCoil } from '../physics/sweep/sweep-problem.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { ownCable } from './own-cable.ts';
import { coilsBetween } from './pickup-circuit.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';
import { isCoil } from './sweep-set-up.ts';
import {
  rememberedFit,
  type Swept,
  type SweptCoil,
  sweepWords,
  sweptApart,
  sweptFigure,
  verdictOf,
  withFit,
} from './sweeps-measured.ts';

export interface SweptTogether {
  readonly swept: readonly Swept[];
  readonly pairs: readonly SweptPair[];
}

/** Mutual inductance from start to finish of both: above 0 where a current through both in that sense makes more field than through each. */
export interface SweptPair {
  readonly coils: readonly [Coil, Coil];
  readonly mutualH: Estimate;
}

/** Every group of sweeps of a pickup, in the order of its blocks. */
export const sweptOf = (netlist: PickupNetlist, bench: Bench | undefined): readonly Swept[] =>
  sweptTogether(netlist, bench).swept;

export const sweptTogether = onceFor((netlist: PickupNetlist, bench: Bench | undefined): SweptTogether => {
  const apart = sweptApart(netlist, bench);
  const nothing: SweptTogether = { swept: apart, pairs: [] };
  const plan = netlist.pickup.coils.length > 1 ? planOf(apart, netlist, bench) : undefined;
  if (!plan) return nothing;
  const fit = rememberedFit(plan.sweeps);
  if (!fit || RANKS[verdictOf(fit)] > Math.max(...plan.groups.map(({ swept }) => RANKS[swept.verdict]))) return nothing;
  const together = new Map(plan.groups.map((each) => [each.swept.group, partOf(each, plan, fit)]));
  return {
    swept: apart.map((each) => together.get(each.group) ?? each),
    pairs: plan.joined.isCouplingFree && plan.known.length === 0 ? pairsOf(plan, fit) : [],
  };
});

const RANKS: Readonly<Record<SweptCoil['verdict'], number>> = { holds: 0, doubtful: 1, 'does not hold': 2 };

interface PlannedGroup {
  readonly swept: SweptCoil;
  readonly circuit: number;
}

interface Plan {
  readonly groups: readonly PlannedGroup[];
  readonly coils: readonly Coil[];
  /** Coils that no sweep is of alone: they differ as they are computed to. */
  readonly known: readonly Coil[];
  readonly joined: CoilsJoined;
  readonly sweeps: SweepsOfCoil;
}

/** `undefined` where nothing is gained: no sweep of several coils, or too little known of them. */
function planOf(apart: readonly Swept[], netlist: PickupNetlist, bench: Bench | undefined): Plan | undefined {
  const found = newestOf(apart).flatMap((swept) => {
    const live = liveCoils(swept, netlist);
    return live.length > 0 ? [{ swept, live }] : [];
  });
  const coils = netlist.pickup.coils.filter((coil) => found.some(({ live }) => live.length > 1 && live.includes(coil)));
  const used = found.filter(({ live }) => live.every((coil) => coils.includes(coil)));
  const alone = new Map(used.flatMap(({ swept, live }) => (live.length === 1 && live[0] ? [[live[0], swept]] : [])));
  const several = used.filter(({ live }) => live.length > 1);
  const known = coils.filter((coil) => !alone.has(coil));
  if (several.length === 0) return undefined;
  // Where the formula of one coil leaves nothing, the coils that it stands for are not seen.
  if (used.length === 1 && leavesNothing(several[0]?.swept)) return undefined;
  const circuits = used.map(({ swept, live }) => circuitOf(swept, live, coils, netlist));
  if (circuits.some((each) => each === undefined)) return undefined;
  const isCouplingFree = several.length > (known.length > 0 ? 1 : 0);
  const needsComputed = known.length > 0 || coils.length > 2;
  const quick = needsComputed ? quickEstimates(netlist, bench) : undefined;
  const computed = quick && { quick, magnetics: computedMagnetics(quick) };
  const sets = setsOf(coils, alone, computed);
  const pairs = couplingsOf(coils, computed);
  if (!sets || !pairs) return undefined;
  const cable = ownCable(netlist.pickup);
  const joined: CoilsJoined = {
    coils: sets.coils,
    pairs,
    isCouplingFree,
    // Beside coils that were swept alone the cable is seen: of one that nobody stated nothing is taken to be known.
    cableSd:
      alone.size > 0 && cable.value > 0 ? (netlist.pickup.cable ? cable.sd / cable.value : ANY_CABLE) : undefined,
    circuits: circuits.flatMap((each) => each ?? []),
    start: { sets: sets.start, coupling: computed ? 1 : 0 },
  };
  const groups = used.map(({ swept }, circuit) => ({ swept, circuit }));
  return { groups, coils, known, joined, sweeps: sweepsTogether(groups, joined) };
}

/** A logarithm: between a third and three times the usual. */
const ANY_CABLE = 1;

const leavesNothing = (swept: SweptCoil | undefined): boolean =>
  swept !== undefined && swept.fit.rest < 1.2 * swept.fit.scatter;

/** Of each two points the last sweep after the work; an exciter's says nothing of coils that are joined. */
function newestOf(apart: readonly Swept[]): readonly SweptCoil[] {
  const fitted = apart.filter(
    (each): each is SweptCoil =>
      each.kind === 'coil' &&
      !each.group.block.found &&
      each.group.subject !== undefined &&
      each.group.sweeps.every(({ setUp }) => setUp.kind !== 'excited'),
  );
  const pointsOf = ({ group: { subject } }: SweptCoil) =>
    typeof subject === 'object' && !isCoil(subject) ? [...subject.nets].sort().join() : subject;
  return fitted.filter((each, index) => !fitted.slice(index + 1).some((later) => pointsOf(later) === pointsOf(each)));
}

/** What lies between the points of a sweep; none where a coil is tapped there. */
function liveCoils({ group }: SweptCoil, netlist: PickupNetlist): readonly Coil[] {
  const { subject } = group;
  if (isCoil(subject)) return [subject];
  const nets = netsOf(group, netlist);
  const coils = nets ? coilsBetween(netlist, nets) : [];
  return coils.some(({ taps }) => taps.length > 0) ? [] : coils;
}

function netsOf({ subject, sweeps }: SweptCoil['group'], netlist: PickupNetlist) {
  const [first] = sweeps;
  const { hot, ground } = netlist;
  if (subject === 'whole') return hot === undefined || ground === undefined ? undefined : ([hot, ground] as const);
  return first && probedNets(first.probes, netlist);
}

function circuitOf(
  { group }: SweptCoil,
  live: readonly Coil[],
  coils: readonly Coil[],
  netlist: PickupNetlist,
): ProbedCircuit | undefined {
  if (live.length === 1) {
    const coil = coils.findIndex((each) => live.includes(each));
    return { nodes: 2, coils: [{ coil, start: 1, finish: 0 }], capacitors: [] };
  }
  const nets = netsOf(group, netlist);
  if (!nets) return undefined;
  const [red, black] = nets;
  const nodes = new Map([
    [black, 0],
    [red, 1],
  ]);
  const nodeOf = (net: number) => {
    // What goes to the instrument's ground by itself is ground once the pickup is fitted.
    const meant = net === netlist.chassis && netlist.ground !== undefined ? netlist.ground : net;
    const known = nodes.get(meant) ?? nodes.size;
    nodes.set(meant, known);
    return known;
  };
  const placed = netlist.windings.flatMap(({ coil, start, finish }) =>
    live.includes(coil) && start !== undefined && finish !== undefined
      ? [{ coil: coils.indexOf(coil), start: nodeOf(start), finish: nodeOf(finish) }]
      : [],
  );
  if (placed.length < live.length) return undefined;
  const [hot, ground] = [netlist.hot, netlist.ground].map((net) => (net === undefined ? undefined : nodes.get(net)));
  const farad = ownCable(netlist.pickup).value;
  const hasCable = hot !== undefined && ground !== undefined && hot !== ground && farad > 0;
  return {
    nodes: nodes.size,
    coils: placed,
    capacitors: hasCable ? [{ from: hot, to: ground, farad, scaledBy: 'cable' }] : [],
  };
}

interface Computed {
  readonly quick: QuickEstimates;
  readonly magnetics: PickupMagnetics;
}

/** A set for each coil that was swept alone, one for all others; `undefined` where these are not known. */
function setsOf(
  coils: readonly Coil[],
  alone: ReadonlyMap<Coil, SweptCoil>,
  computed: Computed | undefined,
): { readonly coils: readonly NetworkCoil[]; readonly start: readonly (readonly number[])[] } | undefined {
  const numbers = coils.map((coil) => {
    const swept = alone.get(coil);
    if (swept)
      return {
        ohm: swept.resistance20COhm.value,
        henry: swept.inductanceH.value,
        farad: swept.capacitanceF.value,
      };
    const magnetic = computed?.magnetics.coils.get(coil);
    const ohm = computed?.quick.windings.get(coil)?.resistance20COhm?.value;
    if (!magnetic || ohm === undefined) return undefined;
    return { ohm, henry: magnetic.totalH.value, farad: magnetic.capacitances.windingF.value };
  });
  const start: number[][] = [];
  let others:
    | { readonly set: number; readonly ohm: number; readonly henry: number; readonly farad: number }
    | undefined;
  const made = coils.flatMap((coil, index): readonly NetworkCoil[] => {
    const each = numbers[index];
    if (!each || !(each.ohm > 0 && each.henry > 0 && each.farad > 0)) return [];
    if (!alone.has(coil) && others)
      return [
        {
          set: others.set,
          ohm: each.ohm / others.ohm,
          henry: each.henry / others.henry,
          farad: each.farad / others.farad,
        },
      ];
    const set = start.push([Math.log(each.ohm), Math.log(each.henry), Math.log(each.farad)]) - 1;
    if (!alone.has(coil)) others = { set, ...each };
    return [{ set, ohm: 1, henry: 1, farad: 1 }];
  });
  return made.length === coils.length ? { coils: made, start } : undefined;
}

/** Of two coils that were swept by themselves nothing needs to be computed. */
function couplingsOf(coils: readonly Coil[], computed: Computed | undefined): CoilsJoined['pairs'] | undefined {
  if (!computed) return [{ a: 0, b: 1, coupling: 1 }];
  const { magnetics, quick } = computed;
  const windOf = (coil: Coil) => quick.signs.find((each) => each.coil === coil)?.wind?.sign ?? 1;
  const pairs = coils.flatMap((first, a) =>
    coils.slice(a + 1).flatMap((second, index) => {
      const [one, other] = [magnetics.coils.get(first)?.totalH.value, magnetics.coils.get(second)?.totalH.value];
      if (!one || !other) return [];
      const henry = magnetics.mutualSameSenseH(first, second) * windOf(first) * windOf(second);
      return [{ a, b: a + 1 + index, coupling: henry / Math.sqrt(one * other) }];
    }),
  );
  return pairs.length === (coils.length * (coils.length - 1)) / 2 ? pairs : undefined;
}

function sweepsTogether(groups: readonly PlannedGroup[], joined: CoilsJoined): SweepsOfCoil {
  const placed = groups.map(({ swept, circuit }) => {
    const copper = copperTemperatureFactor(swept.atC);
    return {
      curves: swept.sweeps.curves
        .filter(({ kind }) => kind !== 'alone')
        .map((curve) => ({ ...curve, circuit, copper })),
      dc: swept.sweeps.dc.map((read) => ({ ...read, circuit, copper })),
      recorder: swept.sweeps.recorder,
    };
  });
  const [first] = placed;
  const recorderAlone = groups.flatMap(({ swept }) => swept.sweeps.curves.filter(({ kind }) => kind === 'alone'));
  return {
    curves: [...placed.flatMap(({ curves }) => curves), ...recorderAlone.slice(0, 1)],
    recorder: first?.recorder ?? groups[0]?.swept.sweeps.recorder ?? NO_RECORDER,
    dc: placed.flatMap(({ dc }) => dc),
    joined,
  };
}

const NO_RECORDER = { ohm: 1, ohmSd: 1, farad: 1, faradSd: 1 };

/** One group's numbers out of the fit of all. */
function partOf({ swept, circuit }: PlannedGroup, { sweeps }: Plan, fit: SweepFit): SweptCoil {
  const places = sweeps.curves.flatMap((curve, index) =>
    curve.kind === 'alone' || curve.circuit === circuit ? [index] : [],
  );
  return withFit(swept, partOfFit(fit, sweeps, places));
}

function pairsOf({ coils, groups: [first], groups, joined }: Plan, fit: SweepFit): readonly SweptPair[] {
  if (!first) return [];
  const restsOn = groups.map(({ swept }) => sweepWords(swept.group));
  return joined.pairs.flatMap(({ a, b, coupling }): readonly SweptPair[] => {
    const [one, other] = [coils[a], coils[b]];
    if (!one || !other) return [];
    const mutualH = sweptFigure({ group: first.swept.group, fit }, (values, { network }) => {
      network.take(values);
      const henries = (network.models[a]?.henry ?? 0) * (network.models[b]?.henry ?? 0);
      return coupling * (values[network.couplingAt] ?? 0) * Math.sqrt(henries);
    });
    return [{ coils: [one, other], mutualH: { ...mutualH, restsOn } }];
  });
}
