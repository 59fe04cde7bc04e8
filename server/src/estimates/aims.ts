/** What a pickup's target asks for, and whether the build reaches it: reached, missed, or not decidable within the uncertainty. */

import type { Quantity } from '../../../grammar/values/quantity.ts';
import { onceFor } from '../../../grammar/values/remember.ts';
import { type Bench, benchRoomC } from '../model/bench.ts';
import { pickupNetlist } from '../model/netlist.ts';
import type { AimKind, Pickup } from '../model/pickup.ts';
import type { Place } from '../model/place.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import { difference, type Estimate, ratio, scale, sum } from '../quantities/estimate.ts';
import { shareBetween } from '../quantities/normal.ts';
import {
  TARGET_DECIDED_FROM,
  TARGET_TOLERANCE,
  TARGET_TOLERANCE_DB,
  TARGET_TOLERANCE_MISMATCH,
} from './common-practice.ts';
import type { PickupEstimates } from './estimates.ts';
import { magnetLevelDb } from './magnet-estimates.ts';
import { outputChange } from './output-change.ts';
import { pickupEstimates, quickPickupEstimates } from './pickup-estimates.ts';
import { type QuickEstimates, quickEstimates } from './quick.ts';

/** One line of a target. */
export interface Aim {
  readonly kind: AimKind;
  /** As it is written: `2.4 kHz`. */
  readonly written: string;
  /** In SI; of two coils, how many turns more the one has, as a share of the other's. */
  readonly wanted: number;
  /** How far from it the build may come out, either way; hum may come out lower by any amount. */
  readonly tolerance: number;
  /** What its deviation, in tolerances, counts beside that of the others. */
  readonly weight: number;
  readonly place: Place;
  /** The two coils, or the pickup that the output is told against. */
  readonly between?: { readonly coil: string; readonly other: string };
  readonly against?: Pickup;
  /** Of a resonance and its height. */
  readonly load?: 'loaded' | 'unloaded';
}

/** JCGM 106:2012, 7: a statement of conformity rests on the probability that the value lies within its tolerance. */
export type Verdict = 'reached' | 'missed' | 'not decidable';

export interface JudgedAim {
  readonly aim: Aim;
  /** Where a resistance is read, degC. */
  readonly roomC: number;
  /** `null`: the response has no peak; `undefined`: not known. */
  readonly reached: Estimate | null | undefined;
  /** That the build as stated lies within the tolerance, 0 to 1; where it is known. */
  readonly odds: number | undefined;
  readonly verdict: Verdict | undefined;
}

/** Of more important ones each deviation counts ten times that of the next. */
const COUNTS_TEN_TIMES = 100;

export const aimsOf = onceFor(({ target, coils }: Pickup): readonly Aim[] => {
  if (!target) return [];
  const first = target.first?.value ?? [];
  const aim = (
    kind: AimKind,
    { value, place }: { readonly value: Quantity; readonly place: Place },
    more: Partial<Aim> = {},
  ): Aim => {
    const rank = first.indexOf(kind);
    return {
      kind,
      written: value.written,
      wanted: value.si,
      tolerance: value.sd ?? usualTolerance(kind, value.si),
      weight: rank < 0 ? 1 : COUNTS_TEN_TIMES ** (first.length - rank),
      place,
      ...more,
    };
  };
  const { resistance, inductance, resonance, peak, output, hum, mismatch } = target;
  const load = resonance?.value.load ?? 'loaded';
  return [
    ...(resistance ? [aim('resistance', resistance)] : []),
    ...(inductance ? [aim('inductance', inductance)] : []),
    ...(resonance ? [aim('resonance', { value: resonance.value.frequency, place: resonance.place }, { load })] : []),
    ...(peak ? [aim('peak', peak, { load })] : []),
    ...(output?.value.against
      ? [aim('output', { value: output.value.level, place: output.place }, { against: output.value.against })]
      : []),
    ...(hum ? [aim('hum', hum)] : []),
    ...mismatch.flatMap(({ value: { coil, percent, order, other }, place }) => {
      const isKnown = [coil, other].every(({ value }) => coils.some(({ name }) => name === value));
      const wanted = order === 'heavier' ? percent.si : -percent.si;
      const between = { coil: coil.value, other: other.value };
      return isKnown ? [aim('mismatch', { value: percent, place }, { wanted, between })] : [];
    }),
  ];
});

function usualTolerance(kind: AimKind, wanted: number): number {
  if (kind === 'hum') return 0;
  if (kind === 'peak' || kind === 'output') return TARGET_TOLERANCE_DB;
  return kind === 'mismatch' ? TARGET_TOLERANCE_MISMATCH : TARGET_TOLERANCE * wanted;
}

/** Those that ask for no inductance. */
const isQuick = ({ kind }: Aim): boolean => kind === 'resistance' || kind === 'mismatch';

/** What can be judged with the findings. */
export const quickAims = onceFor((quick: QuickEstimates, bench: Bench | undefined): readonly JudgedAim[] =>
  aimsOf(quick.netlist.pickup)
    .filter(isQuick)
    .map((aim) =>
      judged(
        aim,
        figureOf(aim, quick, bench, () => quickPickupEstimates(quick)),
        bench,
      ),
    ),
);

/** All targets of a pickup with what the build comes to. */
export const judgedAims = onceFor((quick: QuickEstimates, bench: Bench | undefined): readonly JudgedAim[] => {
  let made: PickupEstimates | undefined;
  const estimates = () => {
    made ??= pickupEstimates(quick, bench);
    return made;
  };
  return aimsOf(quick.netlist.pickup).map((aim) => judged(aim, figureOf(aim, quick, bench, estimates), bench));
});

/** Those of its coils' turns: what they say of two coils is meant. */
export const isMeantUnlike = (quick: QuickEstimates, bench: Bench | undefined): boolean =>
  quickAims(quick, bench).some(({ aim, verdict }) => aim.kind === 'mismatch' && verdict && verdict !== 'missed');

function judged(aim: Aim, reached: Estimate | null | undefined, bench: Bench | undefined): JudgedAim {
  const roomC = benchRoomC(bench);
  if (reached === undefined) return { aim, roomC, reached, odds: undefined, verdict: undefined };
  const odds = reached === null ? 0 : oddsOf(aim, reached);
  return { aim, roomC, reached, odds, verdict: verdictOf(odds) };
}

export const verdictOf = (odds: number): Verdict =>
  odds >= TARGET_DECIDED_FROM ? 'reached' : odds <= 1 - TARGET_DECIDED_FROM ? 'missed' : 'not decidable';

/** The limits that a number may come out between. */
export const limitsOf = ({ kind, wanted, tolerance }: Aim): { readonly least: number; readonly most: number } => ({
  least: kind === 'hum' ? Number.NEGATIVE_INFINITY : wanted - slack(tolerance, wanted),
  most: wanted + slack(tolerance, wanted),
});

/** What is exactly on the limit is not to fall behind it by rounding. */
const slack = (tolerance: number, wanted: number): number => tolerance + 1e-9 * Math.max(1e-3, Math.abs(wanted));

const oddsOf = (aim: Aim, reached: Pick<Estimate, 'value' | 'sd'>): number =>
  aim.kind === 'hum' ? humOdds(aim, reached) : shareBetween(limitsOf(aim), reached);

/** Near a null the amplitudes are normal, not their level: the deviation says up to which level one of them more would bring it. */
function humOdds(aim: Aim, { value, sd }: Pick<Estimate, 'value' | 'sd'>): number {
  const size = (db: number): number => 10 ** (db / 20);
  const most = size(limitsOf(aim).most);
  return shareBetween({ least: -most, most }, { value: size(value), sd: size(value + sd) - size(value) });
}

function figureOf(
  { kind, between, against }: Aim,
  quick: QuickEstimates,
  bench: Bench | undefined,
  estimates: () => PickupEstimates,
): Estimate | null | undefined {
  switch (kind) {
    case 'resistance': {
      const { resistance20COhm } = quick;
      return resistance20COhm && scale(resistance20COhm, copperTemperatureFactor(benchRoomC(bench)));
    }
    case 'inductance':
      return estimates().inductanceH;
    case 'resonance':
      return estimates().resonanceHz;
    case 'peak':
      return estimates().resonanceHz === null ? null : estimates().peakDb;
    case 'hum':
      return estimates().humDb;
    case 'output':
      return against && louderThan(quick, against, bench);
    case 'mismatch':
      return between && heavierBy(quick, between);
  }
}

const quickUnder = onceFor((pickup: Pickup, bench: Bench | undefined) => quickEstimates(pickupNetlist(pickup), bench));

/** By the coils, and by the magnets where the fields of both are known. */
function louderThan(quick: QuickEstimates, other: Pickup, bench: Bench | undefined): Estimate | undefined {
  const byCoils = outputChange(quickUnder(other, bench), quick)?.difference;
  const [own, its] = [magnetLevelDb(quick.netlist.pickup), magnetLevelDb(other)];
  return byCoils && own && its ? sum(byCoils, difference(own, its)) : byCoils;
}

/** Turns of a coil over another's, less one. */
function heavierBy(quick: QuickEstimates, { coil, other }: NonNullable<Aim['between']>): Estimate | undefined {
  const turnsOf = (name: string) => [...quick.windings].find(([{ name: own }]) => own === name)?.[1].turns;
  const [one, two] = [turnsOf(coil), turnsOf(other)];
  if (!one || !two) return undefined;
  const share = ratio(one, two);
  return { ...share, value: share.value - 1 };
}

/** How far a number lies from what is wanted, in tolerances; hum only where it is above. No peak is beyond any tolerance. */
export function deviationOf({ kind, wanted, tolerance }: Aim, reached: number | null | undefined): number {
  if (reached === undefined) return 0;
  if (reached === null) return NO_PEAK;
  if (kind === 'hum') return Math.max(0, reached - wanted) / (tolerance || TARGET_TOLERANCE_DB);
  return (reached - wanted) / Math.max(tolerance, 1e-6 * Math.abs(wanted));
}

const NO_PEAK = 100;

/** The deviations of several targets together, each by what it counts; 1: as far as one tolerance. */
export function distanceOf(aims: readonly Aim[], deviations: readonly number[]): number {
  const all = aims.reduce((sum, { weight }) => sum + weight, 0);
  if (all === 0) return 0;
  return Math.sqrt(aims.reduce((sum, { weight }, index) => sum + weight * (deviations[index] ?? 0) ** 2, 0) / all);
}
