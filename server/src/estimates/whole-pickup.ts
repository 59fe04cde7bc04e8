/** Inductance and capacitance of a whole pickup, from those of its coils and the way they are joined. */
import type { Coil } from '../model/coil.ts';
import { type Estimate, estimateOf, linear } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import type { CoilMagnetics, PickupMagnetics } from './coil-magnetics.ts';
import { dcTransfers } from './pickup-circuit.ts';
import { type QuickEstimates, segmentOhm, turnsShareOf } from './quick.ts';

/** Distance of two coils: as stated, and as assumed; what that does to their coupling. Common practice, no published source. */
const COUPLING_RELATIVE_SD = { stated: 0.05, assumed: 0.15 } as const;

/**
 * Inductance and capacitance between hot and ground, well below resonance. With τ the share of a coil's e.m.f. that reaches the output
 * (by reciprocity the current through it for one ampere from ground to hot) and w its wind, L = Σᵢⱼ τᵢτⱼwᵢwⱼMᵢⱼ, the limit of low
 * frequency; a coil's capacitance counts by the square of its share of the output voltage, vᵢ = Σⱼ τⱼwᵢwⱼMᵢⱼ / L.
 */
export function wholePickup(
  quick: QuickEstimates,
  coils: ReadonlyMap<Coil, CoilMagnetics>,
  mutualSameSenseH: PickupMagnetics['mutualSameSenseH'],
  lead: Estimate,
): Pick<PickupMagnetics, 'inductanceH' | 'capacitanceF'> {
  const { netlist, windings, signs } = quick;
  const nothing = { inductanceH: undefined, capacitanceF: undefined };
  const { hot, ground } = netlist;
  if (hot === undefined || ground === undefined) return nothing;
  const shares = dcTransfers(netlist, (segment) => segmentOhm(segment, windings) ?? NOMINAL_OHM, hot, ground);
  if (!shares) return nothing;
  const live = new Map<Coil, number>();
  for (const [segment, share] of shares)
    if (Math.abs(share) > NO_PATH)
      live.set(segment.coil, (live.get(segment.coil) ?? 0) + share * turnsShareOf(segment, windings.get(segment.coil)));
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
    sd: Math.abs(mutualH) * (pickup.coilsApart ? COUPLING_RELATIVE_SD.stated : COUPLING_RELATIVE_SD.assumed),
    basis: 'assumed',
    source: causes.coilsApart(pickup.name),
  });
  // M goes with √(LᵢLⱼ), so half of its error lies with each coil.
  const weights = parts.map(({ share, magnetic }, index) =>
    magnetic && magnetic.totalH.value > 0 ? (share * (fluxes[index] ?? 0)) / magnetic.totalH.value : 0,
  );
  return {
    inductanceH: linear([...own.map(({ totalH }) => totalH), spacing], [...weights, 1]),
    capacitanceF: linear(
      [...own.map(({ capacitanceF }) => capacitanceF), lead],
      [...fluxes.map((flux) => (flux / henry) ** 2), 1],
    ),
  };
}

/** A coil that carries a smaller share of the current is not in its path. */
const NO_PATH = 1e-6;
/** Stands for an unknown resistance where only the path counts. */
const NOMINAL_OHM = 4000;
