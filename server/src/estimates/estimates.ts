/** What is computed of a coil, a pickup and an instrument. `undefined`: not known; `null`: there is none (an open circuit's resistance). */
import type { Estimate } from '../quantities/estimate.ts';

export interface CoilEstimates {
  readonly turns: Estimate | undefined;
  readonly resistance20COhm: Estimate | undefined;
  readonly ohmPerM20C: Estimate | undefined;
  readonly wireLengthM: Estimate | undefined;
  readonly wireMassKg: Estimate | undefined;
  readonly meanTurnM: Estimate | undefined;
  readonly turnAreaM2: Estimate | undefined;
  readonly buildM: Estimate | undefined;
  readonly layers: Estimate | undefined;
  readonly packing: Estimate | undefined;
  /** Build over the depth of the window; above 1 it does not fit. */
  readonly windowFilled: Estimate | undefined;
  readonly inductanceAirH: Estimate | undefined;
  readonly inductanceH: Estimate | undefined;
  readonly capacitanceF: Estimate | undefined;
}

/** `silent`: nothing drives the output. */
export type PhaseVerdict = 'in' | 'out' | 'single' | 'unproven' | 'silent';

export interface LeadReading {
  readonly leads: readonly [string, string];
  /** `null`: open. */
  readonly resistanceOhm: Estimate | null;
  /** Meter and spread together: what a good reading may differ by. */
  readonly toleranceOhm: number;
  readonly temperatureC: number;
}

export interface PickupEstimates {
  readonly coils: ReadonlyMap<string, CoilEstimates>;
  /** Between hot and ground. */
  readonly resistance20COhm: Estimate | null | undefined;
  readonly inductanceH: Estimate | undefined;
  readonly capacitanceF: Estimate | undefined;
  /** `null`: the response has no peak. */
  readonly resonanceHz: Estimate | null | undefined;
  readonly peakDb: Estimate | undefined;
  /** Told where there is no peak, which would say more. */
  readonly minus3DbHz: Estimate | undefined;
  readonly phase: PhaseVerdict;
  readonly signalDb: Estimate | undefined;
  readonly humDb: Estimate | undefined;
  /** Nothing is known of its coils but what a sweep of all of it tells. */
  readonly isSweptWhole?: true;
  readonly leadReadings: readonly LeadReading[];
}

export interface FrequencyResponse {
  readonly frequencyHz: readonly number[];
  readonly levelDb: readonly number[];
  /** One standard deviation of the level, per frequency. */
  readonly levelSdDb?: readonly number[];
}

export interface PositionEstimates {
  readonly key: string;
  readonly title: string | undefined;
  readonly resistanceOhm: Estimate | null | undefined;
  /** `null`: the response has no peak. */
  readonly resonanceHz: Estimate | null | undefined;
  readonly peakDb: Estimate | undefined;
  readonly minus3DbHz: Estimate | undefined;
  /** Output at 100 Hz at the jack; 0 dB is the unloaded string signal of one coil of 5,000 turns. `null`: silence. */
  readonly levelDb: Estimate | null | undefined;
  readonly phase: PhaseVerdict;
  readonly signalDb: Estimate | undefined;
  readonly humDb: Estimate | undefined;
  readonly response: FrequencyResponse | undefined;
  /** Why sweeps of pickups in it tell no response. */
  readonly untold?: UntoldPosition | undefined;
}

/**
 * `swept whole`: a pickup sounds otherwise than it was swept, and nothing but that sweep tells of its coils; between which ends a sweep
 * would.
 */
export type UntoldPosition = {
  readonly because: 'swept whole';
  readonly pickup: string;
  readonly sweep: readonly (readonly [string, string])[];
};
