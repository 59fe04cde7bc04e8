import type { Dimension } from '../../../grammar/values/unit-table.ts';
import type { CoilEstimates, PhaseVerdict, PickupEstimates } from '../estimates/estimates.ts';
import type { Estimate } from '../quantities/estimate.ts';
import {
  onlyBoundedAbove,
  printDb,
  printDbOrLower,
  printNumber,
  printQuantity,
  roundUncertainty,
} from '../quantities/print.ts';

/** A computed value in words: what it is, how much, and what it rests on. */
export interface EstimateRow {
  readonly name: string;
  readonly value: string;
  readonly restsOn: string;
}

/** Everything known of a coil; what is not known is left out, what there is none of is said. */
export function coilRows(coil: CoilEstimates): readonly EstimateRow[] {
  return [
    rowOf('turns', coil.turns, 'turns'),
    rowOf('resistance at 20 °C', coil.resistance20COhm, 'resistance'),
    rowOf('wire length', coil.wireLengthM, 'length'),
    rowOf('wire mass', coil.wireMassKg, 'mass'),
    rowOf('mean turn', coil.meanTurnM, 'length'),
    rowOf('turn-area', coil.turnAreaM2, { unit: 'm²' }),
    rowOf('build', coil.buildM, 'length'),
    rowOf('layers', coil.layers, { unit: '' }),
    rowOf('packing', coil.packing, { unit: '' }),
    rowOf('window filled', coil.windowFilled, 'percentage'),
    rowOf('resistance of its wire', coil.ohmPerM20C, 'resistance per length'),
    rowOf('inductance without poles', coil.inductanceAirH, 'inductance'),
    rowOf('inductance', coil.inductanceH, 'inductance'),
    rowOf('capacitance', coil.capacitanceF, 'capacitance'),
  ].flat();
}

/** Everything known of a pickup between hot and ground. */
export function pickupRows(pickup: PickupEstimates): readonly EstimateRow[] {
  return [
    rowOf('resistance at 20 °C, hot to ground', pickup.resistance20COhm, 'resistance'),
    [{ name: 'phase', value: VERDICTS[pickup.phase], restsOn: '' }],
    level('string signal against one coil', pickup.signalDb),
    level('hum against one coil', pickup.humDb),
    rowOf('inductance', pickup.inductanceH, 'inductance'),
    rowOf('capacitance', pickup.capacitanceF, 'capacitance'),
    rowOf('resonance', pickup.resonanceHz, 'frequency'),
    level('resonance peak', pickup.peakDb),
  ].flat();
}

const VERDICTS: Readonly<Record<PhaseVerdict, string>> = {
  in: 'coils in phase',
  out: 'coils out of phase',
  single: 'one coil',
  unproven: 'unknown: winding direction or polarity neither stated nor measured',
};

export function rowOf(
  name: string,
  estimate: Estimate | null | undefined,
  as: Dimension | { readonly unit: string },
): readonly EstimateRow[] {
  if (estimate === undefined) return [];
  if (estimate === null) return [{ name, value: 'open', restsOn: '' }];
  const { value, sd } = estimate;
  const printed = typeof as === 'string' ? printQuantity({ value, sd, dimension: as }) : printBare(value, sd, as.unit);
  return [{ name, value: printed, restsOn: basisOf(estimate) }];
}

function level(name: string, estimate: Estimate | undefined): readonly EstimateRow[] {
  if (!estimate) return [];
  const value = onlyBoundedAbove(estimate)
    ? printDbOrLower(estimate.value + estimate.sd)
    : printDb(estimate.value, { signed: true });
  return [{ name, value, restsOn: basisOf(estimate) }];
}

/** For numbers whose unit the unit table does not hold, because nobody writes it in a spec. */
function printBare(value: number, sd: number, unit: string): string {
  const behind = unit === '' ? '' : `\u202F${unit}`;
  if (!Number.isFinite(value)) return 'unknown';
  if (!(sd > 0) || !Number.isFinite(sd)) return `${printNumber(value, decimalsFor(value))}${behind}`;
  const { place, rounded } = roundUncertainty(sd);
  return `${printNumber(value, -place)} ± ${printNumber(rounded, -place)}${behind}`;
}

const decimalsFor = (value: number): number => (Math.abs(value) >= 100 ? 0 : Math.abs(value) >= 10 ? 1 : 2);

function basisOf({ basis, restsOn }: Estimate): string {
  return restsOn.length === 0 ? basis : `${basis}: ${restsOn.join('; ')}`;
}
