/** What sweeps measured beside what is computed, and beside what was measured before. */
import type { Bench } from '../model/bench.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import { takenBy } from '../physics/sweep/coil-form.ts';
import { changeOf, type JoinedFits, joinedFits } from '../physics/sweep/shared-set-up.ts';
import type { SweepFit } from '../physics/sweep/sweep-fit.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';
import { isCoil } from './sweep-set-up.ts';
import { type Swept, type SweptCoil, sweptEach, sweptFigure, withFit } from './sweeps-measured.ts';
import { holdingSweep } from './sweeps-used.ts';

type Numbers = Partial<Record<'inductanceH' | 'capacitanceF' | 'resistance20COhm' | 'quality1kHz', Estimate>>;

/** The same numbers as the spec computes them, nothing measured in their place. */
export function computedBeside(
  { group }: Pick<Swept, 'group'>,
  netlist: PickupNetlist,
  bench: Bench | undefined,
): Numbers {
  const { pickup } = netlist;
  // A coil's resistance is computed from turns where a reading stands beside.
  const bare = { ...netlist, pickup: { ...pickup, readings: [] } };
  const quick = quickEstimates(bare, bench);
  const computed = computedMagnetics(quick);
  const { subject } = group;
  if (subject === 'whole')
    return given({
      inductanceH: computed.inductanceH,
      capacitanceF: computed.capacitanceF,
      resistance20COhm: quick.resistance20COhm ?? undefined,
    });
  if (!isCoil(subject)) return {};
  const own = computed.coils.get(subject);
  return given({
    inductanceH: own?.totalH,
    capacitanceF: own?.capacitances.windingF,
    resistance20COhm: quick.windings.get(subject)?.resistance20COhm,
  });
}

const given = (numbers: { readonly [K in keyof Numbers]: Estimate | undefined }): Numbers =>
  Object.fromEntries(Object.entries(numbers).filter(([, value]) => value !== undefined));

/** The same points swept before and after some work, by one set-up. */
export interface SweptPair extends JoinedFits {
  readonly swept: { readonly before: SweptCoil; readonly after: SweptCoil };
}

const pairOf = (before: SweptCoil, after: SweptCoil): SweptPair => {
  const joined = joinedFits(before.fit, after.fit);
  return { ...joined, swept: { before: withFit(before, joined.before), after: withFit(after, joined.after) } };
};

/** Whether numbers of it can be told at all: of an exciter alone they cannot. */
const tells = (each: Swept): each is SweptCoil =>
  each.kind === 'coil' && each.verdict !== 'does not hold' && !each.tooWeak.includes('inductance');

/**
 * Of each two points that were swept more than once, the newest against the one before. Both by the same circuit, that of one coil: what
 * it is not wholly is in both alike, where a fit of all coils at once may have been had of one of them only.
 */
export function sweptPairs({ netlist, bench }: Pick<QuickEstimates, 'netlist' | 'bench'>): readonly SweptPair[] {
  const coils = sweptEach(netlist, bench).filter(tells);
  return coils.flatMap((after, index) => {
    const isSame = (each: SweptCoil) => each.group.subject !== undefined && each.group.subject === after.group.subject;
    const before = coils.slice(0, index).filter(isSame).at(-1);
    const isLast = !coils.slice(index + 1).some(isSame);
    return before && isLast ? [pairOf(before, after)] : [];
  });
}

/** The whole pickup as it was swept last, beside the time before. */
export const sweptTwice = (quick: QuickEstimates): SweptPair | undefined =>
  sweptPairs(quick).find(({ swept }) => swept.after.group.subject === 'whole');

/** Two states of a pickup, each as it was swept last. `undefined` where one was not, or where both rest on the same curves. */
export function sweptInBoth(was: QuickEstimates, now: QuickEstimates): SweptPair | undefined {
  const [before, after] = [was, now].map(wholeApart);
  return before && after && !isSameSweep(before, after) ? pairOf(before, after) : undefined;
}

function wholeApart(quick: QuickEstimates): SweptCoil | undefined {
  const used = holdingSweep(quick, 'whole');
  return sweptEach(quick.netlist, quick.bench)
    .filter(tells)
    .find(({ group }) => group === used?.group);
}

const isSameSweep = (a: SweptCoil, b: SweptCoil): boolean =>
  JSON.stringify(curvesOf(a)) === JSON.stringify(curvesOf(b));

const curvesOf = ({ group }: SweptCoil) =>
  group.sweeps.map(({ curve: { hz, magnitude, phase }, setUp }) => ({ hz, magnitude, phase, setUp: setUp.kind }));

/** In the middle of what is heard of a resonance: here what metal takes is told. */
export const LOSS_TOLD_HZ = 3000;

export const lossToldOf = (swept: SweptCoil): Estimate =>
  sweptFigure(swept, (values, problem) => takenBy(problem.terminalsAt(values, 0).loops, LOSS_TOLD_HZ).lost);

export type SweptChanges = Record<'inductanceH' | 'capacitanceF' | 'resistance20COhm' | 'lossAt3kHz', Estimate>;

/** What changed from one to the other; what both share cancels. The quality is none of it: it goes with the temperature. */
export function changesOf(pair: SweptPair): SweptChanges {
  const { swept } = pair;
  const restsOn = [...swept.before.inductanceH.restsOn, ...swept.after.inductanceH.restsOn];
  const estimate = (f: Parameters<typeof changeOf>[1]): Estimate => {
    const { value, sd } = changeOf(pair, f);
    return estimateOf(value, { sd, basis: 'reading', restsOn });
  };
  const cold = (fit: SweepFit) => {
    const { resistanceOhm, resistance20COhm } = fit === pair.before ? swept.before : swept.after;
    return resistance20COhm.value / resistanceOhm.value;
  };
  return {
    inductanceH: estimate((values, { problem }) => problem.terminalsAt(values, 0).henry),
    capacitanceF: estimate((values, { problem }) => problem.terminalsAt(values, 0).farad),
    resistance20COhm: estimate((values, fit) => fit.problem.terminalsAt(values, 0).ohm * cold(fit)),
    lossAt3kHz: estimate((values, { problem }) => takenBy(problem.terminalsAt(values, 0).loops, LOSS_TOLD_HZ).lost),
  };
}
