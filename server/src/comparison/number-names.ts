/** What computed values are called in text, and how they are printed. */

import type { Dimension } from '../../../grammar/values/unit-table.ts';
import type { PhaseVerdict } from '../estimates/estimates.ts';
import type { NumberKey } from './number-keys.ts';

export interface NumberName {
  readonly what: string;
  /** A ratio has no unit; an area is told in square metres. */
  readonly dimension: Dimension | 'ratio' | 'area';
  /** Said where there is none. */
  readonly none?: string;
}

export const NUMBER_NAMES: Readonly<Record<NumberKey, NumberName>> = {
  resistance20COhm: { what: 'resistance, 20 °C', dimension: 'resistance', none: 'open' },
  resistanceOhm: { what: 'resistance at the jack', dimension: 'resistance', none: 'open' },
  turns: { what: 'turns', dimension: 'turns' },
  ohmPerM20C: { what: 'wire, 20 °C', dimension: 'resistance per length' },
  wireLengthM: { what: 'wire length', dimension: 'length' },
  wireMassKg: { what: 'wire mass', dimension: 'mass' },
  meanTurnM: { what: 'mean turn', dimension: 'length' },
  turnAreaM2: { what: 'area of all turns', dimension: 'area' },
  layers: { what: 'layers', dimension: 'ratio' },
  buildM: { what: 'build', dimension: 'length' },
  windowFilled: { what: 'window filled', dimension: 'percentage' },
  packing: { what: 'packing', dimension: 'ratio' },
  inductanceAirH: { what: 'inductance in air', dimension: 'inductance' },
  inductanceH: { what: 'inductance', dimension: 'inductance' },
  capacitanceF: { what: 'capacitance', dimension: 'capacitance' },
  resonanceHz: { what: 'resonance', dimension: 'frequency' },
  peakDb: { what: 'peak', dimension: 'level' },
  minus3DbHz: { what: '-3 dB at', dimension: 'frequency' },
  levelDb: { what: 'level', dimension: 'level' },
  signalDb: { what: 'string signal against one coil', dimension: 'level' },
  humDb: { what: 'hum against one coil', dimension: 'level' },
};

export const PHASE_NAMES: Readonly<Record<PhaseVerdict, string>> = {
  in: 'in phase',
  out: 'out of phase',
  single: 'one coil sounds',
  unproven: 'phase unproven: a sign is neither stated nor measured',
};
