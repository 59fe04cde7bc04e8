/**
 * Sweeps of several coils of a pickup, some by themselves and some as they are joined, looked at as one: one resistor and one recorder for
 * all, each coil one coil wherever it lies, and what the coils couple.
 */
import { onceFor } from '../../../grammar/values/remember.ts';
import type { Bench } from '../model/bench.ts';
import { type Coil, servesDifferentStrings } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { sweepsOf } from '../model/sweeps.ts';
import { type CoilForm, type MetalLoop, metalPartsOf } from '../physics/sweep/coil-form.ts';
import type { CoilsJoined, NetworkCoil, ProbedCircuit } from '../physics/sweep/coil-network.ts';
import type { Noise } from '../physics/sweep/scatter.ts';
import { lossesFrom, partOfFit, type SweepFit } from '../physics/sweep/sweep-fit.ts';
import type { SweepsOfCoil } from '../physics/sweep/sweep-problem.ts';
import { sharedTurns } from '../physics/sweep/terminals.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { ownCable } from './own-cable.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';
import { isCoil } from './sweep-set-up.ts';
import {
  rememberedFit,
  type Swept,
  type SweptCoil,
  sweepWords,
  sweptEach,
  sweptFigures,
  verdictOf,
  withFit,
} from './sweeps-measured.ts';
import { aloneCircuit, circuitBetween, coilsSwept } from './swept-circuit.ts';

export interface SweptTogether {
  readonly swept: readonly Swept[];
  readonly coupled: readonly CoupledCoils[];
  /** Shorted turns that stand for the metal; none where the coupling was not swept. */
  readonly metal: readonly SweptTurn[];
}

/** A shorted turn beside coils that were swept together, its coupling with each counted from start to finish. */
export interface SweptTurn {
  readonly cornerHz: number;
  readonly couplings: ReadonlyMap<Coil, number>;
}

/** Mutual inductance from start to finish of both: above 0 where a current through both in that sense makes more field than through each. */
export interface CoupledCoils {
  readonly coils: readonly [Coil, Coil];
  readonly mutualH: Estimate;
}

/** Every group of sweeps of a pickup, in the order of its blocks. */
export const sweptOf = (netlist: PickupNetlist, bench: Bench | undefined): readonly Swept[] =>
  sweptTogether(netlist, bench).swept;

export const sweptTogether = onceFor((netlist: PickupNetlist, bench: Bench | undefined): SweptTogether => {
  const apart = sweptEach(netlist, bench);
  if (netlist.pickup.coils.length < 2) return { swept: apart, coupled: [], metal: [] };
  const states = statesOf(apart).flatMap((state) => fittedTogether(state, netlist, bench) ?? []);
  const together = new Map(states.flatMap(({ parts }) => [...parts]));
  const last = states.findLast(({ coupled }) => coupled.length > 0);
  return {
    swept: apart.map((each) => together.get(each.group) ?? each),
    coupled: last?.coupled ?? [],
    metal: last?.metal ?? [],
  };
});

/** Why a sweep beside others of its pickup is looked at by itself, where it is. */
export function lookedAtAlone(swept: Swept, netlist: PickupNetlist): 'exciter' | 'tap' | undefined {
  const { group } = swept;
  const hasOthers = sweepsOf(netlist.pickup).length > group.sweeps.length;
  if (swept.kind !== 'coil' || !hasOthers || group.subject === undefined) return undefined;
  if (group.sweeps.some(({ setUp }) => setUp.kind === 'excited')) return 'exciter';
  const isTapped = netlist.windings.some(({ taps }) => taps.length > 0);
  return isTapped && coilsSwept(group, netlist).length === 0 ? 'tap' : undefined;
}

function fittedTogether(state: readonly SweptCoil[], netlist: PickupNetlist, bench: Bench | undefined) {
  // A coil that was swept alone may not have been in its pickup at all: where something is left, nothing hung beside it.
  const asDeclared = fitOfPlan(planOf(state, netlist, bench, 'in the pickup'));
  const isFound = asDeclared && asDeclared.fit.reducedChiSquared < LEAVES_NOTHING;
  const byThemselves = isFound ? undefined : fitOfPlan(planOf(state, netlist, bench, 'by themselves'));
  const found = [asDeclared, byThemselves].flatMap((each) => each ?? []);
  if (found.length === 0) return undefined;
  const { plan, fit } = found.reduce((best, each) =>
    each.fit.reducedChiSquared < best.fit.reducedChiSquared ? each : best,
  );
  const isJoined = plan.groups.some(({ live }) => live.length > 1);
  // With no sweep of both nothing else tells a false minimum.
  if (!isJoined && !(fit.reducedChiSquared < LEAVES_NOTHING)) return undefined;
  const parts = plan.groups.map((each) => ({ own: each.swept, part: partOf(each, plan, fit) }));
  // A fit of all that takes from one what it gives to another has not found their circuit.
  const isWorse = parts.some(({ own, part }) => RANKS[part.verdict] > RANKS[own.verdict]);
  if (isWorse || RANKS[verdictOf(fit)] > Math.max(...parts.map(({ own }) => RANKS[own.verdict]))) return undefined;
  const told = new Map(parts.map(({ own, part }) => [own.group, part]));
  // Of coils that no sweep is of alone nothing is told but what is read between their points; which way round one couples to one that
  // only lies beside it, no sweep tells.
  if (!plan.joined.isCouplingFree || plan.known.length > 0 || !isJoined) return { parts: told, coupled: [], metal: [] };
  const turns = sharedTurns(fit.form, plan.joined, fit.problem.network, fit.values);
  const metal = turns.map(({ cornerHz, couplings }) => ({
    cornerHz,
    couplings: new Map(plan.coils.map((coil, at) => [coil, couplings[at] ?? 0])),
  }));
  return { parts: told, coupled: coupledIn(plan, fit), metal };
}

const LEAVES_NOTHING = 1.2;

function fitOfPlan(plan: Plan | undefined) {
  const fit = plan && rememberedFit(plan.sweeps);
  return fit && { plan, fit };
}

const RANKS: Readonly<Record<SweptCoil['verdict'], number>> = { holds: 0, doubtful: 1, 'does not hold': 2 };

interface PlannedGroup {
  readonly swept: SweptCoil;
  readonly live: readonly Coil[];
  readonly circuit: number;
  /** The circuit of the coil alone, which it is told to be; its own where several are swept. */
  readonly toldAs: number;
}

interface Plan {
  readonly groups: readonly PlannedGroup[];
  readonly coils: readonly Coil[];
  /** Coils that no sweep is of alone: they differ as they are computed to. */
  readonly known: readonly Coil[];
  readonly joined: CoilsJoined;
  readonly sweeps: SweepsOfCoil;
}

/**
 * Coils of which each was swept alone as it lies among the others, or apart from them all. `undefined` where nothing is gained: no sweep of
 * several coils and none that does not hold by itself, or too little known of them.
 */
function planOf(
  state: readonly SweptCoil[],
  netlist: PickupNetlist,
  bench: Bench | undefined,
  where: 'in the pickup' | 'by themselves',
): Plan | undefined {
  const found = state.map((swept) => ({ swept, live: coilsSwept(swept.group, netlist) }));
  // Of two that were swept each alone, the other one rings along by its own capacitance where it lies beside.
  const isBeside = where === 'in the pickup' && isRingingAlong(found, netlist);
  const coils = netlist.pickup.coils.filter((coil) =>
    found.some(({ live }) => (isBeside || live.length > 1) && live.includes(coil)),
  );
  const used = found.filter(({ live }) => live.length > 0 && live.every((coil) => coils.includes(coil)));
  const alone = new Map(used.flatMap(({ swept, live }) => (live.length === 1 && live[0] ? [[live[0], swept]] : [])));
  const several = used.filter(({ live }) => live.length > 1);
  const known = coils.filter((coil) => !alone.has(coil));
  if (several.length === 0 && !isBeside) return undefined;
  const quick = quickEstimates(netlist, bench);
  const computed = { quick, magnetics: computedMagnetics(quick) };
  const circuits: ProbedCircuit[] = coils.map((_, coil) => aloneCircuit(coil));
  const groups = used.flatMap(({ swept, live }): readonly PlannedGroup[] => {
    const toldAs = live.length === 1 && live[0] ? coils.indexOf(live[0]) : circuits.length;
    if (live.length === 1 && where === 'by themselves') return [{ swept, live, circuit: toldAs, toldAs }];
    const circuit = circuitBetween(swept.group, coils, netlist, computed.magnetics);
    return circuit ? [{ swept, live, circuit: circuits.push(circuit) - 1, toldAs }] : [];
  });
  if (groups.length < used.length) return undefined;
  const isCouplingFree = isBeside || several.length > (known.length > 0 ? 1 : 0);
  // Of two coils that were swept by themselves no coupling needs to be computed.
  const areTold = known.length === 0 && coils.length === 2;
  const sets = setsOf(coils, alone, computed, where);
  const pairs = areTold ? [{ a: 0, b: 1, coupling: 1, isMetalShared: true }] : couplingsOf(coils, computed, known);
  if (!sets || !pairs) return undefined;
  const cable = ownCable(netlist.pickup);
  const joined: CoilsJoined = {
    coils: sets.coils,
    pairs,
    isCouplingFree,
    // Beside coils that were swept alone the cable is seen: of one that nobody stated nothing is taken to be known.
    cableSd:
      alone.size > 0 && cable.value > 0 ? (netlist.pickup.cable ? cable.sd / cable.value : ANY_CABLE) : undefined,
    circuits,
    start: {
      forms: formsFrom(
        used.map(({ swept }) => swept),
        sets.starts,
      ),
      couplings: areTold ? couplingsToTry(several[0]?.swept, [...alone.values()]) : [1],
      noise: noiseOf(groups),
    },
  };
  return { groups, coils, known, joined, sweeps: sweepsTogether(groups, joined) };
}

/** Whether both coils of a pickup were swept each alone only, and one of them does not look like one coil. */
const isRingingAlong = (
  found: readonly { readonly swept: SweptCoil; readonly live: readonly Coil[] }[],
  { pickup }: PickupNetlist,
): boolean =>
  pickup.coils.length === 2 &&
  pickup.coils.every((coil) => found.some(({ live }) => live.includes(coil))) &&
  found.every(({ live }) => live.length === 1) &&
  found.some(({ swept }) => swept.verdict !== 'holds');

/**
 * From 0 a coupling may settle far off: begun with is what both together have more or less than each alone, about as much and either way; in
 * parallel, where that is no measure, some tenth.
 */
function couplingsToTry(together: SweptCoil | undefined, alone: readonly SweptCoil[]): readonly number[] {
  const [a = 1, b = 1] = alone.map(({ inductanceH }) => inductanceH.value);
  const more = (together?.inductanceH.value ?? 0) - a - b;
  const isSeries = more > -(a + b) / 2;
  const coupling = isSeries ? Math.min(MOST_COUPLING, Math.abs(more) / (2 * Math.sqrt(a * b))) : USUAL_COUPLING;
  return [0, 1, 2, 0.5, -1, -2, -0.5].map((times) => times * coupling);
}

const MOST_COUPLING = 0.45;
const USUAL_COUPLING = 0.1;

interface SetStart {
  readonly coil: readonly [ohm: number, henry: number, farad: number];
  readonly swept: SweptCoil | undefined;
}

/** The forms that hold of one sweep at least, else that of the best of them; each set from its own sweep, else from the best. */
function formsFrom(swept: readonly SweptCoil[], sets: readonly SetStart[]): NonNullable<CoilsJoined['start']>['forms'] {
  const left = ({ fit: { rest, scatter } }: SweptCoil) => rest / scatter;
  const best = swept.reduce((low, each) => (left(each) < left(low) ? each : low));
  const holding = swept.filter(({ verdict }) => verdict === 'holds');
  // Where another coil rang along, what one coil's circuit took for metal was none.
  if (best.verdict === 'does not hold')
    return USUAL_FORMS.map((form) => ({
      form,
      sets: sets.map(({ coil }) => [...coil.map(Math.log), ...usualLosses(form)]),
    }));
  const forms = new Set([best, ...holding].flatMap(({ fit }) => [fit.form, fit.rival?.problem.form ?? fit.form]));
  // What takes more than one loop of one coil takes three where several are seen at once.
  if ([...forms].some((form) => metalPartsOf(form) > 1)) forms.add('three loops');
  // The fullest tells how much the others have to leave as little as.
  const fullestFirst = [...forms].sort((a, b) => metalPartsOf(b) - metalPartsOf(a));
  return fullestFirst.map((form) => ({
    form,
    sets: sets.map(({ coil, swept: own }) => [
      ...coil.map(Math.log),
      ...lossesLike(form, own?.verdict === 'holds' ? own : best, best),
    ]),
  }));
}

function lossesLike(form: CoilForm, own: SweptCoil, best: SweptCoil): readonly number[] {
  const alike = [own, best].find(({ fit }) => fit.form === form);
  const found = own.losses?.loops ?? [];
  const tried = (alike ?? (form === 'three loops' && found.length > 2 ? undefined : own))?.fit.losses.get(form);
  if (tried) return tried;
  if (form === 'three loops' && found.length > 2) return threeLoopsLike(found);
  const { share, cornerHz } = own.losses ?? {};
  const taken = Math.min(0.9, Math.max(0.01, share?.value ?? 0.05));
  const [first] = lossesFrom(form, Math.log(taken / (1 - taken)), Math.log(cornerHz?.value ?? USUAL_CORNER_HZ));
  return first;
}

/** The two whose corners lie nearest as one, until three are left. */
function threeLoopsLike(found: readonly MetalLoop[]): readonly number[] {
  const loops = found.toSorted((a, b) => a.cornerHz - b.cornerHz);
  while (loops.length > 3) {
    const ratios = loops.slice(1).map(({ cornerHz }, at) => cornerHz / (loops[at]?.cornerHz ?? 1));
    const at = ratios.indexOf(Math.min(...ratios));
    const pair = loops.slice(at, at + 2);
    const squaredCoupling = pair.reduce((sum, each) => sum + each.squaredCoupling, 0);
    const log = pair.reduce((sum, each) => sum + each.squaredCoupling * Math.log(each.cornerHz), 0) / squaredCoupling;
    loops.splice(at, 2, { squaredCoupling, cornerHz: Math.exp(log) });
  }
  return loops.flatMap(({ squaredCoupling: k, cornerHz }) => [Math.log(k / (1 - k)), Math.log(cornerHz)]);
}

const USUAL_CORNER_HZ = 8000;
const USUAL_SHARE = 0.1;
const USUAL_FORMS: readonly CoilForm[] = ['three loops', 'two loops', 'core', 'loop'];

const usualLosses = (form: CoilForm): readonly number[] =>
  lossesFrom(form, Math.log(USUAL_SHARE / (1 - USUAL_SHARE)), Math.log(USUAL_CORNER_HZ))[0];

/** A logarithm: between a third and three times the usual. */
const ANY_CABLE = 1;

/**
 * Sweeps after the work, as the pickup was swept: where two points are swept once more, something was done in between, and what was swept
 * before is of another state. An exciter's say nothing of coils that are joined.
 */
function statesOf(apart: readonly Swept[]): readonly (readonly SweptCoil[])[] {
  const fitted = apart.filter(
    (each): each is SweptCoil =>
      each.kind === 'coil' &&
      !each.group.block.found &&
      each.group.subject !== undefined &&
      each.group.sweeps.every(({ setUp }) => setUp.kind !== 'excited'),
  );
  const pointsOf = ({ group: { subject } }: SweptCoil) =>
    typeof subject === 'object' && !isCoil(subject) ? [...subject.nets].sort().join() : subject;
  const states: SweptCoil[][] = [];
  for (const each of fitted) {
    const state = states.at(-1);
    if (state?.every((other) => pointsOf(other) !== pointsOf(each))) state.push(each);
    else states.push([each]);
  }
  return states;
}

interface Computed {
  readonly quick: QuickEstimates;
  readonly magnetics: PickupMagnetics;
}

/** A set for each coil that was swept alone, one for all others; `undefined` where these are not known. */
function setsOf(
  coils: readonly Coil[],
  alone: ReadonlyMap<Coil, SweptCoil>,
  computed: Computed,
  where: 'in the pickup' | 'by themselves',
): { readonly coils: readonly NetworkCoil[]; readonly starts: readonly SetStart[] } | undefined {
  const numbers = coils.map((coil) => {
    const swept = alone.get(coil);
    const magnetic = computed.magnetics.coils.get(coil);
    // In the pickup what stands about a coil was swept with it.
    const windingF = where === 'in the pickup' ? magnetic?.capacitances.windingF.value : undefined;
    const ohm = computed.quick.windings.get(coil)?.resistance20COhm?.value;
    if (swept)
      return {
        ohm: swept.resistance20COhm.value,
        henry: swept.inductanceH.value,
        farad: windingF ?? swept.capacitanceF.value,
      };
    return magnetic && ohm !== undefined
      ? { ohm, henry: magnetic.totalH.value, farad: magnetic.capacitances.windingF.value }
      : undefined;
  });
  const starts: SetStart[] = [];
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
    const set = starts.push({ coil: [each.ohm, each.henry, each.farad], swept: alone.get(coil) }) - 1;
    if (!alone.has(coil)) others = { set, ...each };
    return [{ set, ohm: 1, henry: 1, farad: 1 }];
  });
  return made.length === coils.length ? { coils: made, starts } : undefined;
}

/** Metal of coils under different strings is none of the other's; of more than two it is only asked for where each was swept alone. */
function couplingsOf(
  coils: readonly Coil[],
  { magnetics, quick }: Computed,
  known: readonly Coil[],
): CoilsJoined['pairs'] | undefined {
  const windOf = (coil: Coil) => quick.signs.find((each) => each.coil === coil)?.wind?.sign ?? 1;
  const pairs = coils.flatMap((first, a) =>
    coils.slice(a + 1).flatMap((second, index) => {
      const [one, other] = [magnetics.coils.get(first)?.totalH.value, magnetics.coils.get(second)?.totalH.value];
      if (!one || !other) return [];
      const henry = magnetics.mutualSameSenseH(first, second) * windOf(first) * windOf(second);
      const areSwept = !known.includes(first) && !known.includes(second);
      const isMetalShared = (coils.length === 2 || areSwept) && !servesDifferentStrings(first, second);
      return [{ a, b: a + 1 + index, coupling: henry / Math.sqrt(one * other), isMetalShared }];
    }),
  );
  return pairs.length === (coils.length * (coils.length - 1)) / 2 ? pairs : undefined;
}

function sweepsTogether(groups: readonly PlannedGroup[], joined: CoilsJoined): SweepsOfCoil {
  const placed = groups.map(({ swept, circuit, toldAs }) => {
    const copper = copperTemperatureFactor(swept.atC);
    return {
      curves: swept.sweeps.curves
        .filter(({ kind }) => kind !== 'alone')
        .map((curve) => ({ ...curve, circuit, toldAs, copper })),
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

/** What the points of each curve scattered by where it was fitted by itself, in the order of the curves. */
function noiseOf(groups: readonly PlannedGroup[]): readonly Noise[] {
  const noise = (areAlone: boolean) =>
    groups.flatMap(({ swept: { sweeps, fit } }) =>
      sweeps.curves.flatMap(({ kind }, at) => ((kind === 'alone') === areAlone ? (fit.noise[at] ?? []) : [])),
    );
  return [...noise(false), ...noise(true).slice(0, 1)];
}

const NO_RECORDER = { ohm: 1, ohmSd: 1, farad: 1, faradSd: 1 };

/** One group's numbers out of the fit of all. */
function partOf({ swept, circuit }: PlannedGroup, { sweeps }: Plan, fit: SweepFit): SweptCoil {
  const places = sweeps.curves.flatMap((curve, index) =>
    curve.kind === 'alone' || curve.circuit === circuit ? [index] : [],
  );
  return withFit(swept, partOfFit(fit, sweeps, places));
}

function coupledIn({ coils, groups: [first], groups, joined }: Plan, fit: SweepFit): readonly CoupledCoils[] {
  if (!first) return [];
  const restsOn = groups.map(({ swept }) => sweepWords(swept.group));
  const mutuals = sweptFigures({ group: first.swept.group, fit }, (values, { network }) => {
    network.take(values);
    const of = ({ a, b, coupling }: CoilsJoined['pairs'][number]) => {
      const henries = (network.models[a]?.henry ?? 0) * (network.models[b]?.henry ?? 0);
      return coupling * (values[network.couplingAt] ?? 0) * Math.sqrt(henries);
    };
    return Object.fromEntries(joined.pairs.map((pair, at) => [at, of(pair)]));
  });
  return joined.pairs.flatMap(({ a, b }, at): readonly CoupledCoils[] => {
    const [one, other, mutualH] = [coils[a], coils[b], mutuals[at]];
    return one && other && mutualH ? [{ coils: [one, other], mutualH: { ...mutualH, restsOn } }] : [];
  });
}
