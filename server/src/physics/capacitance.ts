import { EPSILON0 } from './constants.ts';

/** What a winding's self-capacitance is estimated from, metres. */
export interface WindingForCapacitance {
  meanTurnM: number;
  heightM: number;
  buildM: number;
  bareDiameterM: number;
  overallDiameterM: number;
  /** Random winding: turns of one height are spread over several layers, so their voltages mix. */
  scatter: boolean;
}

/** A capacitance that is known to a factor only. */
export interface CapacitanceEstimate {
  capacitanceF: number;
  /** One standard deviation as a factor: the truth lies between value / factor and value · factor in two cases of three. */
  factorSd: number;
}

/** Enamel of relative permittivity 3 to 4 with air or wax between: 2.5 effective for air, about 3 for wax (common practice). */
export const EFFECTIVE_PERMITTIVITY = { air: 2.5, wax: 3 } as const;

/** How much lower a scatter-wound coil lies than the layered one of the same section. Common practice, no published source. */
export const SCATTER_CAPACITANCE_FACTOR = 0.7;

/**
 * Self-capacitance of a multilayer coil from the energy between its layers, wound to and fro: with m layers of capacitance C₁
 * between neighbours the voltage between two layers runs from 0 to 2/m of the whole, so C = (4/3) C₁ (m − 1)/m². Layers act as
 * sheets at the distance s − 1.15 d + 0.26 p of round wires (s layer pitch, d bare diameter, p turn pitch; Zuhrt 1934, recalled,
 * as quoted by Snelling, Soft Ferrites). A scatter winding is taken at 0.7 of that. The estimate leaves out leads, shield and the
 * start's capacitance to the poles, which are added where known. Uncertain by a factor of 1.6 (layers) to 2 (scatter): a
 * measured value replaces it.
 */
export function windingCapacitance(
  winding: WindingForCapacitance,
  permittivity: number = EFFECTIVE_PERMITTIVITY.air,
): CapacitanceEstimate {
  const { meanTurnM, heightM, buildM, bareDiameterM, overallDiameterM, scatter } = winding;
  // Wires touch enamel to enamel in a scatter winding too; its voids lie elsewhere.
  const layers = Math.max(1, buildM / overallDiameterM);
  const distanceM = Math.max(1.26 * overallDiameterM - 1.15 * bareDiameterM, 0.05 * overallDiameterM);
  const betweenLayersF = (EPSILON0 * permittivity * meanTurnM * heightM) / distanceM;
  const layeredF = ((4 / 3) * betweenLayersF * (layers - 1)) / layers ** 2;
  return scatter
    ? { capacitanceF: SCATTER_CAPACITANCE_FACTOR * layeredF, factorSd: 2 }
    : { capacitanceF: layeredF, factorSd: 1.6 };
}

/**
 * Capacitance of a screened lead, F. Unless its data sheet says otherwise 100 to 150 pF/m between a conductor and the screen of
 * thin pickup cable, the default 120 (common practice, no published source).
 */
export function leadCapacitanceF(lengthM: number, faradPerM = DEFAULT_LEAD_F_PER_M): number {
  return lengthM * faradPerM;
}

export const DEFAULT_LEAD_F_PER_M = 120e-12;
