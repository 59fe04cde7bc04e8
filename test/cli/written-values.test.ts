import assert from 'node:assert/strict';
import { cableFarads } from '../../server/src/cli/cable-option.ts';
import { roomCelsius } from '../../server/src/cli/room.ts';

describe('options that state a quantity', () => {
  it('take every way of writing that a spec takes', () => {
    for (const written of ['700pF', '700 pF', '0.7 nF', '700p', '0.0007 µF'])
      assert.ok(Math.abs((cableFarads(written) ?? 0) - 700e-12) < 1e-15, written);
    assert.ok(Math.abs((cableFarads('6 m of 100 pF/m') ?? 0) - 600e-12) < 1e-15);
    for (const written of ['23', '23degC', '23 °C', '296.15 K', '73.4 degF', '+23'])
      assert.equal(roomCelsius(written), 23);
  });

  it('refuse what a spec refuses', () => {
    for (const written of ['700', '0,7 nF', '700 mm', '700 pF }', ''])
      assert.throws(() => cableFarads(written), written);
    for (const written of ['23,5', '23 kohm', '300', 'warm', '23 degC; 5'])
      assert.throws(() => roomCelsius(written), written);
  });
});
