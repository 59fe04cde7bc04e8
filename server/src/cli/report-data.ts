/** `report/1`: every computed value with its uncertainty and what it rests on, in SI units that the keys name. */
import type { InstrumentAnalysis, PickupAnalysis } from '../analysis-types.ts';
import type { CoilEstimates, FrequencyResponse, PickupEstimates, PositionEstimates } from '../estimates/estimates.ts';
import type { Basis, Estimate } from '../quantities/estimate.ts';

export interface Figure {
  readonly value: number;
  /** One standard deviation; `null` where it is unbounded. */
  readonly uncertainty: number | null;
  readonly basis: Basis;
  readonly restsOn: readonly string[];
}

/** Left out where it is not known; `null` where there is none. */
type Figures<T> = { readonly [K in keyof T]?: Figure | null };

export interface ReportData {
  readonly schema: 'report/1';
  readonly pickups: Readonly<Record<string, PickupData>>;
  readonly instruments: Readonly<Record<string, { readonly positions: readonly PositionData[] }>>;
}

export type PickupData = Figures<
  Pick<
    PickupEstimates,
    'resistance20COhm' | 'inductanceH' | 'capacitanceF' | 'resonanceHz' | 'peakDb' | 'signalDb' | 'humDb'
  >
> & {
  readonly coils: Readonly<Record<string, Figures<CoilEstimates>>>;
  readonly phase: PickupEstimates['phase'];
  readonly leadReadings: readonly {
    readonly leads: readonly [string, string];
    readonly resistanceOhm: Figure | null;
    readonly toleranceOhm: number;
    readonly temperatureC: number;
  }[];
};

export type PositionData = Figures<
  Pick<PositionEstimates, 'resistanceOhm' | 'resonanceHz' | 'peakDb' | 'minus3DbHz' | 'levelDb' | 'signalDb' | 'humDb'>
> & {
  readonly key: string;
  readonly title?: string;
  readonly phase: PositionEstimates['phase'];
  readonly response?: FrequencyResponse;
};

export function pickupData(analysis: PickupAnalysis): PickupData {
  const { coils, phase, leadReadings, ...figures } = analysis.estimates();
  return {
    coils: nullPrototype([...coils].map(([name, estimates]) => [name, figuresOf(estimates)])),
    ...figuresOf(figures),
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
  const { key, title, phase, response, ...figures } = estimates;
  return {
    key,
    ...(title === undefined ? {} : { title }),
    ...figuresOf(figures),
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

type Given = Estimate | null | undefined;

function figuresOf<T extends object>(estimates: T): Figures<T> {
  const entries = Object.entries<Given>(estimates as { readonly [key: string]: Given }).flatMap(
    ([key, estimate]): readonly (readonly [string, Figure | null])[] => {
      if (estimate === undefined) return [];
      if (estimate === null) return [[key, null]];
      const figure = figureOf(estimate);
      return figure === undefined ? [] : [[key, figure]];
    },
  );
  return Object.fromEntries(entries) as Figures<T>;
}

/** A value that is not finite is not known: JSON has no number for it. */
export function figureOf({ value, sd, basis, restsOn }: Estimate): Figure | undefined {
  if (!Number.isFinite(value)) return undefined;
  return { value, uncertainty: Number.isFinite(sd) ? sd : null, basis, restsOn };
}

/** Names come from a spec, and `__proto__` is a name like any other. */
function nullPrototype<T>(entries: readonly (readonly [string, T])[]): Readonly<Record<string, T>> {
  const record: Record<string, T> = Object.create(null);
  for (const [name, value] of entries) record[name] = value;
  return record;
}
