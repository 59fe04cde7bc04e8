/** One row of a winding-wire standard: nominal and permitted diameters of one build, mm. */
export interface WireTableRow {
  /** Bare nominal diameter, mm. For AWG sizes the value in tenths of a mil that the table lists. */
  nominalMm: number;
  bareMinimumMm?: number;
  bareMaximumMm?: number;
  overallMinimumMm: number;
  /** Where the standard gives limits only, the overall diameter to expect is taken at their middle. */
  overallNominalMm?: number;
  overallMaximumMm: number;
}

type Limits = readonly [minimum: number, maximum: number];
type NominalLimits = readonly [minimum: number, nominal: number, maximum: number];

function metricRow(nominalMm: number, grade1: Limits, grade2: Limits): { single: WireTableRow; double: WireTableRow } {
  const bare =
    nominalMm >= 0.071 ? { bareMinimumMm: round(nominalMm - 0.003), bareMaximumMm: round(nominalMm + 0.003) } : {};
  const row = ([overallMinimumMm, overallMaximumMm]: Limits): WireTableRow => ({
    nominalMm,
    ...bare,
    overallMinimumMm,
    overallMaximumMm,
  });
  return { single: row(grade1), double: row(grade2) };
}

function round(mm: number): number {
  return Math.round(mm * 1e4) / 1e4;
}

/**
 * IEC 60317-0-1, round enamelled copper wire, grades 1 (single) and 2 (double); read in a transcription in an open data
 * set of winding wires, not in the standard itself. The bare tolerance is 3 micrometres from 0.071 mm up; finer wire is
 * specified by its resistance instead.
 */
export const METRIC_ROWS = [
  metricRow(0.05, [0.055, 0.06], [0.061, 0.066]),
  metricRow(0.056, [0.062, 0.067], [0.068, 0.074]),
  metricRow(0.063, [0.069, 0.076], [0.077, 0.083]),
  metricRow(0.071, [0.078, 0.084], [0.085, 0.091]),
  metricRow(0.08, [0.087, 0.094], [0.095, 0.101]),
  metricRow(0.09, [0.098, 0.105], [0.106, 0.113]),
  metricRow(0.1, [0.108, 0.117], [0.118, 0.125]),
  metricRow(0.112, [0.121, 0.13], [0.131, 0.139]),
  metricRow(0.125, [0.135, 0.144], [0.145, 0.154]),
] as const;

function awgRow(awg: number, mil: number, bare: NominalLimits, single: NominalLimits, double: NominalLimits) {
  const row = ([overallMinimumMm, overallNominalMm, overallMaximumMm]: NominalLimits): WireTableRow => ({
    nominalMm: mil * 0.0254,
    bareMinimumMm: bare[0],
    bareMaximumMm: bare[2],
    overallMinimumMm,
    overallNominalMm,
    overallMaximumMm,
  });
  return { awg, single: row(single), double: row(double) };
}

/**
 * NEMA MW 1000 C, AWG sizes, single and heavy build; read in a transcription in an open data set of winding wires, not in
 * the standard itself, whose steps are 0.0001 in: the millimetres are rounded to a micrometre.
 */
export const AWG_ROWS = [
  awgRow(36, 5, [0.124, 0.127, 0.13], [0.135, 0.141, 0.147], [0.145, 0.152, 0.16]),
  awgRow(37, 4.5, [0.112, 0.114, 0.117], [0.119, 0.126, 0.132], [0.132, 0.138, 0.145]),
  awgRow(38, 4, [0.099, 0.102, 0.104], [0.107, 0.113, 0.119], [0.117, 0.123, 0.13]),
  awgRow(39, 3.5, [0.086, 0.089, 0.091], [0.091, 0.098, 0.104], [0.102, 0.108, 0.114]),
  awgRow(40, 3.1, [0.076, 0.079, 0.081], [0.081, 0.088, 0.094], [0.091, 0.097, 0.102]),
  awgRow(41, 2.8, [0.069, 0.071, 0.074], [0.074, 0.079, 0.084], [0.081, 0.086, 0.091]),
  awgRow(42, 2.5, [0.061, 0.064, 0.066], [0.066, 0.071, 0.076], [0.071, 0.076, 0.081]),
  awgRow(43, 2.2, [0.053, 0.056, 0.058], [0.058, 0.062, 0.066], [0.064, 0.069, 0.074]),
  awgRow(44, 2, [0.048, 0.051, 0.053], [0.053, 0.057, 0.061], [0.058, 0.064, 0.069]),
  awgRow(45, 1.76, [0.0429, 0.0447, 0.0464], [0.0455, 0.0488, 0.0521], [0.0505, 0.0545, 0.0584]),
] as const;
