/** Inductance and capacitance of a whole pickup, from those of its coils and the way they are joined. */
import type { Coil } from '../model/coil.ts';
import type { PickupNetlist } from '../model/netlist.ts';
import type { Pickup } from '../model/pickup.ts';
import { type Estimate, estimateOf, linear } from '../quantities/estimate.ts';
import { causes, pieceName } from './causes.ts';
import type { PickupMagnetics } from './coil-magnetics.ts';
import { COUPLING_RELATIVE_SD, NOMINAL_OHM } from './common-practice.ts';
import { ownCable } from './own-cable.ts';
import { dcTransfers } from './pickup-circuit.ts';
import type { QuickEstimates } from './quick.ts';
import { segmentOhm, wireShareOf } from './segment-shares.ts';

export interface WholePickup extends Pick<PickupMagnetics, 'inductanceH' | 'capacitanceF' | 'lostShare'> {
  /** What the inductance moves by with each coil's own; times the coils' own, they are the whole of it. */
  readonly slopes: ReadonlyMap<Coil, number>;
  /** What of it the coils' coupling makes, H. */
  readonly mutualH: number;
  /** Of each coil in the path, from start to finish, of the current from ground to hot. */
  readonly shares: ReadonlyMap<Coil, number>;
}

/** How well the coupling of two coils is known, by their distance. */
export function couplingRelativeSd({ coils, coilsApart }: Pickup): number {
  if (coils.some(({ below }) => below)) return COUPLING_RELATIVE_SD.stacked;
  return coilsApart ? COUPLING_RELATIVE_SD.stated : COUPLING_RELATIVE_SD.assumed;
}

/**
 * Inductance and capacitance between hot and ground, well below resonance. With τ the share of a coil's e.m.f. that reaches the output
 * (by reciprocity the current through it for one ampere from ground to hot) and w its wind, L = Σᵢⱼ τᵢτⱼwᵢwⱼMᵢⱼ, the limit of low
 * frequency; each capacitance counts by the square of its share of the output voltage, a coil's being vᵢ = Σⱼ τⱼwᵢwⱼMᵢⱼ / L where its
 * ends are not at hot and ground: there it has what these have, however the currents part.
 */
export function wholePickup(
  quick: QuickEstimates,
  {
    coils,
    mutualSameSenseH,
    between,
    eddies,
  }: Pick<PickupMagnetics, 'coils' | 'mutualSameSenseH' | 'between' | 'eddies'>,
  lead: Estimate,
): WholePickup {
  const { netlist, windings, signs } = quick;
  const nothing: WholePickup = {
    inductanceH: undefined,
    capacitanceF: undefined,
    lostShare: () => 0,
    slopes: new Map(),
    mutualH: 0,
    shares: new Map(),
  };
  const { hot, ground } = netlist;
  if (hot === undefined || ground === undefined) return nothing;
  const shares = dcTransfers(netlist, (segment) => segmentOhm(segment, windings) ?? NOMINAL_OHM, hot, ground);
  if (!shares) return nothing;
  const live = new Map<Coil, number>();
  for (const [segment, share] of shares)
    if (Math.abs(share) > NO_PATH)
      live.set(segment.coil, (live.get(segment.coil) ?? 0) + share * wireShareOf(segment, windings.get(segment.coil)));
  const parts = [...live].map(([coil, share]) => ({
    coil,
    share,
    wind: signs.find((each) => each.coil === coil)?.wind?.sign ?? 1,
    magnetic: coils.get(coil),
  }));
  const own = parts.flatMap(({ magnetic }) => magnetic ?? []);
  if (own.length === 0 || own.length < parts.length) return nothing;
  const coupled = parts.map((a) =>
    parts
      .filter((b) => b !== a)
      .reduce((sum, b) => sum + b.share * a.wind * b.wind * mutualSameSenseH(a.coil, b.coil), 0),
  );
  const fluxes = parts.map(
    ({ share, magnetic }, index) => share * (magnetic?.totalH.value ?? 0) + (coupled[index] ?? 0),
  );
  const henry = parts.reduce((sum, { share }, index) => sum + share * (fluxes[index] ?? 0), 0);
  if (!(henry > 0)) return nothing;
  const mutualH = parts.reduce((sum, { share }, index) => sum + share * (coupled[index] ?? 0), 0);
  const pickup = netlist.pickup;
  const spacing = estimateOf(0, {
    sd: Math.abs(mutualH) * couplingRelativeSd(pickup),
    basis: 'assumed',
    source: causes.coilsApart(pieceName(pickup)),
  });
  // M goes with √(LᵢLⱼ), so half of its error lies with each coil.
  const weights = parts.map(({ share, magnetic }, index) =>
    magnetic && magnetic.totalH.value > 0 ? (share * (fluxes[index] ?? 0)) / magnetic.totalH.value : 0,
  );
  return {
    slopes: new Map(parts.map(({ coil }, index) => [coil, weights[index] ?? 0])),
    mutualH,
    shares: live,
    lostShare: (frequencyHz) =>
      eddies().turns.reduce((sum, { cornerHz, beside }) => {
        // k√L is each coil's mutual inductance with the turn of 1 H.
        const mutual = parts.reduce(
          (each, { coil, share, wind, magnetic }) =>
            each + share * wind * (beside.get(coil)?.coupling ?? 0) * Math.sqrt(magnetic?.totalH.value ?? 0),
          0,
        );
        const square = (frequencyHz / cornerHz) ** 2;
        return sum + ((mutual ** 2 / henry) * square) / (1 + square);
      }, 0),
    inductanceH: linear([...own.map(({ totalH }) => totalH), spacing], [...weights, 1]),
    capacitanceF: capacitanceOf(
      netlist,
      { coils, between },
      new Map(parts.map(({ coil }, index) => [coil, (fluxes[index] ?? 0) / henry])),
      lead,
    ),
  };
}

/** The same between any two nets. */
export const wholeBetween = (
  quick: QuickEstimates,
  magnetics: PickupMagnetics,
  [hot, ground]: readonly [number, number],
): WholePickup =>
  wholePickup(
    { ...quick, netlist: { ...quick.netlist, hot, ground, chassis: ground } },
    magnetics,
    ownCable(quick.netlist.pickup),
  );

/** A coil that carries a smaller share of the current is not in its path. */
const NO_PATH = 1e-6;

/** Σ C · (share of the output voltage)²; `shares`: of each coil that lies in the path, finish above start. */
function capacitanceOf(
  netlist: PickupNetlist,
  { coils, between }: Pick<PickupMagnetics, 'coils' | 'between'>,
  shares: ReadonlyMap<Coil, number>,
  lead: Estimate,
): Estimate {
  const potential = potentials(netlist, shares);
  const at = (coil: Coil, end: 'start' | 'finish') => {
    const net = netlist.windings.find((winding) => winding.coil === coil)?.[end];
    return (net === undefined ? undefined : potential.get(net)) ?? 0;
  };
  const terms = [...coils].flatMap(([coil, { capacitances }]) => {
    const [start, finish] = [at(coil, 'start'), at(coil, 'finish')];
    const { windingF, startF, finishF, facesF } = capacitances;
    return [
      { farad: windingF, weight: (finish - start) ** 2 },
      { farad: startF, weight: start ** 2 },
      { farad: finishF, weight: finish ** 2 },
      // The square of a voltage that runs evenly from one end to the other, on the mean.
      { farad: facesF, weight: (start ** 2 + start * finish + finish ** 2) / 3 },
    ];
  });
  const pairs = between.map(({ coils: [a, b], farad }) => ({
    farad,
    weight: (at(a, 'finish') - at(b, 'finish')) ** 2,
  }));
  const all = [...terms, ...pairs, { farad: lead, weight: 1 }].filter(({ weight }) => weight > 0);
  return linear(
    all.map(({ farad }) => farad),
    all.map(({ weight }) => weight),
  );
}

/** Voltage of each net over ground, as a share of the output's. */
function potentials(
  { windings, hot, ground, chassis }: PickupNetlist,
  shares: ReadonlyMap<Coil, number>,
): ReadonlyMap<number, number> {
  const known = new Map<number, number>();
  for (const [net, value] of [
    [hot, 1],
    [chassis, 0],
    [ground, 0],
  ] as const)
    if (net !== undefined) known.set(net, value);
  for (let before = -1; before !== known.size; ) {
    before = known.size;
    for (const { coil, start, finish } of windings) {
      if (start === undefined || finish === undefined) continue;
      const rise = shares.get(coil) ?? 0;
      const [low, high] = [known.get(start), known.get(finish)];
      if (low !== undefined && high === undefined) known.set(finish, low + rise);
      if (high !== undefined && low === undefined) known.set(start, high - rise);
    }
  }
  return known;
}
