/**
 * Readings of inductance in the place of what is computed: of one coil, of all between hot and ground, or of some coils between two other
 * points. What was read together is shared out as turns, poles and the distance of the coils are known (see quantities/sums-read.ts).
 */
import type { Coil } from '../model/coil.ts';
import type { ReadingOf } from '../model/readings.ts';
import { type Estimate, estimateOf, linear, named, product } from '../quantities/estimate.ts';
import { givenSums } from '../quantities/sums-read.ts';
import { causes, coilPath, pieceName } from './causes.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { READING_SPREAD_SD } from './common-practice.ts';
import { inductanceAtLowFrequency, magneticSubject, newestMagnetic } from './measured-magnetics.ts';
import { ownCable } from './own-cable.ts';
import { type QuickEstimates, resistanceOf } from './quick.ts';
import { sweptBetween, sweptMutual, sweptNumbers } from './sweeps-used.ts';
import { couplingRelativeSd, type WholePickup, wholeBetween, wholePickup } from './whole-pickup.ts';

export function withInductancesRead(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const own = coilsRead(computed, quick);
  const lines = linesTogether(quick);
  if (own.size === 0 && lines.length === 0) return computed;
  const alone = withCoils(computed, quick, own, 0);
  const [a, b] = own.keys();
  const isCouplingSwept = a !== undefined && b !== undefined && sweptMutual(quick)(a, b) !== undefined;
  const rows = lines.flatMap(({ read: readOf, nets, isWhole, isSwept }) => {
    const between = wholeBetween(quick, alone, nets);
    const read = between.inductanceH && readOf(between);
    const allRead = [...between.slopes.keys()].every((coil) => own.has(coil));
    // Where nothing is left to share out but their coupling, only a sweep tells it, and of the stated directions only; not where all
    // sweeps together have told it.
    const ownSum = (between.inductanceH?.value ?? 0) - between.mutualH;
    const tellsCoupling =
      isSwept && !isCouplingSwept && read !== undefined && (read.value - ownSum) * between.mutualH > 0;
    return read ? [{ read, nets, isWhole, isShared: !allRead || tellsCoupling }] : [];
  });
  const shared = rows.filter(({ isShared }) => isShared);
  const result = shared.length === 0 ? alone : sharedOut(computed, quick, own, shared);
  const whole = rows.find(({ isWhole }) => isWhole);
  return whole ? { ...result, inductanceH: whole.read } : result;
}

/** The newest reading of each coil by itself; a sweep before a line. */
function coilsRead({ coils, lostShare }: PickupMagnetics, quick: QuickEstimates) {
  const { netlist, windings } = quick;
  return new Map(
    [...coils].flatMap(([coil, { totalH, capacitances }]) => {
      const isOnly = netlist.pickup.coils.length === 1;
      const swept =
        sweptNumbers(quick, coil).inductanceH ?? (isOnly ? sweptNumbers(quick, 'whole').inductanceH : undefined);
      if (swept) return [[coil, swept] as const];
      const line = newestMagnetic(netlist, 'inductance', coil);
      const ohm = windings.get(coil)?.resistance20COhm?.value ?? 0;
      return line && totalH.value > 0
        ? [[coil, inductanceAtLowFrequency(line, { ohm, farad: capacitances.windingF.value }, lostShare)] as const]
        : [];
    }),
  );
}

interface LineTogether {
  readonly read: (between: WholePickup) => Estimate;
  readonly nets: readonly [number, number];
  readonly isWhole: boolean;
  readonly isSwept: boolean;
}

/** Of several coils at once, hot to ground first, else the newest first; sweeps before lines. */
function linesTogether(quick: QuickEstimates): readonly LineTogether[] {
  const { netlist } = quick;
  const { hot, ground } = netlist;
  const output = hot === undefined || ground === undefined ? undefined : ([hot, ground] as const);
  const lines = netlist.pickup.readings
    .filter(({ found }) => !found)
    .flatMap((block) =>
      block.lines.flatMap((line): LineTogether[] => {
        if (line.kind !== 'inductance') return [];
        const subject = magneticSubject(line, block, netlist);
        const nets = subject === 'whole' ? output : subject && 'nets' in subject ? subject.nets : undefined;
        if (!nets) return [];
        return [
          {
            read: (between) => readBetween(line, between, quick, nets),
            nets,
            isWhole: subject === 'whole',
            isSwept: false,
          },
        ];
      }),
    )
    .reverse();
  const swept = sweptNumbers(quick, 'whole').inductanceH;
  const all: readonly LineTogether[] = [
    ...(swept && output ? [{ read: () => swept, nets: output, isWhole: true, isSwept: true }] : []),
    ...sweptBetween(quick).map(({ inductanceH, nets }) => ({
      read: () => inductanceH,
      nets,
      isWhole: false,
      isSwept: true,
    })),
    ...lines.filter(({ isWhole }) => !(isWhole && swept)),
  ];
  return [...all.filter(({ isWhole }) => isWhole), ...all.filter(({ isWhole }) => !isWhole)];
}

function readBetween(
  line: ReadingOf<'inductance'>,
  { capacitanceF, lostShare }: WholePickup,
  { netlist, windings }: QuickEstimates,
  [hot, ground]: readonly [number, number],
): Estimate {
  const ohm = resistanceOf(netlist, windings, hot, ground)?.value ?? 0;
  const measuredF = [hot, ground].every((net) => net === netlist.hot || net === netlist.ground)
    ? newestMagnetic(netlist, 'capacitance', 'whole')?.value.si
    : undefined;
  const read = inductanceAtLowFrequency(line, { ohm, farad: measuredF ?? capacitanceF?.value ?? 0 }, lostShare);
  const { red, black } = line.probes;
  return named(read, causes.readTogether(`of inductance ${red.text} to ${black.text}`, pieceName(netlist.pickup)));
}

/** Coils with other inductances; a coupling goes with the roots of both, and with the distance of the coils. */
function withCoils(
  computed: PickupMagnetics,
  quick: QuickEstimates,
  henries: ReadonlyMap<Coil, Estimate>,
  coupling: number,
): PickupMagnetics {
  const stretch = (coil: Coil) => {
    const [now, before] = [henries.get(coil)?.value, computed.coils.get(coil)?.totalH.value];
    return now !== undefined && before ? Math.sqrt(Math.max(0, now / before)) : 1;
  };
  const swept = sweptMutual(quick);
  const changed = {
    ...computed,
    coils: new Map(
      [...computed.coils].map(([coil, each]) => [coil, { ...each, totalH: henries.get(coil) ?? each.totalH }]),
    ),
    mutualSameSenseH: (a: Coil, b: Coil) =>
      swept(a, b) ?? computed.mutualSameSenseH(a, b) * (1 + coupling) * stretch(a) * stretch(b),
  };
  const { inductanceH, capacitanceF, lostShare } = wholePickup(quick, changed, ownCable(quick.netlist.pickup));
  return { ...changed, inductanceH, capacitanceF, lostShare };
}

/** Couplings and roots bend the sum: it is met within so many rounds. */
const ROUNDS = 6;

function sharedOut(
  computed: PickupMagnetics,
  quick: QuickEstimates,
  own: ReadonlyMap<Coil, Estimate>,
  rows: readonly { readonly read: Estimate; readonly nets: readonly [number, number] }[],
): PickupMagnetics {
  const { pickup } = quick.netlist;
  const coils = [...computed.coils.keys()].filter((coil) => !own.has(coil));
  const apart = estimateOf(0, {
    sd: couplingRelativeSd(pickup),
    basis: 'assumed',
    source: causes.coilsApart(pieceName(pickup)),
  });
  let result = withCoils(computed, quick, own, 0);
  const wrong = wrongBy(result, quick, rows);
  const before = coils.map((coil) => {
    const henry = computed.coils.get(coil)?.totalH ?? NOTHING;
    return named(product(henry, wrong), causes.partOf(coilPath(pickup, coil)));
  });
  let coupling = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const sums = rows.map(({ read, nets }) => {
      const { slopes, mutualH } = wholeBetween(quick, result, nets);
      const fixed = [...own].map(([coil, henry]) => ({ henry, slope: slopes.get(coil) ?? 0 }));
      // The inductance is the sum of slopes times coils, and moves with the coupling about what that is taken to be now.
      const byCoupling = mutualH / (1 + coupling);
      const now = estimateOf(byCoupling * coupling, { basis: 'computed' });
      return {
        weights: [...coils.map((coil) => slopes.get(coil) ?? 0), byCoupling],
        read: linear([read, now, ...fixed.map(({ henry }) => henry)], [1, 1, ...fixed.map(({ slope }) => -slope)]),
      };
    });
    const parts = givenSums([...before, apart], sums);
    coupling = parts[coils.length]?.value ?? 0;
    const henries = coils.map((coil, index) => [coil, parts[index] ?? NOTHING] as const);
    result = withCoils(computed, quick, new Map([...own, ...henries]), coupling);
  }
  return result;
}

const NOTHING = estimateOf(0, { basis: 'assumed' });

/**
 * Where a reading is not what was wound, shorted turns or other wire say, nobody knows of which coil: then all share what is missing by
 * their inductances.
 */
function wrongBy(
  magnetics: PickupMagnetics,
  quick: QuickEstimates,
  rows: readonly { readonly read: Estimate; readonly nets: readonly [number, number] }[],
): Estimate {
  const misses = rows.map(({ read, nets }) => {
    const { inductanceH } = wholeBetween(quick, magnetics, nets);
    if (
      !inductanceH ||
      Math.abs(read.value - inductanceH.value) <= READING_SPREAD_SD * Math.hypot(read.sd, inductanceH.sd)
    )
      return 0;
    return Math.abs(read.value / inductanceH.value - 1);
  });
  return estimateOf(1, { sd: FAR * Math.max(0, ...misses), basis: 'assumed', source: causes.unknown });
}

/** A miss, so many times over, is any factor. */
const FAR = 30;
