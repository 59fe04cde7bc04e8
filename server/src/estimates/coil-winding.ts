/**
 * A coil as wound: turns, wire, build, resistance. From turns and bobbin, or from a reading where nobody knows the turns.
 * A reading of the coil replaces what its turns compute to; the computed value then checks the reading.
 */

import type { Coil } from '../model/coil.ts';
import type { Spool, Wire } from '../model/wire.ts';
import {
  SCATTER_PACKING,
  turnsOfResistance,
  type Winding,
  windCoil,
  wireLengthOfFirstTurnsM,
} from '../physics/coil-geometry.ts';
import { racetrackOfCore } from '../physics/racetrack.ts';
import {
  bareDiameterOfResistance,
  bareDiameterRelativeSd,
  copperTemperatureFactor,
  overallDiameterRelativeSd,
  resistanceOhmPerM,
  type WireSize,
  wireDiameters,
  wireMass,
} from '../physics/wire.ts';
import { type Estimate, estimateOf, functionOf, restingOn } from '../quantities/estimate.ts';
import { causes } from './causes.ts';
import { ROOM_TEMPERATURE_SD_K, STATED_TEMPERATURE_SD_K } from './coil-temperature.ts';
import type { CoilEstimates } from './estimates.ts';

/** A resistance read across the whole coil, brought to 20 degC. */
export interface CoilReading {
  readonly at20COhm: Estimate;
  readonly words: string;
}

export interface WindingEstimates extends Omit<CoilEstimates, 'inductanceAirH' | 'inductanceH' | 'capacitanceF'> {
  /** What the turns compute to, whether or not a reading stands in its place. */
  readonly computed20COhm: Estimate | undefined;
  readonly turnsFromReading: boolean;
  /** Diameters that the geometry used. */
  readonly overallDiameterM: Estimate | undefined;
  readonly bareDiameterM: Estimate | undefined;
  /** The winding's geometry at its best values. */
  readonly geometry: Winding | undefined;
  /** Share of the wire in the first turns, given as a share of all turns. */
  lengthShareOfFirst(shareOfTurns: number): number;
}

/** `path` names the coil among all of an instrument, so that the causes of its error are its own. */
export function estimateWinding(coil: Coil, reading: CoilReading | undefined, path: string): WindingEstimates {
  const ohmPerM20C = ohmPerMetre(coil.wire, coil.spool);
  const overall = overallDiameter(coil.wire);
  const bare = ohmPerM20C && functionOf([ohmPerM20C], ([ohm = 1]) => bareDiameterOfResistance(ohm));
  const packing = packingOf(coil, path);
  const geometry = coil.bobbin?.core && coil.bobbin.window ? coil.bobbin : undefined;
  const stated = statedTurns(coil, path);
  const shape = (values: readonly number[]): Winding | undefined => {
    const [overallDiameterM = Number.NaN, packed = Number.NaN, stretch = 1] = values;
    const core = geometry?.core?.value;
    const window = geometry?.window?.value;
    if (!core || !window) return undefined;
    return {
      core: racetrackOfCore({
        lengthM: core.length.si * stretch,
        widthM: core.width.si * stretch,
        ...(core.corner ? { cornerRadiusM: core.corner.si } : {}),
      }),
      heightM: window.height.si,
      overallDiameterM,
      laying: { kind: 'scatter', packing: packed },
    };
  };

  const ready = geometry !== undefined && overall !== undefined;
  const outline = estimateOf(1, { sd: GEOMETRY_RELATIVE_SD, basis: 'assumed', source: causes.bobbin(path) });
  const inputs = overall ? [overall, packing, outline] : [];
  const turns =
    stated ??
    (ready && reading && ohmPerM20C
      ? restingOn(
          functionOf([...inputs, reading.at20COhm, ohmPerM20C], (v) => {
            const winding = shape(v);
            return winding
              ? turnsOfResistance(winding, { resistanceAt20COhm: v[3] ?? Number.NaN, ohmPerM: v[4] ?? Number.NaN })
                  .turns
              : Number.NaN;
          }),
          `turns from ${reading.words}`,
        )
      : undefined);
  const wound = (pick: (coil: ReturnType<typeof windCoil>, winding: Winding) => number): Estimate | undefined =>
    ready && turns
      ? functionOf([...inputs, turns], (v) => {
          const winding = shape(v);
          return winding ? pick(windCoil(winding, Math.max(0, v[3] ?? 0)), winding) : Number.NaN;
        })
      : undefined;

  const wireLengthM = wound(({ wireLengthM: length }) => length);
  const computed20COhm =
    stated && ready && ohmPerM20C
      ? functionOf([...inputs, stated, ohmPerM20C], (v) => {
          const winding = shape(v);
          return winding ? windCoil(winding, Math.max(0, v[3] ?? 0)).wireLengthM * (v[4] ?? Number.NaN) : Number.NaN;
        })
      : undefined;
  const best = ready ? shape(inputs.map(({ value }) => value)) : undefined;
  const depth = geometry?.window?.value.depth.si;
  const buildM = wound(({ buildM: build }) => build);
  return {
    turns,
    turnsFromReading: stated === undefined && turns !== undefined,
    computed20COhm,
    resistance20COhm: reading?.at20COhm ?? computed20COhm,
    ohmPerM20C,
    wireLengthM,
    wireMassKg:
      wireLengthM && bare && overall
        ? functionOf(
            [wireLengthM, bare, overall],
            ([length = 0, bareM = 0, overallM = 0]) => length * wireMass(bareM, overallM).totalKgPerM,
          )
        : undefined,
    meanTurnM: wound(({ meanTurnM }) => meanTurnM),
    turnAreaM2: wound(({ turnAreaM2 }) => turnAreaM2),
    buildM,
    layers:
      buildM && overall
        ? functionOf([buildM, overall], ([build = 0, diameter = 1]) => build / (diameter * NESTED_PITCH))
        : undefined,
    packing,
    windowFilled: buildM && depth ? functionOf([buildM], ([build = 0]) => build / depth) : undefined,
    overallDiameterM: overall,
    bareDiameterM: bare,
    geometry: best,
    lengthShareOfFirst: (share) => {
      const all = turns?.value;
      if (!best || all === undefined) return share;
      return wireLengthOfFirstTurnsM(best, share * all) / wireLengthOfFirstTurnsM(best, all);
    },
  };
}

/**
 * What a wound coil's outline differs from the stated core by: tension rounds the flanks and lead-ins cross. One standard
 * deviation, relative; common practice, no published source.
 */
const GEOMETRY_RELATIVE_SD = 0.005;

/** A spool measured over some metres with a bench meter, where no ± is stated. Common practice, no published source. */
const SPOOL_RELATIVE_SD = 0.005;

/** Radial pitch of nested layers over the diameter; a scatter winding has no layers, so their number is an equivalent. */
const NESTED_PITCH = Math.sqrt(3) / 2;

function statedTurns(coil: Coil, path: string): Estimate | undefined {
  const stated = coil.counted ?? coil.turns;
  if (!stated) return undefined;
  return estimateOf(stated.value.si, {
    sd: stated.value.sd ?? 0,
    basis: 'declared',
    restsOn: [coil.counted ? 'turns as counted' : 'turns as planned'],
    source: causes.turns(path),
  });
}

function packingOf(coil: Coil, path: string): Estimate {
  const source = causes.packing(path);
  return coil.packing
    ? estimateOf(coil.packing.value.si, {
        sd: coil.packing.value.sd ?? STATED_PACKING_SD,
        basis: 'declared',
        restsOn: [`packing ${coil.packing.value.written}`],
        source,
      })
    : estimateOf(SCATTER_PACKING.value, {
        sd: SCATTER_PACKING.sd,
        basis: 'assumed',
        restsOn: [`packing ${SCATTER_PACKING.value}, assumed`],
        source,
      });
}

/** A packing that a winder states is known about this well. Common practice, no published source. */
const STATED_PACKING_SD = 0.02;

export function wireSize(wire: Wire | undefined): WireSize | undefined {
  if (wire?.bareDiameter) return { bareDiameterM: wire.bareDiameter.value.si };
  return wire?.gaugeAwg ? { awg: wire.gaugeAwg.value } : undefined;
}

export function ohmPerMetre(wire: Wire | undefined, spool: Spool | undefined): Estimate | undefined {
  if (spool?.measured) {
    const { resistancePerLength, temperatureC } = spool.measured.value;
    const ohmPerM = resistancePerLength.si / copperTemperatureFactor(temperatureC ?? 20);
    const readRelativeSd = resistancePerLength.sd ? resistancePerLength.sd / resistancePerLength.si : SPOOL_RELATIVE_SD;
    const temperatureSdK = temperatureC === undefined ? ROOM_TEMPERATURE_SD_K : STATED_TEMPERATURE_SD_K;
    return estimateOf(ohmPerM, {
      sd: ohmPerM * Math.hypot(readRelativeSd, temperatureSdK * (copperTemperatureFactor(21) - 1)),
      basis: 'reading',
      restsOn: [
        `spool ${spool.name} measures ${resistancePerLength.written}${temperatureC === undefined ? ' at 20 degC, assumed' : ''}`,
      ],
      source: causes.spool(spool.name),
    });
  }
  const size = wireSize(wire);
  if (!size || !wire) return undefined;
  const diameters = wireDiameters(size, wire.build?.value ?? 'single');
  const ohmPerM = resistanceOhmPerM(diameters.bareM);
  return estimateOf(ohmPerM, {
    sd: 2 * bareDiameterRelativeSd(diameters) * ohmPerM,
    basis: 'computed',
    restsOn: [`${sizeWords(wire)} by its nominal diameter, within the tolerance of ${diameters.standard}`],
    source: spool ? causes.spool(spool.name) : causes.wire(wire.name),
  });
}

function sizeWords(wire: Wire): string {
  return wire.gaugeAwg ? `${wire.gaugeAwg.value} AWG` : `${wire.bareDiameter?.value.written ?? 'wire'} bare`;
}

function overallDiameter(wire: Wire | undefined): Estimate | undefined {
  if (!wire) return undefined;
  const source = causes.overallDiameter(wire.name);
  if (wire.overallDiameter) {
    const { si, sd, written } = wire.overallDiameter.value;
    return estimateOf(si, { sd: sd ?? MICROMETER_SD_M, basis: 'declared', restsOn: [`overall ${written}`], source });
  }
  const size = wireSize(wire);
  if (!size) return undefined;
  const build = wire.build?.value ?? 'single';
  const diameters = wireDiameters(size, build);
  return estimateOf(diameters.overallM, {
    sd: overallDiameterRelativeSd(diameters) * diameters.overallM,
    basis: wire.build ? 'computed' : 'assumed',
    restsOn: [`${build} build by ${diameters.standard}${wire.build ? '' : ', assumed'}`],
    source,
  });
}

/** A workshop micrometer on enamelled wire. Common practice, no published source. */
const MICROMETER_SD_M = 1e-6;
