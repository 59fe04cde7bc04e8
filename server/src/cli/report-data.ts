/** `report/1`: every computed value with its uncertainty and what it rests on, in SI units that the keys name. */
import type { InstrumentAnalysis, PickupAnalysis } from '../analysis-types.ts';
import {
  COIL_KEYS,
  type CoilKey,
  type NumberKey,
  PICKUP_KEYS,
  type PickupKey,
  POSITION_KEYS,
  type PositionKey,
} from '../documents/comparison/number-keys.ts';
import type { FrequencyResponse, PickupEstimates, PositionEstimates } from '../estimates/estimates.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type Figure, figureOf } from '../quantities/figure.ts';

/** Left out where it is not known; `null` where there is none. */
type Figures<K extends NumberKey> = { readonly [key in K]?: Figure | null };

export interface ReportData {
  readonly schema: 'report/1';
  readonly pickups: Readonly<Record<string, PickupData>>;
  readonly instruments: Readonly<Record<string, { readonly positions: readonly PositionData[] }>>;
}

export type PickupData = Figures<PickupKey> & {
  readonly coils: Readonly<Record<string, Figures<CoilKey>>>;
  readonly phase: PickupEstimates['phase'];
  readonly leadReadings: readonly {
    readonly leads: readonly [string, string];
    readonly resistanceOhm: Figure | null;
    readonly toleranceOhm: number;
    readonly temperatureC: number;
  }[];
};

export type PositionData = Figures<PositionKey> & {
  readonly key: string;
  readonly title?: string;
  readonly phase: PositionEstimates['phase'];
  readonly response?: FrequencyResponse;
};

export function pickupData(analysis: PickupAnalysis): PickupData {
  const estimates = analysis.estimates();
  const { coils, phase, leadReadings } = estimates;
  return {
    coils: nullPrototype([...coils].map(([name, coil]) => [name, figuresOf(coil, COIL_KEYS)])),
    ...figuresOf(estimates, PICKUP_KEYS),
    phase,
    leadReadings: leadReadings.map((reading) => ({
      leads: reading.leads,
      resistanceOhm: reading.resistanceOhm === null ? null : (figureOf(reading.resistanceOhm) ?? null),
      toleranceOhm: reading.toleranceOhm,
      temperatureC: reading.temperatureC,
    })),
  };
}

export function positionData(estimates: PositionEstimates): PositionData {
  const { key, title, phase, response } = estimates;
  return {
    key,
    ...(title === undefined ? {} : { title }),
    ...figuresOf(estimates, POSITION_KEYS),
    phase,
    ...(response === undefined ? {} : { response }),
  };
}

export function reportData(
  pickups: readonly PickupAnalysis[],
  instruments: readonly (readonly [InstrumentAnalysis, readonly PositionEstimates[]])[],
): ReportData {
  return {
    schema: 'report/1',
    pickups: nullPrototype(pickups.map((each) => [each.pickup.name, pickupData(each)])),
    instruments: nullPrototype(
      instruments.map(([each, positions]) => [each.instrument.name, { positions: positions.map(positionData) }]),
    ),
  };
}

/** The keys are named one by one, so that nothing internal becomes part of a published output. */
function figuresOf<K extends NumberKey>(
  estimates: { readonly [key in K]: Estimate | null | undefined },
  keys: readonly K[],
): Figures<K> {
  const figures: { [key in K]?: Figure | null } = {};
  for (const key of keys) {
    const estimate = estimates[key];
    const figure = estimate && figureOf(estimate);
    if (figure !== undefined) figures[key] = figure;
  }
  return figures;
}

/** Names come from a spec, and `__proto__` is a name like any other. */
function nullPrototype<T>(entries: readonly (readonly [string, T])[]): Readonly<Record<string, T>> {
  const record: Record<string, T> = Object.create(null);
  for (const [name, value] of entries) record[name] = value;
  return record;
}
