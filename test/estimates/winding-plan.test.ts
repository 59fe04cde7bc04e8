/** What a winder asks before and during winding. Expected numbers are worked out beside each, from geometry alone. */
import assert from 'node:assert/strict';
import { machineSettings, windingProgressRows } from '../../server/src/estimates/winding-plan.ts';
import { near, quickOfText } from './spec-text.ts';
import { firstCoil, lengthM, OHM_PER_M, woundCoil } from './wound-coil.ts';

describe('at the winder', () => {
  it('resistance every thousand turns at the temperature of the room', () => {
    const quick = quickOfText(woundCoil());
    const rows = windingProgressRows(quick, firstCoil(quick), undefined, { temperatureC: 25 });
    assert.deepEqual(
      rows.map(({ turns }) => turns),
      [1000, 2000, 3000, 4000, 5000],
    );
    for (const { turns, resistanceOhm } of rows)
      near(resistanceOhm.value, lengthM(turns) * OHM_PER_M * (1 + 0.00393 * 5), 1e-9);
  });

  it('pitch, turns in a layer, and how the spindle turns', () => {
    const quick = quickOfText(woundCoil());
    const settings = machineSettings(quick, firstCoil(quick));
    // 7.2 mm of 0.070 mm wire: 102 turns side by side.
    assert.equal(settings?.turnsPerLayer, 102);
    // A bobbin that turns clockwise lays its wire counterclockwise, seen from the same side: with its bottom toward the spindle one
    // faces its top, the strings' side, so clockwise wire asks for a counterclockwise spindle.
    assert.equal(settings?.spindle?.bottomTowardIt, 'counterclockwise');
    assert.equal(settings?.spindle?.topTowardIt, 'clockwise');
  });
});
