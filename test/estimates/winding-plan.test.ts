/** What a winder asks before and during winding. Expected numbers are worked out beside each, from geometry alone. */
import assert from 'node:assert/strict';
import type { QuickEstimates } from '../../server/src/estimates/quick.ts';
import { machineSettings, windingProgressRows } from '../../server/src/estimates/winding-plan.ts';
import { near, pickupText, quickOfText, SINGLE } from './spec-text.ts';

const WOUND = '    packing 0.66\n    turns 5000';
const single = (facts = WOUND, readings = '') =>
  pickupText([{ coreMm: [63, 5.6], heightMm: 7.2, facts }], { hookup: SINGLE, readings });
const firstCoil = ({ netlist }: QuickEstimates) => {
  const [coil] = netlist.pickup.coils;
  assert.ok(coil);
  return coil;
};

/** Mean turn of the first N turns: 2 (57.4 mm) + 2π (2.8 mm + half their build). */
const lengthM = (turns: number) => {
  const build = (turns * Math.PI * 0.07e-3 ** 2) / 4 / (0.66 * 7.2e-3);
  return turns * (2 * 57.4e-3 + 2 * Math.PI * (2.8e-3 + build / 2));
};
const OHM_PER_M = 1 / 58 / ((Math.PI * 0.0635 ** 2) / 4);

describe('at the winder', () => {
  it('resistance every thousand turns at the temperature of the room', () => {
    const quick = quickOfText(single());
    const rows = windingProgressRows(quick, firstCoil(quick), undefined, { temperatureC: 25 });
    assert.deepEqual(
      rows.map(({ turns }) => turns),
      [1000, 2000, 3000, 4000, 5000],
    );
    for (const { turns, resistanceOhm } of rows)
      near(resistanceOhm.value, lengthM(turns) * OHM_PER_M * (1 + 0.00393 * 5), 1e-9);
  });

  it('pitch, turns in a layer, and how the spindle turns', () => {
    const quick = quickOfText(single());
    const settings = machineSettings(quick, firstCoil(quick));
    // 7.2 mm of 0.070 mm wire: 102 turns side by side.
    assert.equal(settings?.turnsPerLayer, 102);
    // A bobbin that turns clockwise lays its wire counterclockwise, seen from the same side: with its bottom toward the spindle one
    // faces its top, the strings' side, so clockwise wire asks for a counterclockwise spindle.
    assert.equal(settings?.spindle?.bottomTowardIt, 'counterclockwise');
    assert.equal(settings?.spindle?.topTowardIt, 'clockwise');
  });
});
