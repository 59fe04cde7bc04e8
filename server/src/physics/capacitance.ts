/**
 * Self-capacitance of a winding and its capacitance to what stands around it. Closed forms, each checked against fields and drawn
 * windings in test/physics/reference/capacitance.json.
 */
import { EPSILON0 } from './constants.ts';

/** What a winding's self-capacitance is computed from, SI units. */
export interface WindingForCapacitance {
  readonly meanTurnM: number;
  readonly heightM: number;
  readonly turns: number;
  readonly bareDiameterM: number;
  readonly overallDiameterM: number;
  /** In layers, turn beside turn, a pass is a layer. */
  readonly laying: 'layers' | 'scatter';
  /** Turns laid in one pass of the guide from flange to flange. */
  readonly turnsPerPass: number;
  readonly guide: keyof typeof GUIDED;
  /** Mean clearance between neighbours, enamel to enamel, over the overall diameter. */
  readonly clearance: number;
  /** Relative permittivity of what fills the voids. */
  readonly fill: number;
  readonly enamel?: number;
}

/** Relative permittivity of enamel: 3.5 to 3.8 for most films (recalled; plain enamel 4.1). */
const ENAMEL_PERMITTIVITY = 3.5;

/** Relative permittivity between the turns. Wax does not reach everywhere: 1.7 to 2.3. Recalled. */
export const FILL_PERMITTIVITY = { air: 1, wax: 2.3 } as const;

/**
 * Mean clearance of turns that cross their lower layer every few centimetres, over the overall diameter. The range, 0.01 to 0.06, is
 * a judgement of the geometry and no measurement; with the 12 % of the closed form it makes one standard deviation of a factor of
 * 1.25 in air and 1.2 in wax.
 */
export const USUAL_CLEARANCE = 0.03;
export const CLEARANCE_RELATIVE_SD = { air: 0.25, wax: 0.2 } as const;

/** Turns of one pass where nothing is known of the guide. Common practice, no published source. */
export const USUAL_TURNS_PER_PASS = 60;

/**
 * What a hand's uneven guiding adds, turns of one height lying far apart in number: fitted to drawn windings of 1 to 5 diameters of
 * jitter. Where nobody says who guided, a third of it.
 */
const GUIDED = { hand: 1.15, machine: 1, unknown: 1.05 } as const;

/** The field about a winding, beyond the neighbours counted: F for a metre of mean turn. */
export const OUTER_FIELD_F_PER_M = 10e-12;

/**
 * Capacitance between two neighbours in a hexagonal array, F/m, against the field solution within 2 % for clearances up to
 * 0.2 of the diameter, falling to 4.3 % low at 0.35:
 * A = εm ln(D/d)/εe + g, c = ε0 εm · 2/√(A(2 + A)) · atan(tan 15° √((2 + A)/A)) · (1.05 + g/2).
 */
export function wireToWireFPerM(
  wire: Pick<WindingForCapacitance, 'bareDiameterM' | 'overallDiameterM' | 'clearance' | 'fill' | 'enamel'>,
): number {
  const { bareDiameterM, overallDiameterM, clearance, fill, enamel = ENAMEL_PERMITTIVITY } = wire;
  const gap = (fill * Math.log(overallDiameterM / bareDiameterM)) / enamel + clearance;
  const angle = Math.atan(Math.tan(Math.PI / 12) * Math.sqrt((2 + gap) / gap));
  return EPSILON0 * fill * (2 / Math.sqrt(gap * (2 + gap))) * angle * (1.05 + clearance / 2);
}

/**
 * Self-capacitance of a multilayer winding, first turn at 0 and last at V, F: the energy between neighbours, summed over the section.
 * With T = H/D and k turns per pass,
 * C = l H²/(N π D²/4) · √3 c · p · (1 + (k/T)²/3) · (1 + 0.2 (T/7k)²) + 10 pF/m · l, p = 0.81 scatter and 0.90 layers, whose
 * last factor is 1.
 * 12 % rms against drawn windings for 42 to 44 AWG, 5,000 to 12,000 turns, heights of 6 to 13 mm, k from 20 to 0.8 T and clearances
 * of 0 to 0.1. Scatter by itself costs nothing: turns side by side differ by as much as turns above each other.
 */
export function windingCapacitanceF(winding: WindingForCapacitance): number {
  const { meanTurnM, heightM, turns, overallDiameterM, laying, guide } = winding;
  const perLayer = heightM / overallDiameterM;
  const turnsPerPass = Math.min(winding.turnsPerPass, perLayer);
  const density = laying === 'layers' ? 0.9 : 0.81;
  const revisits = laying === 'layers' ? 1 : 1 + 0.2 * (perLayer / (7 * turnsPerPass)) ** 2;
  const section = (turns * Math.PI * overallDiameterM ** 2) / 4;
  const between =
    ((meanTurnM * heightM ** 2) / section) *
    Math.sqrt(3) *
    wireToWireFPerM(winding) *
    density *
    (1 + (turnsPerPass / perLayer) ** 2 / 3) *
    revisits *
    GUIDED[guide];
  return between + OUTER_FIELD_F_PER_M * meanTurnM;
}

/** Rods in a row inside a winding, metres; the wall lies between rod and innermost turn. */
export interface RodsInWinding {
  readonly count: number;
  readonly diameterM: number;
  readonly heightM: number;
  readonly wallM: number;
  readonly wallPermittivity: number;
  /** Of what fills the space between the rods. */
  readonly betweenPermittivity: number;
  readonly overallDiameterM: number;
}

/** A quarter of a diameter: how much farther than its touching line a row of round wires lies, as a sheet. Fitted to the field solution. */
const ROUND_WIRES = 0.25;

/**
 * Innermost turns to the rods that they surround, F. Each rod lies between two flat sheets (Frankel's slab line, recalled: rod of
 * diameter d between sheets b apart); the two rods at the ends are surrounded on their outer half, which is half a coaxial line.
 * Against finite differences 6 % at most; as laid times or over 1.35, for the wall and for wire that does not lie on it.
 */
export function startToRodsF(rods: RodsInWinding): number {
  const { count, diameterM, heightM, wallM, wallPermittivity, betweenPermittivity, overallDiameterM } = rods;
  const radius = diameterM / 2;
  const gap = betweenPermittivity * (wallM / wallPermittivity + ROUND_WIRES * overallDiameterM);
  const betweenSheets = slabLineFPerM(diameterM / (2 * (radius + gap)));
  const coaxial = (2 * Math.PI * EPSILON0) / Math.log(1 + gap / radius);
  return betweenPermittivity * heightM * ((count - 1) * betweenSheets + coaxial);
}

/** One standard deviation, relative: a factor of 1.35 as limits, 10 and 90 %. */
export const START_TO_RODS_RELATIVE_SD = 0.23;

/** Rod of `ratio` of the sheets' distance, in air, F/m. */
function slabLineFPerM(ratio: number): number {
  const r = (Math.PI / 4) * ratio;
  const x = 1 + 2 * Math.sinh(r) ** 2;
  const y = 1 - 2 * Math.sin(r) ** 2;
  const exponent = Math.log((Math.sqrt(x) + Math.sqrt(y)) / Math.sqrt(x - y)) - r ** 4 / 30 + 0.014 * r ** 8;
  return (2 * Math.PI * EPSILON0) / exponent;
}

/** A row of round wires to a foil on tape over it, F/m²: the plate's, where the tape is thick against the waves of the row. */
export const rowToFoilFPerM2 = (tapeM: number, permittivity: number): number => (EPSILON0 * permittivity) / tapeM;

/** Foil over one turn of usual tape, and what the uneven surface of a hand-laid winding takes off it. Recalled. */
export const USUAL_TAPE = { thicknessM: 100e-6, permittivity: 2.8 } as const;
export const UNEVEN_SURFACE = { factor: 0.78, relativeSd: 0.22 } as const;

/**
 * Outermost turns to what stands about the coil, per coil, F, with one standard deviation: a metal cover at 1.3 mm, or the strings,
 * baseplate and wires without one; both faces to the same; the outermost turns of two coils side by side. From whole pickups by their
 * drawings (see the reference values); the ± covers sizes from 5,000 turns on 7 mm to 7,600 on 11 mm.
 */
export const SURROUNDINGS_F = {
  outerToCover: { value: 7e-12, sd: 1.2e-12 },
  outerToFree: { value: 3.2e-12, sd: 1e-12 },
  facesToCover: { value: 12e-12, sd: 2e-12 },
  facesToFree: { value: 3.3e-12, sd: 0.7e-12 },
  coilToCoil: { value: 2.1e-12, sd: 0.6e-12 },
} as const;

export type CableKind = 'braid' | 'four-conductor' | 'pair';

/**
 * A pickup's own cable, F/m, as even distributions between limits: one conductor in a braid 90 to 127; four conductors in a shield,
 * one hot against all others, 69 to 81; a twisted or parallel pair 30 to 50. From permittivity and usual dimensions.
 */
export const CABLE_F_PER_M: Readonly<Record<CableKind, { readonly least: number; readonly most: number }>> = {
  braid: { least: 90e-12, most: 127e-12 },
  'four-conductor': { least: 69e-12, most: 81e-12 },
  pair: { least: 30e-12, most: 50e-12 },
};
