import { meanTurnAreaM2, type Racetrack, turnAreaM2, turnLengthM } from './racetrack.ts';
import { solveIncreasing } from './solve-increasing.ts';

/** What a coil is wound on and with. All lengths in metres. */
export interface Winding {
  core: Racetrack;
  /** Axial height of the winding space, between the flanges. */
  heightM: number;
  /** Over the enamel. */
  overallDiameterM: number;
  laying: Laying;
}

/**
 * How the turns lie. `scatter` (random winding, the usual case) is described by its packing: the sum of the overall
 * wire sections, N π D²/4, over the section filled. `layers` lie side by side at a pitch of one overall diameter,
 * layer on layer (`square`) or in the grooves of the layer below (`nested`).
 */
export type Laying = { kind: 'scatter'; packing: number } | { kind: 'layers'; stacking: 'square' | 'nested' };

/** A wound coil, as far as geometry goes. */
export interface WoundCoil {
  turns: number;
  wireLengthM: number;
  meanTurnM: number;
  /** Sum of the areas of all turns: what a uniform field and a mutual inductance see. */
  turnAreaM2: number;
  meanTurnAreaM2: number;
  /** Radial depth of the winding from the core outward. */
  buildM: number;
  packing: number;
  /** Absent for a scatter winding, which has no layers. */
  layers?: Layers;
}

export interface Layers {
  count: number;
  turnsInOddLayers: number;
  turnsInEvenLayers: number;
  turnsInLastLayer: number;
}

/**
 * The coil that `turns` turns make. A scatter winding fills the whole height evenly from the core outward, so its build is
 * N π D²/4 / (packing · height). A layered winding is summed layer by layer: the centre line of layer j runs D/2 + (j − 1)
 * pitches outside the core, pitch D (square) or D √3/2 (nested); nested even layers hold the turns that fit into the grooves.
 * Valid for turns ≥ 0 (fractions allowed), positive lengths, and a height of at least one overall diameter.
 * Source: geometry. Against a real bobbin nothing is better than 2 %: tension, bulging flanks, lead-in.
 */
export function windCoil(winding: Winding, turns: number): WoundCoil {
  return winding.laying.kind === 'scatter'
    ? windScatter(winding, winding.laying.packing, turns)
    : windLayers(winding, winding.laying.stacking, turns);
}

/**
 * Length of wire in the first `turns` turns from the start (the inner end), metres: what a tap at that turn, a progress
 * reading, or a wire that broke there, holds. The rest of a coil is the whole less its first turns.
 */
export function wireLengthOfFirstTurnsM(winding: Winding, turns: number): number {
  return windCoil(winding, turns).wireLengthM;
}

/**
 * Turns that a length of wire makes, a fraction included, and d(turns)/d(length) there, which is one over the length of
 * the outermost turn. Scatter: the positive root of the quadratic π² D²/(4 p h) N² + P₀ N = length; layers: by bisection on
 * the same sum that {@link windCoil} uses.
 */
export function turnsOfWireLength(winding: Winding, lengthM: number): { turns: number; turnsPerM: number } {
  if (!(lengthM > 0)) return { turns: 0, turnsPerM: 1 / turnLengthM(winding.core, 0) };
  const turns =
    winding.laying.kind === 'scatter'
      ? scatterTurns(winding, winding.laying.packing, lengthM)
      : layerTurns(winding, lengthM);
  const step = Math.max(turns * 1e-4, 1e-3);
  const outerTurnM =
    (wireLengthOfFirstTurnsM(winding, turns + step) - wireLengthOfFirstTurnsM(winding, Math.max(turns - step, 0))) /
    (step + Math.min(step, turns));
  return { turns, turnsPerM: 1 / outerTurnM };
}

/**
 * Turns whose wire reads `resistanceAt20COhm` at `ohmPerM` (both at 20 degC: bring a reading to 20 degC first), and
 * d(turns)/d(ohm) there.
 */
export function turnsOfResistance(
  winding: Winding,
  { resistanceAt20COhm, ohmPerM }: { resistanceAt20COhm: number; ohmPerM: number },
): { turns: number; turnsPerOhm: number } {
  const { turns, turnsPerM } = turnsOfWireLength(winding, resistanceAt20COhm / ohmPerM);
  return { turns, turnsPerOhm: turnsPerM / ohmPerM };
}

/** Whether a coil fits the depth of its window, and how many turns would fill it. */
export interface WindingFit {
  fits: boolean;
  /** Build over depth: above 1 it does not fit. */
  filled: number;
  /** Depth left; negative where the build is deeper than the window. */
  spareM: number;
  turnsThatFit: number;
}

/** Compares the build of `turns` turns with the depth of the winding space, from the core to the flange's edge. */
export function windingFit(winding: Winding, turns: number, depthM: number): WindingFit {
  const { buildM } = windCoil(winding, turns);
  const turnsThatFit = Math.floor(turnsOfBuild(winding, depthM) + ROUNDING);
  return { fits: buildM <= depthM * (1 + ROUNDING), filled: buildM / depthM, spareM: depthM - buildM, turnsThatFit };
}

/** Packing of a scatter winding whose build was measured: N π D²/4 / (height · build). */
export function packingOfBuild({
  turns,
  overallDiameterM,
  heightM,
  buildM,
}: {
  turns: number;
  overallDiameterM: number;
  heightM: number;
  buildM: number;
}): number {
  return (turns * wireSectionM2(overallDiameterM)) / (heightM * buildM);
}

/**
 * Packing of a scatter winding of fine enamelled wire by hand-guided machine, one standard deviation: from 0.55 loose to 0.72
 * tight. Common practice, no published source.
 */
export const SCATTER_PACKING = { value: 0.64, sd: 0.04 } as const;

/** Guards floor() of a quotient that is whole but for rounding, such as 6.35 / 0.0635. */
const ROUNDING = 1e-9;

function windScatter({ core, heightM, overallDiameterM }: Winding, packing: number, turns: number): WoundCoil {
  const buildM = (turns * wireSectionM2(overallDiameterM)) / (packing * heightM);
  const meanTurnM = turnLengthM(core, buildM / 2);
  const meanAreaM2 = meanTurnAreaM2(core, buildM);
  return {
    turns,
    wireLengthM: turns * meanTurnM,
    meanTurnM,
    turnAreaM2: turns * meanAreaM2,
    meanTurnAreaM2: meanAreaM2,
    buildM,
    packing,
  };
}

function windLayers(winding: Winding, stacking: 'square' | 'nested', turns: number): WoundCoil {
  const { core, heightM, overallDiameterM } = winding;
  const { odd, even, pitchM } = layerPitch(winding, stacking);
  const layers = layersOf(turns, odd, even);
  let wireLengthM = 0;
  let areaM2 = 0;
  for (let layer = 1; layer <= layers.count; layer++) {
    const inLayer = layer === layers.count ? layers.turnsInLastLayer : layer % 2 === 1 ? odd : even;
    const offsetM = overallDiameterM / 2 + (layer - 1) * pitchM;
    wireLengthM += inLayer * turnLengthM(core, offsetM);
    areaM2 += inLayer * turnAreaM2(core, offsetM);
  }
  const buildM = layers.count === 0 ? 0 : overallDiameterM + (layers.count - 1) * pitchM;
  return {
    turns,
    wireLengthM,
    meanTurnM: turns > 0 ? wireLengthM / turns : turnLengthM(core, 0),
    turnAreaM2: areaM2,
    meanTurnAreaM2: turns > 0 ? areaM2 / turns : turnAreaM2(core, 0),
    buildM,
    packing: turns > 0 ? packingOfBuild({ turns, overallDiameterM, heightM, buildM }) : 0,
    layers,
  };
}

function layerPitch({ heightM, overallDiameterM }: Winding, stacking: 'square' | 'nested') {
  // A window lower than one wire still takes one turn to a layer: the fit of the height is judged by the caller.
  const odd = Math.max(1, Math.floor(heightM / overallDiameterM + ROUNDING));
  const inGrooves = Math.max(1, Math.floor(heightM / overallDiameterM - 0.5 + ROUNDING));
  return stacking === 'square'
    ? { odd, even: odd, pitchM: overallDiameterM }
    : { odd, even: inGrooves, pitchM: (overallDiameterM * Math.sqrt(3)) / 2 };
}

function layersOf(turns: number, odd: number, even: number): Layers {
  const pairs = Math.floor(turns / (odd + even));
  const left = turns - pairs * (odd + even);
  const of = (count: number, turnsInLastLayer: number): Layers => ({
    count,
    turnsInOddLayers: odd,
    turnsInEvenLayers: even,
    turnsInLastLayer,
  });
  if (left > odd) return of(2 * pairs + 2, left - odd);
  if (left > 0) return of(2 * pairs + 1, left);
  return of(2 * pairs, pairs > 0 ? even : 0);
}

function scatterTurns({ core, heightM, overallDiameterM }: Winding, packing: number, lengthM: number): number {
  const innermostM = turnLengthM(core, 0);
  const growthM = (Math.PI * wireSectionM2(overallDiameterM)) / (packing * heightM);
  return (2 * lengthM) / (innermostM + Math.sqrt(innermostM ** 2 + 4 * growthM * lengthM));
}

function layerTurns(winding: Winding, lengthM: number): number {
  // No turn is shorter than one around the bare core.
  const high = lengthM / turnLengthM(winding.core, 0);
  const length = (turns: number) => wireLengthOfFirstTurnsM(winding, turns);
  return solveIncreasing(length, { target: lengthM, low: 0, high, tolerance: 1e-14 }) ?? high;
}

function turnsOfBuild(winding: Winding, buildM: number): number {
  const { laying, heightM, overallDiameterM } = winding;
  if (laying.kind === 'scatter') return (buildM * laying.packing * heightM) / wireSectionM2(overallDiameterM);
  if (buildM < overallDiameterM) return 0;
  const { odd, even, pitchM } = layerPitch(winding, laying.stacking);
  const layers = 1 + Math.floor((buildM - overallDiameterM) / pitchM + ROUNDING);
  return Math.ceil(layers / 2) * odd + Math.floor(layers / 2) * even;
}

function wireSectionM2(overallDiameterM: number): number {
  return (Math.PI / 4) * overallDiameterM ** 2;
}
