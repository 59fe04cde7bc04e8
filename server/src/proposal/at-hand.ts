/**
 * What a build comes to by the models at hand, in microseconds: curves of each coil over its turns, joined as in one reference build of
 * the same pickup that was solved. Resonance and its height are that build's circuit with its inductances and resistances scaled. What
 * the reference does not tell (other couplings, other losses) is mended by factors from builds that have been analysed as a whole.
 */
import type { Aim } from '../estimates/aims.ts';
import { NO_SCALING } from '../estimates/electric.ts';
import { magnetLevelDb } from '../estimates/magnet-estimates.ts';
import { pickupMagnetics } from '../estimates/magnetics.ts';
import { ownCable } from '../estimates/own-cable.ts';
import { stringShare } from '../estimates/phase.ts';
import { loadOf, scaledResonance } from '../estimates/pickup-estimates.ts';
import type { QuickEstimates } from '../estimates/quick.ts';
import { resistanceWeights } from '../estimates/segment-shares.ts';
import { sounds } from '../estimates/signs.ts';
import { wholePickup } from '../estimates/whole-pickup.ts';
import { type Bench, benchRoomC } from '../model/bench.ts';
import type { Magnet } from '../model/magnet.ts';
import type { AimKind, Pickup } from '../model/pickup.ts';
import { cancelledDb } from '../physics/circuit/silence.ts';
import { copperTemperatureFactor } from '../physics/wire.ts';
import type { Wound } from './winding-curve.ts';

/** Turns and winding of each coil of a build, by its name. */
export type WoundCoils = ReadonlyMap<string, Wound & { readonly turns: number }>;

/** What a figure is asked for by. */
export type Asked = Pick<Aim, 'kind' | 'between'>;

export interface AtHand {
  /** By kind of target; those of two coils by turns. `undefined`: nothing is known. */
  figure(aim: Asked, coils: WoundCoils, magnet: Magnet | undefined): number | null | undefined;
}

export interface Reference {
  readonly quick: QuickEstimates;
  /** What the curves say of its coils; of those that stay as they are, what is known of them. */
  readonly coils: WoundCoils;
  readonly bench: Bench | undefined;
  /** Whether anything asks for an inductance. */
  readonly needsInductance: boolean;
}

export function modelAtHand(reference: Reference): AtHand {
  const { quick, bench } = reference;
  const atRoom = copperTemperatureFactor(benchRoomC(bench));
  const ohm = resistancesJoined(quick);
  const sound = reference.needsInductance ? soundModel(reference, ohm) : undefined;
  const levels = levelModel(quick);
  const figures: {
    readonly [K in AimKind]: (aim: Asked, coils: WoundCoils, magnet: Magnet | undefined) => number | null | undefined;
  } = {
    resistance: (_, coils) => ohm(coils) * atRoom,
    inductance: (_, coils) => sound?.henry(coils),
    resonance: (_, coils) => sound && (sound.resonance(coils)?.hz ?? null),
    peak: (_, coils) => sound && (sound.resonance(coils)?.db ?? null),
    hum: (_, coils) => levels.humDb(coils),
    output: (_, coils, magnet) => levels.stringDb(coils, magnet),
    mismatch: ({ between }, coils) => between && mismatchOf(between, coils),
  };
  return { figure: (aim, coils, magnet) => figures[aim.kind](aim, coils, magnet) };
}

function mismatchOf({ coil, other }: NonNullable<Aim['between']>, coils: WoundCoils): number | undefined {
  const [one, two] = [coil, other].map((name) => coils.get(name)?.turns);
  return one && two ? one / two - 1 : undefined;
}

/** Σ weight · ohm: exact of coils in series, and of any whose ratio is that of the reference. */
function resistancesJoined({ netlist, windings }: QuickEstimates): (coils: WoundCoils) => number {
  const { hot, ground } = netlist;
  const weights =
    hot === undefined || ground === undefined ? undefined : resistanceWeights(netlist, windings, hot, ground);
  return (coils) =>
    [...(weights ?? [])].reduce((sum, [coil, weight]) => sum + weight * (coils.get(coil.name)?.ohm ?? 0), 0);
}

interface SoundModel {
  henry(coils: WoundCoils): number | undefined;
  /** `undefined`: no peak. */
  resonance(coils: WoundCoils): { readonly hz: number; readonly db: number } | undefined;
}

function soundModel(
  { quick, coils: atReference }: Reference,
  ohmOf: (coils: WoundCoils) => number,
): SoundModel | undefined {
  const magnetics = pickupMagnetics(quick);
  const { pickup } = quick.netlist;
  const { slopes, inductanceH, capacitanceF } = wholePickup(quick, magnetics, ownCable(pickup));
  if (!inductanceH || !capacitanceF) return undefined;
  const referenceOhm = ohmOf(atReference);
  const henry = (coils: WoundCoils): number =>
    [...slopes].reduce((sum, [coil, slope]) => {
      const [now, then] = [coils.get(coil.name)?.henry ?? 0, atReference.get(coil.name)?.henry ?? 1];
      return sum + (slope * (magnetics.coils.get(coil)?.totalH.value ?? 0) * now) / then;
    }, 0);
  // A coil in series has that share of the output's voltage, and its capacitance the square of it in the whole.
  const weights = [...slopes].map(([coil, slope]) => {
    const { name } = coil;
    const own = magnetics.coils.get(coil)?.totalH.value ?? 0;
    return {
      name,
      weight: Math.min(1, (slope * own) / inductanceH.value) ** 2,
      before: atReference.get(name)?.farad ?? 0,
    };
  });
  const farad = (coils: WoundCoils): number =>
    weights.reduce(
      (sum, { name, weight, before }) => sum + weight * ((coils.get(name)?.farad ?? before) - before),
      capacitanceF.value,
    );
  const table = resonanceTable(quick);
  return {
    henry,
    resonance: (coils) => {
      const x = Math.log(henry(coils) / inductanceH.value);
      // Resistance goes with the root of the inductance, unless the wire is another.
      return table(x, Math.log(ohmOf(coils) / referenceOhm) - x / 2, Math.log(farad(coils) / capacitanceF.value));
    },
  };
}

/** Logarithms of the inductance over the reference's at which the circuit is solved: evenly, from an eighth to eight times. */
const LOG_INDUCTANCES = [-2.1, -1.4, -0.7, 0, 0.7, 1.4, 2.1] as const;
const LOG_INDUCTANCE_STEP = 0.7;
/** So far beyond the outermost of them that has a peak nothing is said. */
const BEYOND = 0.5;
const LOG_RESISTANCE_STEP = 0.2;
const LOG_CAPACITANCE_STEP = 0.2;

interface Resonance {
  readonly hz: number;
  readonly db: number;
}

/** Resonance and height over logarithms: parabolas through what is solved at few inductances, slopes beside them. */
function resonanceTable(
  quick: QuickEstimates,
): (logHenry: number, logOhm: number, logFarad: number) => Resonance | undefined {
  const load = loadOf(quick.netlist.pickup);
  const solve = (logHenry: number, logOhm: number, logFarad: number) => {
    const scaling = {
      ...NO_SCALING,
      inductance: Math.exp(logHenry),
      resistance: Math.exp(logHenry / 2 + logOhm),
      capacitance: Math.exp(logFarad),
    };
    const found = scaledResonance(quick, load, scaling);
    return found && { logHz: Math.log(found.hz), db: found.db };
  };
  // A large inductance with its resistance may have no peak under the load.
  const solved = LOG_INDUCTANCES.flatMap((x) => {
    const plain = solve(x, 0, 0);
    if (!plain) return [];
    const [ohm = plain, farad = plain] = [solve(x, LOG_RESISTANCE_STEP, 0), solve(x, 0, LOG_CAPACITANCE_STEP)];
    return [{ x, plain, ohm, farad }];
  });
  const over = (of: 'logHz' | 'db') => {
    const plain = solved.map((each) => each.plain[of]);
    const byOhm = solved.map((each) => (each.ohm[of] - each.plain[of]) / LOG_RESISTANCE_STEP);
    const byFarad = solved.map((each) => (each.farad[of] - each.plain[of]) / LOG_CAPACITANCE_STEP);
    return (at: number, logOhm: number, logFarad: number): number =>
      parabola(plain, at) + logOhm * parabola(byOhm, at) + logFarad * parabola(byFarad, at);
  };
  const [logHz, db] = [over('logHz'), over('db')];
  const [first, last] = [solved[0]?.x ?? Number.NaN, solved.at(-1)?.x ?? Number.NaN];
  return (logHenry, logOhm, logFarad) => {
    if (!(logHenry >= first - BEYOND && logHenry <= last + BEYOND)) return undefined;
    const at = (logHenry - first) / LOG_INDUCTANCE_STEP;
    return { hz: Math.exp(logHz(at, logOhm, logFarad)), db: db(at, logOhm, logFarad) };
  };
}

/** Through the three values nearest to `at`, counted from the first. */
function parabola(values: readonly number[], at: number): number {
  const middle = Math.min(values.length - 2, Math.max(1, Math.round(at)));
  const [before, here, behind] = [values[middle - 1], values[middle], values[middle + 1]];
  if (before === undefined || here === undefined || behind === undefined) return values[0] ?? Number.NaN;
  const t = at - middle;
  return here + (t * (behind - before)) / 2 + (t * t * (behind - 2 * here + before)) / 2;
}

interface LevelModel {
  /** Against the stronger coil. */
  humDb(coils: WoundCoils): number | undefined;
  /** Of any zero: only differences say something. */
  stringDb(coils: WoundCoils, magnet: Magnet | undefined): number | undefined;
}

function levelModel({ netlist, signs }: QuickEstimates): LevelModel {
  const live = signs.filter(sounds);
  const { pickup } = netlist;
  const magnetDb = new Map<Magnet | undefined, number>();
  const levelOf = (magnet: Magnet | undefined): number => {
    const known = magnetDb.get(magnet) ?? magnetLevelDb(withBar(pickup, magnet))?.value ?? 0;
    magnetDb.set(magnet, known);
    return known;
  };
  return {
    humDb: (coils) => {
      const parts = live.map(({ coil, hum, humTransfer = 0 }) =>
        hum === undefined ? Number.NaN : hum * Math.abs(humTransfer) * (coils.get(coil.name)?.areaM2 ?? 0),
      );
      return levelDb(parts, Math.max(...parts.map(Math.abs)));
    },
    stringDb: (coils, magnet) => {
      const parts = live.map(({ coil, string, transfer = 0 }) =>
        string === undefined
          ? Number.NaN
          : string * Math.abs(transfer) * stringShare(coil) * (coils.get(coil.name)?.turns ?? 0),
      );
      const level = levelDb(parts, 1);
      return level === undefined ? undefined : level + levelOf(magnet);
    },
  };
}

function levelDb(parts: readonly number[], against: number): number | undefined {
  const sum = Math.abs(parts.reduce((total, part) => total + part, 0));
  if (!Number.isFinite(sum) || !(against > 0)) return undefined;
  return Math.max(cancelledDb, 20 * Math.log10(sum / against));
}

function withBar(pickup: Pickup, magnet: Magnet | undefined): Pickup {
  const bar = pickup.barMagnet;
  return bar && magnet ? { ...pickup, barMagnet: { ...bar, value: { ...bar.value, magnet } } } : pickup;
}
