/**
 * The wax bath: masses of the mix, and what limits its temperature. Melting and softening points differ from maker to maker: the
 * safety data sheet of the wax in hand comes first.
 */

import { celsius } from '../model/bench.ts';
import type { Plastic } from '../model/bobbin.ts';
import type { Pickup } from '../model/pickup.ts';
import type { Potting } from '../model/potting.ts';
import { ENAMELS, type EnamelName } from '../physics/enamel.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import {
  BATH_MARGIN_K,
  FLASH_MARGIN_K,
  SOFTENS_FROM_C,
  USUAL_CEILING_C,
  USUAL_MELTING_C,
  WAXES,
} from './common-practice.ts';
import { because } from './reasons.ts';

export type BathLimit = { readonly limitC: number } & (
  | { readonly what: 'mix'; readonly isUsual: boolean }
  | { readonly what: 'plastic'; readonly plastic: Plastic }
  | { readonly what: 'enamel'; readonly enamel: EnamelName }
  | { readonly what: 'flash point'; readonly flashC: number }
);

/** Everything that limits the bath of this pickup, the lowest limit first. */
export function bathLimits(pickup: Pickup): readonly BathLimit[] {
  const waxes = (pickup.potting?.wax?.value ?? []).flatMap(({ ingredient }) => waxOf(ingredient) ?? []);
  const ceilingC = Math.max(USUAL_CEILING_C, ...waxes.map((wax) => wax.ceilingC));
  const plastics = new Set(pickup.coils.flatMap(({ bobbin }) => bobbin?.plastic?.value ?? []));
  const enamels = new Set(pickup.coils.flatMap(({ wire }) => wire?.enamel?.value ?? []));
  const flashC = Math.min(...waxes.map(({ flashPointC }) => flashPointC));
  const limits: readonly BathLimit[] = [
    { what: 'mix', limitC: ceilingC, isUsual: waxes.length === 0 },
    ...[...plastics].flatMap((plastic): readonly BathLimit[] => {
      const limitC = SOFTENS_FROM_C[plastic];
      return limitC === undefined ? [] : [{ what: 'plastic', limitC, plastic }];
    }),
    ...[...enamels].map((enamel): BathLimit => ({ what: 'enamel', limitC: ENAMELS[enamel].thermalClassC, enamel })),
    ...(Number.isFinite(flashC) ? [{ what: 'flash point' as const, limitC: flashC - FLASH_MARGIN_K, flashC }] : []),
  ];
  return [...limits].sort((a, b) => a.limitC - b.limitC);
}

/** Where the main wax of the mix, or a usual one, begins to melt in its lowest grade, degC. */
export function meltsFromC({ wax }: Potting): number {
  const main = [...(wax?.value ?? [])].sort((a, b) => b.share - a.share)[0];
  return waxOf(main?.ingredient ?? 'paraffin')?.meltsC[0] ?? USUAL_MELTING_C;
}

/** An ingredient is any word. */
const waxOf = (ingredient: string) => (Object.hasOwn(WAXES, ingredient) ? WAXES[ingredient] : undefined);

/** A bath within every limit, in whole fives where there is room: 60 degC for the usual mix. */
export function suggestedBathC(pickup: Pickup): number {
  const lowest = bathLimits(pickup)[0]?.limitC ?? USUAL_CEILING_C;
  return Math.floor((lowest - BATH_MARGIN_K) / 5) * 5;
}

export interface WaxMass {
  readonly ingredient: string;
  readonly massKg: Estimate;
}

/** What to weigh out: the batch by its percentages. Empty where no batch is stated; shares are taken as they stand. */
export function waxMasses({ wax, batch }: Potting): readonly WaxMass[] {
  if (!wax || !batch) return [];
  return wax.value.map(({ ingredient, share }) => ({
    ingredient,
    massKg: estimateOf(share * batch.value.si, {
      sd: share * (batch.value.sd ?? 0),
      basis: 'computed',
      restsOn: [because('batch {0}', batch.value.written)],
    }),
  }));
}

/** Shares of the mix together, 0 to 1 where they are right. */
export const sharesTogether = ({ wax }: Potting): number =>
  (wax?.value ?? []).reduce((total, { share }) => total + share, 0);

export const bathC = ({ bath }: Potting): number | undefined => bath && celsius(bath.value);
