import {
  COPPER_DENSITY_KG_PER_M3,
  COPPER_RESISTIVITY_OHM_M,
  COPPER_TEMPERATURE_COEFFICIENT_PER_K,
  ENAMEL_DENSITY_KG_PER_M3,
  REFERENCE_TEMPERATURE_C,
} from './constants.ts';
import { AWG_ROWS, METRIC_ROWS, type WireTableRow } from './wire-tables.ts';

/** Thickness of the enamel: grade 1 and 2 of IEC 60317, single and heavy of NEMA MW 1000. */
export type EnamelBuild = 'single' | 'double';

/** How the size of a wire is stated. */
export type WireSize = { awg: number } | { bareDiameterM: number };

/** Diameters of a wire by its standard, metres, with the standard's limits. */
export interface WireDiameters {
  bareM: number;
  bareMinimumM: number;
  bareMaximumM: number;
  overallM: number;
  overallMinimumM: number;
  overallMaximumM: number;
  /** IEC 60317-0-1 for a size in millimetres, NEMA MW 1000 for AWG. */
  standard: 'IEC 60317-0-1' | 'NEMA MW 1000';
  /** Whether the size is a row of the table, lies between two (log-log interpolation), or beyond its ends (the last slope continued). */
  basis: 'table' | 'interpolated' | 'extrapolated';
}

/**
 * Bare diameter of an AWG size, metres: 0.127 mm · 92^((36 − n)/39) (ASTM B258, recalled). Unrounded; half sizes allowed.
 * Wire tables round to a tenth of a mil, which at AWG 42 means 0.5 % less resistance, at AWG 40 2.9 % more.
 */
export function awgBareDiameterM(awg: number): number {
  return 0.127e-3 * 92 ** ((36 - awg) / 39);
}

/**
 * Diameters with limits for a size and an enamel build. Bare nominal: the AWG formula, or the metric size itself.
 * Limits and overall diameter come from the rows of the standard; between rows log(overall) is linear in log(nominal).
 * Valid for 0.05 to 0.125 mm and AWG 36 to 45; beyond that the last slope is continued and `basis` says so.
 * IEC specifies wire finer than 0.071 mm by resistance; there the relative limits of 0.071 mm are kept (4.2 % of the
 * diameter, 8.5 % of the resistance, as the standard's resistance limits of 8 to 9 % in this range, recalled).
 */
export function wireDiameters(size: WireSize, build: EnamelBuild): WireDiameters {
  if ('awg' in size) return awgDiameters(size.awg, build);
  return metricDiameters(size.bareDiameterM, build);
}

/**
 * One standard deviation of the bare diameter, relative: the permitted band taken as ± 2 standard deviations, since a
 * maker aims at its middle (common practice, no published source). The largest term in the uncertainty of a resistance.
 */
export function bareDiameterRelativeSd(diameters: WireDiameters): number {
  return (diameters.bareMaximumM - diameters.bareMinimumM) / 4 / diameters.bareM;
}

/** One standard deviation of the overall diameter, relative, by the same reading of the limits. */
export function overallDiameterRelativeSd(diameters: WireDiameters): number {
  return (diameters.overallMaximumM - diameters.overallMinimumM) / 4 / diameters.overallM;
}

/** Resistance of copper wire per metre, ohm/m: ρ / (π d²/4), at 20 degC unless a temperature is given. IEC 60028. */
export function resistanceOhmPerM(bareDiameterM: number, temperatureC = REFERENCE_TEMPERATURE_C): number {
  return (COPPER_RESISTIVITY_OHM_M / ((Math.PI / 4) * bareDiameterM ** 2)) * copperTemperatureFactor(temperatureC);
}

/** The bare diameter, metres, that copper of the standard's resistivity must have to measure `ohmPerM` at that temperature. */
export function bareDiameterOfResistance(ohmPerM: number, temperatureC = REFERENCE_TEMPERATURE_C): number {
  return Math.sqrt((4 * COPPER_RESISTIVITY_OHM_M * copperTemperatureFactor(temperatureC)) / (Math.PI * ohmPerM));
}

/** R(T)/R(20 degC) = 1 + 0.00393 · (T − 20) of copper (IEC 60028). Valid from about −50 to 150 degC; zero at −234 degC. */
export function copperTemperatureFactor(temperatureC: number): number {
  return 1 + COPPER_TEMPERATURE_COEFFICIENT_PER_K * (temperatureC - REFERENCE_TEMPERATURE_C);
}

/** The temperature, degC, at which a copper coil of `ohmAt20C` reads `ohmRead`. */
export function temperatureOfResistance(ohmRead: number, ohmAt20C: number): number {
  return REFERENCE_TEMPERATURE_C + (ohmRead / ohmAt20C - 1) / COPPER_TEMPERATURE_COEFFICIENT_PER_K;
}

/** Mass of a metre of wire, kg/m, and the part of it that is enamel (0 where the overall diameter is left out). */
export interface WireMass {
  copperKgPerM: number;
  enamelKgPerM: number;
  totalKgPerM: number;
  enamelShare: number;
}

/** Copper π d²/4 · 8890 kg/m³ plus a ring of enamel of 1300 kg/m³ between bare and overall diameter. */
export function wireMass(bareDiameterM: number, overallDiameterM = bareDiameterM): WireMass {
  const copperKgPerM = (Math.PI / 4) * bareDiameterM ** 2 * COPPER_DENSITY_KG_PER_M3;
  const enamelKgPerM = (Math.PI / 4) * (overallDiameterM ** 2 - bareDiameterM ** 2) * ENAMEL_DENSITY_KG_PER_M3;
  const totalKgPerM = copperKgPerM + enamelKgPerM;
  return { copperKgPerM, enamelKgPerM, totalKgPerM, enamelShare: enamelKgPerM / totalKgPerM };
}

function awgDiameters(awg: number, build: EnamelBuild): WireDiameters {
  const position = awg - AWG_ROWS[0].awg;
  const { row, basis } = rowAt(
    AWG_ROWS.map((entry) => entry[build]),
    position,
  );
  // The table's own nominal is a tenth-mil rounding of the formula: its limits are kept, in metres, around the formula's value.
  return { ...toMetres(row), bareM: awgBareDiameterM(awg), standard: 'NEMA MW 1000', basis };
}

function metricDiameters(bareDiameterM: number, build: EnamelBuild): WireDiameters {
  const rows = METRIC_ROWS.map((entry) => entry[build]);
  const logs = rows.map((row) => Math.log(row.nominalMm));
  const { row, basis } = rowAt(rows, positionIn(logs, Math.log(bareDiameterM * 1e3)));
  return { ...toMetres(row), bareM: bareDiameterM, standard: 'IEC 60317-0-1', basis };
}

type CompleteRow = Required<WireTableRow>;

function completed(row: WireTableRow): CompleteRow {
  const { nominalMm } = row;
  return {
    ...row,
    bareMinimumMm: row.bareMinimumMm ?? nominalMm * FINE_WIRE_LIMITS[0],
    bareMaximumMm: row.bareMaximumMm ?? nominalMm * FINE_WIRE_LIMITS[1],
    overallNominalMm: row.overallNominalMm ?? (row.overallMinimumMm + row.overallMaximumMm) / 2,
  };
}

/** Limits of the finest size that the metric table specifies by diameter, relative to nominal: 0.071 ± 0.003 mm. */
const FINE_WIRE_LIMITS = [0.068 / 0.071, 0.074 / 0.071] as const;

/** The row at a fractional position in the table, every column interpolated geometrically (linear in its logarithm). */
function rowAt(rows: readonly WireTableRow[], position: number): { row: CompleteRow; basis: WireDiameters['basis'] } {
  const nearest = Math.round(position);
  const exact = rows[nearest];
  if (exact !== undefined && Math.abs(position - nearest) < 1e-9) return { row: completed(exact), basis: 'table' };
  // A size that is not a number takes the first rows, and gives diameters that are not numbers.
  const below = Math.min(Math.max(Math.floor(position) || 0, 0), rows.length - 2);
  const [first, second] = [rows[below], rows[below + 1]];
  if (first === undefined || second === undefined) throw new RangeError('a wire table needs two rows');
  const [a, b] = [completed(first), completed(second)];
  const share = position - below;
  const between = (x: number, y: number) => x * (y / x) ** share;
  return {
    row: {
      nominalMm: between(a.nominalMm, b.nominalMm),
      bareMinimumMm: between(a.bareMinimumMm, b.bareMinimumMm),
      bareMaximumMm: between(a.bareMaximumMm, b.bareMaximumMm),
      overallMinimumMm: between(a.overallMinimumMm, b.overallMinimumMm),
      overallNominalMm: between(a.overallNominalMm, b.overallNominalMm),
      overallMaximumMm: between(a.overallMaximumMm, b.overallMaximumMm),
    },
    basis: position < 0 || position > rows.length - 1 ? 'extrapolated' : 'interpolated',
  };
}

/** Fractional index of `value` in an increasing list, continued with the slope of its ends. */
function positionIn(increasing: readonly number[], value: number): number {
  const above = increasing.findIndex((entry) => entry > value);
  const index = above === -1 ? increasing.length - 2 : Math.min(Math.max(above - 1, 0), increasing.length - 2);
  const from = increasing[index] ?? 0;
  const to = increasing[index + 1] ?? 1;
  return index + (value - from) / (to - from);
}

function toMetres(row: CompleteRow): Omit<WireDiameters, 'bareM' | 'standard' | 'basis'> {
  return {
    bareMinimumM: row.bareMinimumMm * 1e-3,
    bareMaximumM: row.bareMaximumMm * 1e-3,
    overallM: row.overallNominalMm * 1e-3,
    overallMinimumM: row.overallMinimumMm * 1e-3,
    overallMaximumM: row.overallMaximumMm * 1e-3,
  };
}
