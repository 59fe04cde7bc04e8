/** How well a response is known: its level over frequency with the limits of one standard deviation. */

import type { Instrument, Selection } from '../model/instrument.ts';
import { slotsOf } from '../model/selection.ts';
import { audioFrequencies, responseOf } from '../physics/circuit/response.ts';
import type { Estimate } from '../quantities/estimate.ts';
import { type Scaling, scalingOf } from './electric.ts';
import type { FrequencyResponse } from './estimates.ts';
import { DEFAULT_LOAD, type Load, pickupResponse, responseCauses } from './pickup-estimates.ts';
import type { Played } from './position-network.ts';
import { AS_PLAYED, positionNetwork, type QuickOf } from './position-network.ts';
import { FULL_UP, positionCauses } from './positions.ts';
import type { QuickEstimates } from './quick.ts';
import { REFERENCE_LEVEL_DB, stringDrives } from './sources.ts';
import { quickAsSwept } from './swept-whole.ts';

/** Levels in dB against the unloaded string signal of one coil of 5,000 turns, with their limits. */
export interface ResponseBand extends FrequencyResponse {
  readonly levelSdDb: readonly number[];
  readonly lowDb: readonly number[];
  readonly highDb: readonly number[];
}

/** A pickup under a load; `undefined` where nothing connects its hot to its ground. */
export function pickupResponseBand(quick: QuickEstimates, load: Load = DEFAULT_LOAD): ResponseBand | undefined {
  return bandOf(responseCauses(quick, load), (scaling) => pickupResponse(quick, load, scaling));
}

/** A selector position at the jack; `undefined` where nothing is connected, or where a pickup is missing. */
export function positionResponseBand(
  instrument: Instrument,
  selection: Selection,
  quickOf: QuickOf,
  played: Played = FULL_UP,
): ResponseBand | undefined {
  const asSwept = quickAsSwept(selection, quickOf);
  const pickups = slotsOf(selection).map(({ pickup }) => pickup && asSwept(pickup));
  const known = pickups.flatMap((each) => each ?? []);
  if (known.length < pickups.length) return undefined;
  return bandOf(positionCauses(instrument, selection, known, played), (scaling) => {
    const setting = { ...AS_PLAYED, ...played, scaling };
    const built = positionNetwork(instrument, selection, asSwept, setting);
    const response = responseOf(built.network, built.output, stringDrives(built), audioFrequencies());
    if (typeof response === 'string') return undefined;
    const levelDb = Array.from(response.levelDb, (level) => level - REFERENCE_LEVEL_DB);
    return { frequencyHz: [...response.frequencyHz], levelDb };
  });
}

/** How far each cause is moved, in standard deviations. */
const STEPS = [-1, -0.5, 0.5, 1] as const;

/**
 * The limits are what the causes (all resistances, all inductances, all capacitances, all losses, the tracks and capacitors of the load) reach when each is moved by up to one
 * standard deviation, combined as roots of sums of squares (JCGM 100:2008, 5.1.2). The greatest move within the deviation is taken
 * instead of a slope: beside a resonance the slope is steep, on top of it zero, and a linear band would close where the peak
 * itself may lie elsewhere. `levelSdDb` is half of the distance between the limits.
 */
export function bandOf(
  causes: readonly Estimate[],
  sweep: (scaling: Scaling) => FrequencyResponse | undefined,
): ResponseBand | undefined {
  const at = (moved: number, by: number) => {
    const values = causes.map(({ value, sd }, index) =>
      index === moved ? Math.max(value + by * sd, value / 10) : value,
    );
    return sweep(scalingOf(values));
  };
  const best = at(-1, 0);
  if (best === undefined) return undefined;
  const up = best.levelDb.map(() => 0);
  const down = best.levelDb.map(() => 0);
  causes.forEach(({ sd }, moved) => {
    if (!(sd > 0)) return;
    const swept = STEPS.flatMap((step) => at(moved, step) ?? []);
    best.levelDb.forEach((level, index) => {
      const moves = swept.map(({ levelDb }) => (levelDb[index] ?? level) - level);
      up[index] = Math.hypot(up[index] ?? 0, Math.max(0, ...moves));
      down[index] = Math.hypot(down[index] ?? 0, Math.max(0, ...moves.map((move) => -move)));
    });
  });
  return {
    ...best,
    levelSdDb: best.levelDb.map((_, index) => ((up[index] ?? 0) + (down[index] ?? 0)) / 2),
    lowDb: best.levelDb.map((level, index) => level - (down[index] ?? 0)),
    highDb: best.levelDb.map((level, index) => level + (up[index] ?? 0)),
  };
}
