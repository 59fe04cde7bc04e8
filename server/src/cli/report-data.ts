/** `report/1`: every computed value with its uncertainty and what it rests on, in SI units that the keys name. */

import type { InstrumentAnalysis, PickupAnalysis } from '../analysis/analysis-types.ts';
import { compareNumbers } from '../comparison/compare-numbers.ts';
import type { Rework } from '../comparison/reworks.ts';
import type { JudgedAim } from '../estimates/aims.ts';
import type { PositionEstimates } from '../estimates/estimates.ts';
import { type MagnetExchanges, magnetExchanges } from '../estimates/magnet-estimates.ts';
import { MISMATCH_KEYS, type Mismatch, type MismatchKey } from '../estimates/mismatch.ts';
import type { Magnet } from '../model/magnet.ts';
import { isSilentDb } from '../physics/circuit/silence.ts';
import type { NextMeasurement } from '../proposal/measure-next.ts';
import type { NextInInstrument } from '../proposal/measure-next-instrument.ts';
import { type Estimate, estimateOf } from '../quantities/estimate.ts';
import { type Figure, figureOf } from '../quantities/figure.ts';
import { ENGLISH } from '../words/languages/language.ts';
import { COIL_NUMBERS, keysOf, PICKUP_NUMBERS, POSITION_NUMBERS } from '../words/numbers.ts';
import { numberData } from './comparison-data.ts';

/** Left out where it is not known; `null` where there is none. */
type Figures<K extends string> = { readonly [key in K]?: Figure | null };

export type ReportData = ReturnType<typeof reportData>;
export type PickupData = ReturnType<typeof pickupData>;
export type PositionData = ReturnType<typeof positionData>;

/** What a report is made with beside the spec's own facts. */
export interface ReportOptions {
  /** Magnets that may stand in the place of a pickup's own. */
  readonly magnets?: readonly Magnet[];
  /** Farad of cable instead of the default load's. */
  readonly cableF?: number | undefined;
  /** A pickup beside the state before its rework; none where it has not been reworked. */
  readonly rework?: (pickup: PickupAnalysis) => Rework | undefined;
  /** What is best measured next; none where nothing is open. */
  readonly next?: (pickup: PickupAnalysis) => NextMeasurement | undefined;
  readonly nextIn?: (instrument: InstrumentAnalysis) => NextInInstrument | undefined;
}

export function pickupData(analysis: PickupAnalysis, { magnets = [], cableF, rework, next }: ReportOptions = {}) {
  const estimates = analysis.estimates(cableF);
  const unequal = analysis.mismatch(cableF);
  const { coils, phase, leadReadings, isSweptWhole } = estimates;
  return {
    coils: nullPrototype([...coils].map(([name, coil]) => [name, figuresOf(coil, keysOf(COIL_NUMBERS))])),
    ...figuresOf(estimates, keysOf(PICKUP_NUMBERS)),
    phase,
    /** Only of a pickup of which nothing is known but a sweep of all of it. */
    isSweptWhole,
    leadReadings: leadReadings.map((reading) => ({
      leads: reading.leads,
      resistanceOhm: reading.resistanceOhm === null ? null : (figureOf(reading.resistanceOhm) ?? null),
      toleranceOhm: reading.toleranceOhm,
      temperatureC: reading.temperatureC,
    })),
    /** Only where it states a target. */
    target: targetData(analysis),
    /** Only where something is open that a reading settles. */
    measureNext: nextData(next?.(analysis)),
    /** Only where it was reworked: what that changed. */
    rework: reworkData(rework?.(analysis)),
    /** Only where two coils have unequal turn-areas. */
    mismatch: unequal && mismatchData(unequal),
    /** Only where the pickup has a bar magnet, by the name of the other magnet. */
    magnets: exchangesData(magnetExchanges(analysis.pickup, magnets)),
  };
}

function reworkData(rework: Rework | undefined) {
  if (rework === undefined) return undefined;
  const { before, after, facts, label } = rework;
  const { numbers, phases } = compareNumbers(before, after, facts.renamed);
  const own = <T extends { readonly path: readonly string[] }>(all: readonly T[]): readonly T[] =>
    all.filter(({ path }) => path[0]?.startsWith('pickup '));
  return { before: label(ENGLISH), numbers: own(numbers).map(numberData), phases: own(phases) };
}

function nextData(next: NextMeasurement | undefined) {
  if (next === undefined) return undefined;
  return {
    line: next.line,
    minutes: next.minutes,
    settles: next.settles.map((each) => {
      if (each.kind === 'number') return { of: each.number };
      return each.kind === 'target'
        ? { of: each.kind, target: each.aim.kind }
        : { of: each.kind, coil: each.coil.name };
    }),
  };
}

function targetData({ aims }: PickupAnalysis) {
  const judged = aims();
  return judged.length === 0 ? undefined : judged.map(aimData);
}

/** Of a target: what is wanted in SI, how far the build may come out from it, what it comes to, and the odds of that. */
export const aimData = ({ aim, reached, odds, verdict }: JudgedAim) => ({
  of: aim.kind,
  load: aim.load,
  between: aim.between && [aim.between.coil, aim.between.other],
  against: aim.against?.name,
  wanted: aim.wanted,
  tolerance: aim.tolerance,
  reached: reached && figureOf(reached),
  odds,
  verdict,
});

function mismatchData({ coil, other, matchedTurns, fits, figures }: Mismatch) {
  const states: { [key in MismatchKey]?: { built: Figure; matched: Figure; difference: Figure | undefined } } = {};
  for (const key of MISMATCH_KEYS) {
    const figure = figures[key];
    const [built, matched] = [figure && figureOf(figure.built), figure && figureOf(figure.matched)];
    const difference = figure?.difference && figureOf(figure.difference);
    if (built && matched) states[key] = { built, matched, difference };
  }
  return { coil: coil.name, other: other.name, matchedTurns, fits, ...states };
}

function exchangesData(found: MagnetExchanges | undefined) {
  if (!found || found.exchanges.length === 0) return undefined;
  const { coil, material: own, exchanges } = found;
  return nullPrototype(
    exchanges.flatMap(({ magnet, material, change }) => {
      const words = [
        `now: ${own.words}`,
        `then: ${material.words}`,
        'same size, both fully charged',
        `over ${coil.name}`,
      ];
      const figure = ({ value, sd }: { readonly value: number; readonly sd: number }) =>
        figureOf(estimateOf(value, { sd, basis: 'computed', restsOn: words }));
      const [fieldRatio, outputDb, pullRatio] = [change.fieldRatio, change.outputDb, change.pullRatio].map(figure);
      return fieldRatio && outputDb && pullRatio ? [[magnet.name, { fieldRatio, outputDb, pullRatio }] as const] : [];
    }),
  );
}

export function positionData(estimates: PositionEstimates) {
  const { key, title, phase, response, untold } = estimates;
  return {
    key,
    title,
    ...figuresOf(estimates, keysOf(POSITION_NUMBERS)),
    phase,
    /** A level is `null` where it is silence. */
    response: response && { ...response, levelDb: response.levelDb.map(silenceIsNull) },
    /** Only where a sweep leaves the response open: why, and between which ends one would tell it. */
    untold,
  };
}

export function reportData(
  pickups: readonly PickupAnalysis[],
  instruments: readonly (readonly [InstrumentAnalysis, readonly PositionEstimates[]])[],
  options: ReportOptions = {},
) {
  return {
    schema: 'report/1',
    pickups: nullPrototype(pickups.map((each) => [each.pickup.name, pickupData(each, options)])),
    instruments: nullPrototype(
      instruments.map(([each, positions]) => {
        const next = options.nextIn?.(each);
        const measureNext = next && { ...nextData(next), pickup: next.pickup.name };
        return [each.instrument.name, { positions: positions.map(positionData), measureNext }];
      }),
    ),
  };
}

/** The keys are named one by one, so that nothing internal becomes part of a published output. */
function figuresOf<K extends string>(
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

const silenceIsNull = (db: number): number | null => (isSilentDb(db) ? null : db);

/** Names come from a spec, and `__proto__` is a name like any other. */
function nullPrototype<T>(entries: readonly (readonly [string, T])[]): Readonly<Record<string, T>> {
  const record: Record<string, T> = Object.create(null);
  for (const [name, value] of entries) record[name] = value;
  return record;
}
