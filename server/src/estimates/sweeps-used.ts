/** What of a pickup's sweeps stands in the place of what is computed: the newest that holds, without what it tells too weakly. */

import type { Coil } from '../model/coil.ts';
import type { MetalLoop } from '../physics/sweep/coil-form.ts';
import { difference, type Estimate, estimateOf } from '../quantities/estimate.ts';
import { NO_CAPACITANCE } from './coil-capacitance.ts';
import type { EddyTurn, PickupEddies, PickupMagnetics } from './coil-magnetics.ts';
import { USUAL_COIL_FARAD } from './common-practice.ts';
import { computedMagnetics } from './computed-magnetics.ts';
import { ownCable } from './own-cable.ts';
import type { QuickEstimates } from './quick.ts';
import { because } from './reasons.ts';
import { isCoil } from './sweep-set-up.ts';
import type { SweptCoil } from './sweeps-measured.ts';
import { sweptOf, sweptTogether } from './sweeps-together.ts';
import { wholePickup } from './whole-pickup.ts';

export interface SweptNumbers {
  readonly inductanceH: Estimate | undefined;
  readonly capacitanceF: Estimate | undefined;
  readonly losses: SweptCoil['losses'];
}

const NOTHING: SweptNumbers = { inductanceH: undefined, capacitanceF: undefined, losses: undefined };

/** Sweeps after the work whose circuit holds, the newest last. */
const holding = ({ netlist, bench }: QuickEstimates): readonly SweptCoil[] =>
  sweptOf(netlist, bench).filter(
    (each): each is SweptCoil => each.kind === 'coil' && each.verdict !== 'does not hold' && !each.group.block.found,
  );

/** The one whose numbers are used, of one coil by itself or of all between hot and ground. */
export const holdingSweep = (quick: QuickEstimates, of: 'whole' | Coil): SweptCoil | undefined =>
  holding(quick)
    .filter(({ group }) => group.subject === of)
    .at(-1);

export function sweptNumbers(quick: QuickEstimates, of: 'whole' | Coil): SweptNumbers {
  const swept = holdingSweep(quick, of);
  return swept ? usedOf(swept) : NOTHING;
}

export interface SweptBetween {
  readonly inductanceH: Estimate;
  readonly nets: readonly [number, number];
}

/** Inductances of several coils at once, between other points than hot and ground; the newest first. */
export function sweptBetween(quick: QuickEstimates): readonly SweptBetween[] {
  return holding(quick)
    .flatMap((swept): SweptBetween[] => {
      const { subject } = swept.group;
      const { inductanceH } = usedOf(swept);
      return inductanceH && typeof subject === 'object' && !isCoil(subject)
        ? [{ inductanceH, nets: subject.nets }]
        : [];
    })
    .reverse();
}

/**
 * Mutual inductances as they were swept, both coils counted the same way round; none where the winding directions are stated and say
 * otherwise.
 */
export function sweptMutual(quick: QuickEstimates): (a: Coil, b: Coil) => number | undefined {
  const { coupled } = sweptTogether(quick.netlist, quick.bench);
  const computed = computedMagnetics(quick);
  const windOf = (coil: Coil) => quick.signs.find((each) => each.coil === coil)?.wind?.sign;
  return (a, b) => {
    const pair = coupled.find(({ coils }) => coils.includes(a) && coils.includes(b));
    if (!pair || a === b) return undefined;
    const [first, second] = [windOf(a), windOf(b)];
    const henry = pair.mutualH.value * (first ?? 1) * (second ?? 1);
    const isStated = first !== undefined && second !== undefined;
    return isStated && henry * computed.mutualSameSenseH(a, b) < 0 ? undefined : henry;
  };
}

function usedOf({ inductanceH, capacitanceF, losses, tooWeak }: SweptCoil): SweptNumbers {
  return {
    inductanceH: tooWeak.includes('inductance') ? undefined : inductanceH,
    capacitanceF: tooWeak.includes('capacitance') ? undefined : capacitanceF,
    losses: tooWeak.includes('losses') ? undefined : losses,
  };
}

/**
 * Coils of which turns, bobbin or wire are not known, and which were swept: by themselves, or as the only one of their pickup. Of a
 * coil whose capacitance a sweep could not tell the usual one is taken.
 */
export function withSweptCoils(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const { pickup } = quick.netlist;
  const lead = ownCable(pickup);
  const unknown = pickup.coils.flatMap((coil) => {
    if (computed.coils.has(coil)) return [];
    const isOnly = pickup.coils.length === 1;
    const { inductanceH, capacitanceF } = sweptNumbers(quick, isOnly ? 'whole' : coil);
    if (!inductanceH) return [];
    const own = capacitanceF && isOnly ? difference(capacitanceF, lead) : capacitanceF;
    const capacitances = {
      windingF: own && own.value > 0 ? own : USUAL_CAPACITANCE,
      startF: NO_CAPACITANCE,
      finishF: NO_CAPACITANCE,
      facesF: NO_CAPACITANCE,
    };
    return [[coil, { coil, airH: undefined, totalH: inductanceH, capacitances, turnAreaOverAir: 1 }] as const];
  });
  if (unknown.length === 0) return computed;
  const swept = sweptMutual(quick);
  const added = {
    ...computed,
    coils: new Map([...computed.coils, ...unknown]),
    mutualSameSenseH: (a: Coil, b: Coil) => swept(a, b) ?? computed.mutualSameSenseH(a, b),
  };
  return { ...added, ...wholePickup(quick, added, lead) };
}

const USUAL_CAPACITANCE = estimateOf(USUAL_COIL_FARAD.value, {
  sd: USUAL_COIL_FARAD.sd,
  basis: 'assumed',
  restsOn: [because('capacitance of a usual coil')],
});

/**
 * Eddy currents as they were measured: of a coil that was swept by itself its own, of a pickup that was swept as a whole the same for
 * each of its coils, so that all of them together take what was measured. What they take from the string's field stays computed, as a part
 * of what they couple to the coil.
 */
export function withSweptLosses(computed: PickupMagnetics, quick: QuickEstimates): PickupMagnetics {
  const own = new Map(
    [...computed.coils.keys()].flatMap((coil) => {
      const { losses } = sweptNumbers(quick, coil);
      return losses ? [[coil, losses] as const] : [];
    }),
  );
  const whole = sweptNumbers(quick, 'whole').losses;
  if (own.size === 0 && !whole) return computed;
  const before = computed.eddies;
  const made = (scale: number): PickupEddies => {
    const eddies = before();
    const shared = sharedMetal(quick, own, eddies);
    const measured = [...computed.coils.keys()].flatMap((coil) => {
      const losses = own.get(coil) ?? whole;
      if (shared.some(({ beside }) => beside.has(coil))) return [];
      return losses ? measuredTurns(coil, losses.loops, eddies, own.has(coil) ? 1 : scale) : [];
    });
    const others = whole ? [] : eddies.turns.map((turn) => without(turn, [...own.keys()]));
    return {
      ...eddies,
      turns: [...shared, ...measured, ...others],
      losses: lossesKnown([...own.values(), ...(whole ? [whole] : [])]),
    };
  };
  const lead = ownCable(quick.netlist.pickup);
  const wholeWith = (eddies: () => PickupEddies) => wholePickup(quick, { ...computed, eddies }, lead);
  let scaled: PickupEddies | undefined;
  const eddies = () => {
    scaled ??= made(whole && own.size === 0 ? scaleFor(whole.loops, wholeWith(() => made(1)).lostShare) : 1);
    return scaled;
  };
  return { ...computed, eddies, lostShare: wholeWith(eddies).lostShare };
}

/** What one coil's metal has to take more, so that the whole takes what was measured: their coupling takes no part in it. */
function scaleFor(loops: readonly MetalLoop[], lostShare: (hz: number) => number): number {
  const wanted = loops.reduce(
    (sum, { squaredCoupling, cornerHz }) =>
      sum + (squaredCoupling * (SOME_HZ / cornerHz) ** 2) / (1 + (SOME_HZ / cornerHz) ** 2),
    0,
  );
  const taken = lostShare(SOME_HZ);
  return taken > 0 ? wanted / taken : 1;
}

const SOME_HZ = 3000;

function measuredTurns(
  coil: Coil,
  loops: readonly MetalLoop[],
  { turns }: PickupEddies,
  scale: number,
): readonly EddyTurn[] {
  const screened = screening(coil, turns);
  return loops.map(({ squaredCoupling, cornerHz }) => {
    const coupling = Math.sqrt(Math.min(MOST_COUPLING, squaredCoupling * scale));
    return { cornerHz, beside: new Map([[coil, { coupling, drive: coupling * screened }]]) };
  });
}

const MOST_COUPLING = 0.98;

/**
 * What computed metal takes of the string's field over a coil, as a part of what it couples to the coil. Metal that nothing computes is taken
 * to see the string as the coil does, like a shorted turn.
 */
function screening(coil: Coil, turns: readonly EddyTurn[]): number {
  const beside = turns.flatMap((turn) => turn.beside.get(coil) ?? []);
  const squares = beside.reduce((sum, { coupling }) => sum + coupling ** 2, 0);
  return squares > 0 ? beside.reduce((sum, { coupling, drive }) => sum + coupling * drive, 0) / squares : 1;
}

/** The metal of coils that were swept together, which they share; only where the losses of each are known. */
function sharedMetal(
  quick: QuickEstimates,
  own: ReadonlyMap<Coil, unknown>,
  { turns }: PickupEddies,
): readonly EddyTurn[] {
  const { metal } = sweptTogether(quick.netlist, quick.bench);
  const mutual = sweptMutual(quick);
  return metal.flatMap(({ cornerHz, couplings }) => {
    const [first, ...others] = couplings.keys();
    // Of directions that are stated otherwise it is not known on which side of it the other coil lies.
    if (!first || others.some((coil) => mutual(first, coil) === undefined)) return [];
    if (![first, ...others].every((coil) => own.has(coil))) return [];
    const beside = [...couplings].map(([coil, fromStart]) => {
      const coupling = fromStart * (quick.signs.find((each) => each.coil === coil)?.wind?.sign ?? 1);
      return [coil, { coupling, drive: coupling * screening(coil, turns) }] as const;
    });
    return [{ cornerHz, beside: new Map(beside) }];
  });
}

const without = ({ cornerHz, beside }: EddyTurn, coils: readonly Coil[]): EddyTurn => ({
  cornerHz,
  beside: new Map([...beside].filter(([coil]) => !coils.includes(coil))),
});

/** As the time constants are known, and what the losses take at all. */
function lossesKnown(losses: readonly NonNullable<SweptCoil['losses']>[]): Estimate {
  const relative = losses.map(({ share, cornerHz }) =>
    Math.hypot(share.sd / share.value, cornerHz.sd / cornerHz.value),
  );
  return estimateOf(1, {
    sd: Math.max(0, ...relative),
    basis: 'reading',
    restsOn: losses.flatMap(({ share }) => share.restsOn),
  });
}
