import type { language } from '../../../grammar/src/schema/index.ts';
import type { Quantity } from '../../../grammar/values/quantity.ts';
import type { Curve } from './curve.ts';
import type { Place, Stated } from './place.ts';
import type { Plain } from './reading.ts';

/** The shop's own conditions and instruments; one in a file and all it uses. */
export interface Bench extends Plain<typeof language.bench, 'meter' | 'recorder'> {
  readonly place: Place;
  readonly meter: Stated<MeterAccuracy> | undefined;
  readonly recorder: Recorder;
}

/** What sweeps are recorded with: its input with the lead, as stated, and its own sweep with nothing connected. */
export interface Recorder {
  readonly input: { readonly resistance: Quantity; readonly capacitance: Quantity | undefined } | undefined;
  readonly alone:
    | {
        readonly place: Place;
        readonly file: Stated<string>;
        readonly curve: Curve | undefined;
        readonly seriesOhm: Quantity;
      }
    | undefined;
}

/** A limit, not a standard deviation: ± (percent of reading + digits x resolution). */
export interface MeterAccuracy {
  readonly accuracyPercent: number;
  readonly digits: number;
  readonly resolutionOhm: number;
}

/** What holds where no bench is declared. Common practice, no published source. */
export const DEFAULT_BENCH = {
  mainsHz: 50,
  roomC: 20,
  meter: { accuracyPercent: 1, digits: 3, resolutionOhm: 10 },
} as const satisfies { mainsHz: number; roomC: number; meter: MeterAccuracy };

export const benchMainsHz = (bench: Bench | undefined): number => bench?.mains?.value.si ?? DEFAULT_BENCH.mainsHz;
export const benchRoomC = (bench: Bench | undefined): number =>
  bench?.room ? celsius(bench.room.value) : DEFAULT_BENCH.roomC;
export const benchMeter = (bench: Bench | undefined): MeterAccuracy => bench?.meter?.value ?? DEFAULT_BENCH.meter;

/** A temperature in degrees Celsius; quantities keep kelvin. */
export const celsius = (temperature: Quantity): number => temperature.si - 273.15;
