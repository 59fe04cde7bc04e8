/** What a measured coil has that a sound one of its turns and metal would not: shorted turns, something across, other metal. */
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { type Taken, takenBy } from '../physics/sweep/coil-form.ts';
import type { MeasuredCurve, RecorderInput } from '../physics/sweep/sweep-problem.ts';
import { resistanceSeen } from '../physics/sweep/sweep-start.ts';
import type { Estimate } from '../quantities/estimate.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { CAUSE_FITS_WITHIN, LOSS_SHARE_RELATIVE_SD } from './common-practice.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import type { QuickEstimates } from './quick.ts';
import { computedBeside, LOSS_TOLD_HZ, lossToldOf } from './sweep-comparison.ts';
import { isCoil, measuredCurve, recorderInput } from './sweep-set-up.ts';
import type { Swept, SweptCoil } from './sweeps-measured.ts';
import { sweptOf } from './sweeps-together.ts';

/** The last sweep of each two points: what was found before counts until it was measured again. */
export function newestSwept({ netlist, bench }: QuickEstimates): readonly Swept[] {
  const all = sweptOf(netlist, bench);
  const points = ({ group }: Swept) => {
    const [first] = group.sweeps;
    return [first?.probes.red.text, first?.probes.black.text].sort().join(' ');
  };
  return all.filter((each, index) => !all.slice(index + 1).some((later) => points(later) === points(each)));
}

/** The coil that was swept by itself. */
export function coilSwept({ group }: Pick<Swept, 'group'>, { coils }: Pickup): Coil | undefined {
  if (isCoil(group.subject)) return group.subject;
  return group.subject === 'whole' && coils.length === 1 ? coils[0] : undefined;
}

export interface ShortedTurns {
  readonly coil: Coil;
  /** Of the turns, by the corner of their loop. */
  readonly share: number;
  /** The same by the resistance that is missing. */
  readonly missing: Estimate;
  /** Above it they take most of the inductance. */
  readonly cornerHz: number;
  readonly quality: { readonly measured: Estimate; readonly resistance: Estimate; readonly computed: Estimate };
}

/**
 * Turns shorted in themselves are a loop that couples nearly wholly with the rest. With the share s of the turns the rest has the
 * resistance R' = R (1 − s), the inductance L' = L (1 − s)², and the loop the corner R s/(2π L s²), so s = 1/(1 + 2π corner L'/R'). The
 * metal of a cover knows nothing of the coil's R and L: told are shorted turns where what is missing of both agrees.
 */
export function shortedTurns(swept: SweptCoil, quick: QuickEstimates): ShortedTurns | undefined {
  const coil = coilSwept(swept, quick.netlist.pickup);
  const { fit, losses, resistanceOhm, resistance20COhm, inductanceH, quality1kHz } = swept;
  if (!coil || swept.verdict === 'does not hold' || (fit.form !== 'loop' && fit.form !== 'two loops')) return undefined;
  const [loop] = [...(losses?.loops ?? [])].sort((a, b) => b.squaredCoupling - a.squaredCoupling);
  if (!loop || loop.squaredCoupling < LEAST_COUPLING) return undefined;
  const share = 1 / (1 + (2 * Math.PI * loop.cornerHz * inductanceH.value) / resistanceOhm.value);
  const computed = computedBeside(swept, quick.netlist, quick.bench);
  const [wholeOhm, wholeHenry] = [computed.resistance20COhm, computed.inductanceH];
  if (!wholeOhm || !wholeHenry || share < LEAST_SHARE || share > MOST_SHARE) return undefined;
  const left = resistance20COhm.value / wholeOhm.value;
  const sd = left * Math.hypot(wholeOhm.sd / wholeOhm.value, resistance20COhm.sd / resistance20COhm.value);
  const missing: Estimate = { value: 1 - left, sd, basis: 'reading', restsOn: resistance20COhm.restsOn };
  const henryLeft = inductanceH.value / wholeHenry.value;
  const agrees =
    Math.abs(missing.value - share) < 2 * sd + CAUSE_FITS_WITHIN &&
    Math.abs(henryLeft - (1 - share) ** 2) < 3 * henryLeft * (wholeHenry.sd / wholeHenry.value) + CAUSE_FITS_WITHIN;
  if (!agrees) return undefined;
  return {
    coil,
    share,
    missing,
    cornerHz: loop.cornerHz,
    quality: { measured: quality1kHz, resistance: resistance20COhm, computed: wholeOhm },
  };
}

/** Metal couples with a coil less than a part of its own turns. */
const LEAST_COUPLING = 0.7;
const LEAST_SHARE = 0.003;
const MOST_SHARE = 0.6;

export interface OtherLosses {
  /** All that was swept together. */
  readonly coils: readonly Coil[];
  readonly measured: SweptLosses;
  readonly computed: ComputedLosses;
  /** Measured over computed, of what they take at low frequency. */
  readonly times: number;
}

export type SweptLosses = NonNullable<SweptCoil['losses']>;

/** Metal that takes another part of the inductance than what is stated computes to, beyond what is known of either. */
export function otherLosses(swept: SweptCoil, quick: QuickEstimates): OtherLosses | undefined {
  const measured = lossesTold(swept, quick);
  const magnetics = computedMagnetics(quick);
  const expected = measured && takenIn(swept, quick, magnetics);
  if (!expected) return undefined;
  const [now, then] = [takenBy(measured.loops, LOSS_TOLD_HZ), expected(LOSS_TOLD_HZ)];
  const computed = inAll(expected);
  const most = ({ lost, resists = 0 }: Taken) => Math.max(lost, resists);
  const apart = most({
    lost: Math.abs(now.lost - then.lost),
    resists: then.resists === undefined ? 0 : Math.abs((now.resists ?? 0) - then.resists),
  });
  const unsure = Math.hypot(lossRelativeSd(magnetics), measured.share.sd / measured.share.value);
  if (apart < LEAST_APART || apart < 3 * unsure * most(then)) return undefined;
  const { pickup } = quick.netlist;
  const coil = coilSwept(swept, pickup);
  return {
    coils: coil ? [coil] : pickup.coils,
    measured,
    computed,
    times: computed.share > 0 ? now.lost / then.lost : Number.POSITIVE_INFINITY,
  };
}

export interface ComputedLosses {
  readonly share: number;
  readonly cornerHz: number;
}

/** What metal takes, as stated and as swept: at `LOSS_TOLD_HZ`, where the two are held against each other, and as stated in all. */
export function lossesBeside(swept: SweptCoil, quick: QuickEstimates) {
  const magnetics = computedMagnetics(quick);
  const expected = takenIn(swept, quick, magnetics);
  const there = lossToldOf(swept);
  if (!expected) return { measured: there };
  const relativeSd = lossRelativeSd(magnetics);
  const computed = (value: number): Estimate => ({ value, sd: relativeSd * value, basis: 'computed', restsOn: [] });
  const { share, cornerHz } = inAll(expected);
  return {
    measured: there,
    computed: computed(expected(LOSS_TOLD_HZ).lost),
    inAll: { share: computed(share), cornerHz },
  };
}

function inAll(expected: (hz: number) => Taken): ComputedLosses {
  const [high, low] = [expected(FAR_HZ), expected(LOW_HZ)];
  return {
    share: high.lost,
    cornerHz: low.lost > 0 ? LOW_HZ * Math.sqrt(high.lost / low.lost) : Number.POSITIVE_INFINITY,
  };
}

/** How well the share of computed losses is known. */
export const lossRelativeSd = (magnetics: PickupMagnetics): number =>
  Math.hypot(magnetics.eddies().losses.sd, LOSS_SHARE_RELATIVE_SD);

/** Losses that can be held against metal: told, and not those of shorted turns. */
function lossesTold(swept: SweptCoil, quick: QuickEstimates): SweptLosses | undefined {
  const { losses, verdict, tooWeak } = swept;
  if (!losses || verdict === 'does not hold' || tooWeak.includes('losses')) return undefined;
  return shortedTurns(swept, quick) ? undefined : losses;
}

/** Of what was swept, as its metal computes to; `undefined` where its coils are not known. */
export function takenIn(
  swept: SweptCoil,
  quick: QuickEstimates,
  magnetics: PickupMagnetics,
): ((hz: number) => Taken) | undefined {
  const coil = coilSwept(swept, quick.netlist.pickup);
  if (coil) {
    if (!magnetics.coils.has(coil)) return undefined;
    const loops = magnetics.eddies().turns.flatMap(({ cornerHz, beside }) => {
      const coupling = beside.get(coil)?.coupling;
      return coupling === undefined ? [] : [{ cornerHz, squaredCoupling: coupling ** 2 }];
    });
    return (hz) => takenBy(loops, hz);
  }
  if (swept.group.subject !== 'whole' || !magnetics.inductanceH) return undefined;
  return (hz) => ({ lost: magnetics.lostShare(hz) });
}

/** Far above every corner, and below them. */
const FAR_HZ = 1e7;
const LOW_HZ = 50;
/** A difference that moves a peak by some tenths of a decibel. */
const LEAST_APART = 0.02;

/** Another way to have recorded a sweep, by which its low end shows what a meter read. */
export interface OtherSetUp {
  readonly by: 'through' | 'over';
  readonly times: number;
}

/** The other side of the resistor, or a resistor ten times as large or small; one change before two. */
function otherSetUpsOf(curve: MeasuredCurve, recorder: RecorderInput, ohm: number, within: number) {
  if (curve.kind !== 'through' && curve.kind !== 'over') return [];
  const stated = curve.kind;
  const other = stated === 'through' ? 'over' : 'through';
  const tried: readonly OtherSetUp[] = [
    { by: other, times: 1 },
    ...[10, 0.1, 100, 0.01].map((times) => ({ by: stated, times }) as const),
    ...[10, 0.1].map((times) => ({ by: other, times }) as const),
  ];
  return tried.filter(({ by, times }) => {
    const seen = resistanceSeen({ ...curve, kind: by, seriesOhm: curve.seriesOhm * times }, recorder);
    return seen !== undefined && Math.abs(Math.log(seen / ohm)) < within;
  });
}

/** By which the low end would show what a meter read. */
export const otherSetUps = ({ curve, sweeps, readOhm }: Extract<Swept, { kind: 'set-up' }>): readonly OtherSetUp[] =>
  otherSetUpsOf(curve, sweeps.recorder, readOhm, LIKE_READ);

/** Of a curve that is none of a coil, and beside which no meter read: by which the low end would show what the winding computes to. */
export function otherSetUpsOfWinding(
  swept: Swept,
  quick: QuickEstimates,
): { readonly curve: MeasuredCurve; readonly others: readonly OtherSetUp[] } | undefined {
  const [sweep, ...more] = swept.group.sweeps;
  const { resistance20COhm } = computedBeside(swept, quick.netlist, quick.bench);
  if (!sweep || more.length > 0 || !resistance20COhm) return undefined;
  const curve = measuredCurve(sweep);
  const { value, sd } = resistance20COhm;
  return { curve, others: otherSetUpsOf(curve, recorderInput(quick.bench), value, LIKE_READ + (3 * sd) / value) };
}

/** Resistors of the usual tolerance and a meter agree within this. */
const LIKE_READ = 0.1;
