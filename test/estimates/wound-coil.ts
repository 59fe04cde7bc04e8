/** One coil of 5,000 turns with a core of 63 x 5.6 mm, and the same by hand. */
import assert from 'node:assert/strict';
import type { QuickEstimates } from '../../server/src/estimates/quick.ts';
import type { Coil } from '../../server/src/model/coil.ts';
import { ALONE, pickupText } from '../support/shop.ts';

export const WOUND = '    packing 0.66\n    turns 5000';
export const woundCoil = (facts = WOUND, readings = ''): string =>
  pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts }], { hookup: ALONE, readings });

export function firstCoil({ netlist }: QuickEstimates): Coil {
  const [coil] = netlist.pickup.coils;
  assert.ok(coil);
  return coil;
}

/** Mean turn of the first N turns: 2 (57.4 mm) + 2π (2.8 mm + half their build). */
export function lengthM(turns: number): number {
  const build = (turns * Math.PI * 0.07e-3 ** 2) / 4 / (0.66 * 7.2e-3);
  return turns * (2 * 57.4e-3 + 2 * Math.PI * (2.8e-3 + build / 2));
}

export const OHM_PER_M = 1 / 58 / ((Math.PI * 0.0635 ** 2) / 4);
