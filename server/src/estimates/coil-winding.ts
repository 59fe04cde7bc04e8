/**
 * A coil as wound: turns, wire, build, resistance. From turns and bobbin, or from a reading where nobody knows the turns.
 * A reading of the coil replaces what its turns compute to; the computed value then checks the reading.
 */

import { given } from '../../../grammar/values/present.ts';
import type { Coil } from '../model/coil.ts';
import type { Spool, Wire } from '../model/wire.ts';
import {
  SCATTER_PACKING,
  turnsOfResistance,
  type Winding,
  type WoundCoil,
  windCoil,
  wireLengthOfFirstTurnsM,
} from '../physics/coil-geometry.ts';
import { type Racetrack, racetrackOfCore } from '../physics/racetrack.ts';
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
import {
  MICROMETER_SD_M,
  OUTLINE_RELATIVE_SD,
  ROOM_TEMPERATURE_SD_K,
  SPOOL_READING_RELATIVE_SD,
  STATED_PACKING_SD,
  STATED_TEMPERATURE_SD_K,
} from './common-practice.ts';
import type { CoilEstimates } from './estimates.ts';
import { because } from './reasons.ts';

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
  /** The same with what is not known of it. */
  readonly space: WindingSpace | undefined;
  /** Share of the wire in the first turns, given as a share of all turns. */
  lengthShareOfFirst(shareOfTurns: number): number;
  /** Share of the turn-area in them. */
  areaShareOfFirst(shareOfTurns: number): number;
}

/**
 * What is told of a coil: nothing that was only put in the place of what nobody knows, its part of a closed pickup, say, or the packing of
 * a coil without turns.
 */
export const told = <T extends Pick<CoilEstimates, 'resistance20COhm' | 'packing' | 'turns'>>(winding: T): T => ({
  ...winding,
  resistance20COhm: winding.resistance20COhm?.basis === 'assumed' ? undefined : winding.resistance20COhm,
  packing: winding.packing?.basis === 'assumed' && !winding.turns ? undefined : winding.packing,
});

/** `path` names the coil among all of an instrument, so that the causes of its error are its own. */
export function estimateWinding(coil: Coil, reading: CoilReading | undefined, path: string): WindingEstimates {
  const ohmPerM20C = ohmPerMetre(coil.wire, coil.spool);
  const overall = overallDiameter(coil.wire);
  const bare = ohmPerM20C && functionOf([ohmPerM20C], ([ohmPerM]) => bareDiameterOfResistance(ohmPerM));
  const packing = packingOf(coil, path);
  const space = overall && windingSpace(coil, overall, packing, path);
  const stated = statedTurns(coil, path);
  const turns = stated ?? (space && reading && ohmPerM20C && turnsThatRead(space, reading, ohmPerM20C));
  const wound = (pick: (coil: WoundCoil) => number): Estimate | undefined =>
    space && turns && functionOf([...space.inputs, turns], ([d, p, s, count]) => pick(space.wound([d, p, s], count)));
  const wireLengthM = wound((coil) => coil.wireLengthM);
  const buildM = wound((coil) => coil.buildM);
  const computed20COhm = stated && ohmPerM20C && space && computedOhm(space, stated, ohmPerM20C);
  return {
    turns,
    turnsFromReading: stated === undefined && turns !== undefined,
    computed20COhm,
    resistance20COhm: reading?.at20COhm ?? computed20COhm,
    ohmPerM20C,
    wireLengthM,
    wireMassKg:
      wireLengthM &&
      bare &&
      overall &&
      functionOf([wireLengthM, bare, overall], ([lengthM, bareM, overallM]) => {
        return lengthM * wireMass(bareM, overallM).totalKgPerM;
      }),
    meanTurnM: wound((coil) => coil.meanTurnM),
    turnAreaM2: wound((coil) => coil.turnAreaM2),
    buildM,
    layers:
      buildM && overall && functionOf([buildM, overall], ([build, diameter]) => build / (diameter * NESTED_PITCH)),
    packing,
    windowFilled: space && buildM && functionOf([buildM], ([build]) => build / space.depthM),
    overallDiameterM: overall,
    bareDiameterM: bare,
    geometry: space?.best,
    space,
    lengthShareOfFirst: (share) => {
      if (!space || !turns) return share;
      const length = (count: number) => wireLengthOfFirstTurnsM(space.best, count);
      return length(share * turns.value) / length(turns.value);
    },
    areaShareOfFirst: (share) => {
      if (!space || !turns) return share;
      const area = (count: number) => windCoil(space.best, count).turnAreaM2;
      return area(share * turns.value) / area(turns.value);
    },
  };
}

/** The space of a bobbin that a winding fills, with what is not known of it. */
export interface WindingSpace {
  /** Overall diameter, packing, and the factor of the core's outline. */
  readonly inputs: Three<Estimate>;
  /** At the best values. */
  readonly best: Winding;
  readonly depthM: number;
  winding(values: Three<number>): Winding;
  wound(values: Three<number>, turns: number): WoundCoil;
}

export type Three<T> = readonly [T, T, T];

/** A bobbin's core as the innermost turn lies on it; `stretch`: how much larger it is than stated. */
export const racetrackOf = ({ length, width, corner }: StatedCore, stretch = 1): Racetrack =>
  racetrackOfCore({
    lengthM: length.si * stretch,
    widthM: width.si * stretch,
    ...given({ cornerRadiusM: corner?.si }),
  });

type StatedCore = NonNullable<NonNullable<Coil['bobbin']>['core']>['value'];

/** `undefined` where the bobbin does not say its core and window. */
function windingSpace({ bobbin }: Coil, overall: Estimate, packing: Estimate, path: string): WindingSpace | undefined {
  const [core, window] = [bobbin?.core?.value, bobbin?.window?.value];
  if (!core || !window) return undefined;
  const outline = estimateOf(1, { sd: OUTLINE_RELATIVE_SD, basis: 'assumed', source: causes.bobbin(path) });
  const winding = ([overallDiameterM, packed, stretch]: Three<number>): Winding => ({
    core: racetrackOf(core, stretch),
    heightM: window.height.si,
    overallDiameterM,
    laying: { kind: 'scatter', packing: packed },
  });
  return {
    inputs: [overall, packing, outline],
    best: winding([overall.value, packing.value, outline.value]),
    depthM: window.depth.si,
    winding,
    wound: (values, turns) => windCoil(winding(values), Math.max(0, turns)),
  };
}

const turnsThatRead = (space: WindingSpace, { at20COhm, words }: CoilReading, ohmPerM20C: Estimate): Estimate =>
  restingOn(
    functionOf([...space.inputs, at20COhm, ohmPerM20C], ([d, p, s, resistanceAt20COhm, ohmPerM]) => {
      return turnsOfResistance(space.winding([d, p, s]), { resistanceAt20COhm, ohmPerM }).turns;
    }),
    because('turns from {0}', words),
  );

const computedOhm = (space: WindingSpace, turns: Estimate, ohmPerM20C: Estimate): Estimate =>
  functionOf([...space.inputs, turns, ohmPerM20C], ([d, p, s, count, ohmPerM]) => {
    return space.wound([d, p, s], count).wireLengthM * ohmPerM;
  });

/** Radial pitch of nested layers over the diameter; a scatter winding has no layers, so their number is an equivalent. */
const NESTED_PITCH = Math.sqrt(3) / 2;

function statedTurns(coil: Coil, path: string): Estimate | undefined {
  const stated = coil.counted ?? coil.turns;
  if (!stated) return undefined;
  return estimateOf(stated.value.si, {
    sd: stated.value.sd ?? 0,
    basis: 'stated',
    restsOn: [because(coil.counted ? 'turns as counted' : 'turns as planned')],
    source: causes.turns(path),
  });
}

function packingOf(coil: Coil, path: string): Estimate {
  const source = causes.packing(path);
  return coil.packing
    ? estimateOf(coil.packing.value.si, {
        sd: coil.packing.value.sd ?? STATED_PACKING_SD,
        basis: 'stated',
        restsOn: [because('packing {0}', coil.packing.value.written)],
        source,
      })
    : estimateOf(SCATTER_PACKING.value, {
        sd: SCATTER_PACKING.sd,
        basis: 'assumed',
        restsOn: [because('packing {0}', because('{0}, assumed', SCATTER_PACKING.value))],
        source,
      });
}

export function wireSize(wire: Wire | undefined): WireSize | undefined {
  if (wire?.bareDiameter) return { bareDiameterM: wire.bareDiameter.value.si };
  return wire?.gaugeAwg ? { awg: wire.gaugeAwg.value } : undefined;
}

export function ohmPerMetre(wire: Wire | undefined, spool: Spool | undefined): Estimate | undefined {
  if (spool?.measured) {
    const { resistancePerLength, temperatureC } = spool.measured.value;
    const ohmPerM = resistancePerLength.si / copperTemperatureFactor(temperatureC ?? 20);
    const readRelativeSd = resistancePerLength.sd
      ? resistancePerLength.sd / resistancePerLength.si
      : SPOOL_READING_RELATIVE_SD;
    const temperatureSdK = temperatureC === undefined ? ROOM_TEMPERATURE_SD_K : STATED_TEMPERATURE_SD_K;
    return estimateOf(ohmPerM, {
      sd: ohmPerM * Math.hypot(readRelativeSd, temperatureSdK * (copperTemperatureFactor(21) - 1)),
      basis: 'reading',
      restsOn: [
        because(
          temperatureC === undefined ? 'spool {0} measures {1} at 20\u202F°C, assumed' : 'spool {0} measures {1}',
          spool.name,
          resistancePerLength.written,
        ),
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
    restsOn: [
      wire.gaugeAwg
        ? because(
            '{0} by its nominal diameter, within the tolerance of {1}',
            `${wire.gaugeAwg.value} AWG`,
            diameters.standard,
          )
        : because(
            '{0} bare by its nominal diameter, within the tolerance of {1}',
            wire.bareDiameter?.value.written ?? '',
            diameters.standard,
          ),
    ],
    source: spool ? causes.spool(spool.name) : causes.wire(wire.name),
  });
}

function overallDiameter(wire: Wire | undefined): Estimate | undefined {
  if (!wire) return undefined;
  const source = causes.overallDiameter(wire.name);
  if (wire.overallDiameter) {
    const { si, sd, written } = wire.overallDiameter.value;
    return estimateOf(si, {
      sd: sd ?? MICROMETER_SD_M,
      basis: 'stated',
      restsOn: [because('overall {0}', written)],
      source,
    });
  }
  const size = wireSize(wire);
  if (!size) return undefined;
  const build = wire.build?.value ?? 'single';
  const diameters = wireDiameters(size, build);
  return estimateOf(diameters.overallM, {
    sd: overallDiameterRelativeSd(diameters) * diameters.overallM,
    basis: wire.build ? 'computed' : 'assumed',
    restsOn: [
      because('{0} build by {1}', build, wire.build ? diameters.standard : because('{0}, assumed', diameters.standard)),
    ],
    source,
  });
}
