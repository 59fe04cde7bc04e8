import type { CoilEstimates, PickupEstimates } from '../estimates/estimates.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { basisWords, marked, numberText } from '../words/number-text.ts';
import { COIL_NUMBERS, keysOf, type NumberName, PICKUP_NUMBERS } from '../words/numbers.ts';
import { phaseExplained } from '../words/phases.ts';

/** A computed value in words: what it is, how much, and what it rests on. */
export interface EstimateRow {
  readonly name: string;
  readonly value: string;
  readonly restsOn: string;
}

/** Everything known of a coil; what is not known is left out, what there is none of is said. */
export const coilRows = (coil: CoilEstimates): readonly EstimateRow[] =>
  keysOf(COIL_NUMBERS).flatMap((key) => rowOf(COIL_NUMBERS[key], coil[key]));

/** Everything known of a pickup between hot and ground. */
export const pickupRows = (pickup: PickupEstimates): readonly EstimateRow[] => [
  { name: 'phase', value: phaseExplained(pickup.phase), restsOn: '' },
  ...keysOf(PICKUP_NUMBERS).flatMap((key) => rowOf(PICKUP_NUMBERS[key], pickup[key])),
];

export const rowOf = (name: NumberName<string>, estimate: Estimate | null | undefined): readonly EstimateRow[] =>
  estimate === undefined
    ? []
    : [
        {
          name: name.what,
          value: marked(numberText(estimate, name), estimate),
          restsOn: estimate === null ? '' : basisWords(estimate),
        },
      ];
