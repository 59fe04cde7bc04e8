/**
 * What a coil of one bobbin and one wire comes to over its turns, as curves in the logarithm of both: resistance, inductance by itself
 * with its poles, turn-area and mass of wire go nearly as powers of the turns, so few points serve.
 */
import { acrossWindingF } from '../estimates/coil-capacitance.ts';
import { ORIGIN, polesOf } from '../estimates/coil-places.ts';
import { estimateWinding, racetrackOf, type WindingEstimates } from '../estimates/coil-winding.ts';
import { WIRE_ALLOWANCE } from '../estimates/common-practice.ts';
import type { Bobbin } from '../model/bobbin.ts';
import type { Coil } from '../model/coil.ts';
import type { Pickup } from '../model/pickup.ts';
import { windCoil } from '../physics/coil-geometry.ts';
import { inductanceWithPoles } from '../physics/pole-pieces.ts';
import { wireMass } from '../physics/wire.ts';
import type { CoilOption } from './shelf.ts';

/** Of a coil with so many turns. */
export interface Wound {
  readonly ohm: number;
  /** By itself, H; left out where nothing asks for it. */
  readonly henry: number;
  /** Across its winding. */
  readonly farad: number;
  readonly areaM2: number;
  /** Of the wire, with what is lost at both ends and in breaks. */
  readonly kg: number;
}

export interface WindingCurve {
  at(logTurns: number): Wound;
  /** The most turns that the window holds, in their logarithm; and those that may be wound, which are the same unless one asks what if. */
  readonly windowLogTurns: number;
  readonly mostLogTurns: number;
}

const FEWEST_LOG = Math.log(100);
const MOST_LOG = Math.log(60_000);
const STEP = 0.1;
const POINTS = Math.ceil((MOST_LOG - FEWEST_LOG) / STEP) + 1;

export type InductancePerTurns = (bobbin: Bobbin, coil: Coil, buildM: number) => number;

/** `undefined` where wire or bobbin do not say enough. `perTurns`: where something asks for inductances. */
export function windingCurve(
  coil: Coil,
  { bobbin, wire, spool }: CoilOption,
  pickup: Pickup,
  perTurns: InductancePerTurns | undefined,
): WindingCurve | undefined {
  const wound: Coil = { ...coil, bobbin, wire, spool, turns: undefined, counted: undefined };
  const winding = estimateWinding(wound, undefined, '');
  const { space, ohmPerM20C, bareDiameterM, overallDiameterM } = winding;
  if (!space || !ohmPerM20C || !bareDiameterM || !overallDiameterM) return undefined;
  const kgPerM = wireMass(bareDiameterM.value, overallDiameterM.value).totalKgPerM * WIRE_ALLOWANCE;
  const curves = { ohm: logs(), henry: logs(), farad: logs(), areaM2: logs(), kg: logs() };
  let mostLogTurns = Number.POSITIVE_INFINITY;
  let before: { readonly logTurns: number; readonly buildM: number } | undefined;
  for (let point = 0; point < POINTS; point++) {
    const logTurns = FEWEST_LOG + point * STEP;
    const turns = Math.exp(logTurns);
    const { wireLengthM, meanTurnM, turnAreaM2, buildM } = windCoil(space.best, turns);
    curves.ohm[point] = Math.log(wireLengthM * ohmPerM20C.value);
    curves.areaM2[point] = Math.log(turnAreaM2);
    curves.farad[point] = perTurns
      ? Math.log(acrossWindingF(wound, pickup, [meanTurnM, turns, bareDiameterM.value, overallDiameterM.value]))
      : 0;
    curves.kg[point] = Math.log(wireLengthM * kgPerM);
    curves.henry[point] = perTurns ? Math.log(perTurns(bobbin, coil, buildM) * turns ** 2) : 0;
    if (buildM > space.depthM && mostLogTurns === Number.POSITIVE_INFINITY)
      mostLogTurns = before ? mostThatFit(winding, before.logTurns, logTurns) : Number.NEGATIVE_INFINITY;
    before = { logTurns, buildM };
  }
  const along = (curve: Float64Array, logTurns: number) => Math.exp(interpolated(curve, logTurns));
  return {
    windowLogTurns: mostLogTurns,
    mostLogTurns,
    at: (logTurns) => ({
      ohm: along(curves.ohm, logTurns),
      henry: along(curves.henry, logTurns),
      farad: along(curves.farad, logTurns),
      areaM2: along(curves.areaM2, logTurns),
      kg: along(curves.kg, logTurns),
    }),
  };
}

const logs = (): Float64Array => new Float64Array(POINTS);

function interpolated(curve: Float64Array, logTurns: number): number {
  const at = Math.min(POINTS - 1.000001, Math.max(0, (logTurns - FEWEST_LOG) / STEP));
  const point = Math.floor(at);
  const [low = 0, high = 0] = [curve[point], curve[point + 1]];
  return low + (at - point) * (high - low);
}

function mostThatFit({ space }: WindingEstimates, low: number, high: number): number {
  if (!space) return low;
  let [fits, over] = [low, high];
  for (let round = 0; round < 24; round++) {
    const middle = (fits + over) / 2;
    if (windCoil(space.best, Math.exp(middle)).buildM > space.depthM) over = middle;
    else fits = middle;
  }
  return fits;
}

/**
 * Inductance per turn squared of a coil on its bobbin's own poles: in logarithms a parabola over its build, through three windings that
 * are computed. Made once for each bobbin.
 */
export function inductancesPerTurns(): InductancePerTurns {
  const known = new Map<Bobbin, (buildM: number) => number>();
  return (bobbin, coil, buildM) => {
    const own = known.get(bobbin) ?? overBuild(bobbin, coil);
    known.set(bobbin, own);
    return own(buildM);
  };
}

/** Of the window's depth. */
const SHALLOW = 0.25;
/** From one of the three to the next. */
const DEEPER = 1.9;

function overBuild(bobbin: Bobbin, coil: Coil): (buildM: number) => number {
  const firstM = SHALLOW * (bobbin.window?.value.depth.si ?? 0);
  const at = (power: number): number => Math.log(perTurnSquaredH(bobbin, coil, firstM * DEEPER ** power) ?? Number.NaN);
  const [low, middle, high] = [at(0), at(1), at(2)];
  return (buildM) => {
    const t = Math.log(buildM / firstM) / Math.log(DEEPER) - 1;
    return Math.exp(middle + (t * (high - low)) / 2 + (t * t * (high - 2 * middle + low)) / 2);
  };
}

function perTurnSquaredH(bobbin: Bobbin, coil: Coil, buildM: number): number | undefined {
  const core = bobbin.core?.value;
  const heightM = bobbin.window?.value.height.si ?? 0;
  if (!core || !(heightM > 0) || !(buildM > 0)) return undefined;
  const section = { core: racetrackOf(core), buildM, heightM };
  const rods = polesOf({ ...coil, bobbin }, ORIGIN);
  return inductanceWithPoles({ coils: [{ section, centre: ORIGIN }], rods }).total[0]?.[0];
}
