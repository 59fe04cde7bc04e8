import assert from 'node:assert/strict';
import {
  packingOfBuild,
  turnsOfResistance,
  turnsOfWireLength,
  type Winding,
  windCoil,
  windingFit,
  wireLengthOfFirstTurnsM,
} from '../../server/src/physics/coil-geometry.ts';
import { racetrackOfCore } from '../../server/src/physics/racetrack.ts';
import { traverse, windingTimeS } from '../../server/src/physics/winding-machine.ts';
import { copperTemperatureFactor, resistanceOhmPerM, wireMass } from '../../server/src/physics/wire.ts';
import {
  type Comparison,
  numberAt,
  type ReferenceCase,
  referenceCases,
  testAgainstReference,
} from '../support/reference-cases.ts';

testAgainstReference('winding: packing of very many layers', () =>
  referenceCases('wire', 'W-PACK').map(({ id, expected }): Comparison => {
    const overallDiameterM = 5e-5;
    const winding: Winding = {
      core: { straightM: 0, straightAcrossM: 0, innerRadiusM: 1e-3 },
      heightM: 2000 * overallDiameterM,
      overallDiameterM,
      laying: { kind: 'layers', stacking: id === 'W-PACK-HEX' ? 'nested' : 'square' },
    };
    // What the first layer and every second layer's last turn lack, two thousandths of the whole, falls with their number.
    const { packing: ours } = windCoil(winding, 2000 * 2000);
    return { id, quantity: 'packing', reference: numberAt(expected, 'packing'), ours, tolerance: { relative: 1e-3 } };
  }),
);

testAgainstReference('winding: layer by layer', () =>
  referenceCases('winding-layers', 'WD').flatMap((reference) => {
    const { id, inputs, expected } = reference;
    const turns = numberAt(inputs, 'turns');
    const bareM = numberAt(inputs, 'bareDiameterMm') * 1e-3;
    const coil = windCoil(windingOf(reference), turns);
    const layers = coil.layers ?? { count: 0, turnsInOddLayers: 0, turnsInEvenLayers: 0, turnsInLastLayer: 0 };
    return rowsOf(id, expected, {
      turnsInOddLayers: layers.turnsInOddLayers,
      turnsInEvenLayers: layers.turnsInEvenLayers,
      layers: layers.count,
      turnsInLastLayer: layers.turnsInLastLayer,
      buildMm: coil.buildM * 1e3,
      wireLengthM: coil.wireLengthM,
      meanTurnMm: coil.meanTurnM * 1e3,
      turnAreaM2: coil.turnAreaM2,
      ohmAt20C: coil.wireLengthM * resistanceOhmPerM(bareM),
      ohmAt25C: coil.wireLengthM * resistanceOhmPerM(bareM, 25),
      copperGram: coil.wireLengthM * wireMass(bareM).copperKgPerM * 1e3,
      packing: coil.packing,
    });
  }),
);

testAgainstReference('winding: scatter', () =>
  referenceCases('winding-layers', 'WS').flatMap((reference) => {
    const { id, inputs, expected } = reference;
    const coil = windCoil(windingOf(reference), numberAt(inputs, 'turns'));
    return rowsOf(id, expected, {
      buildMm: coil.buildM * 1e3,
      meanTurnMm: coil.meanTurnM * 1e3,
      wireLengthM: coil.wireLengthM,
      turnAreaM2: coil.turnAreaM2,
      ohmAt20C: coil.wireLengthM * resistanceOhmPerM(numberAt(inputs, 'bareDiameterMm') * 1e-3),
    });
  }),
);

testAgainstReference('winding: turns from a reading', () =>
  referenceCases('winding-layers', 'WT').flatMap((reference) => {
    const { id, inputs, expected } = reference;
    const resistanceAt20COhm =
      numberAt(inputs, 'ohmMeasured') / copperTemperatureFactor(numberAt(inputs, 'temperatureC'));
    const winding = windingOf(reference);
    const { turns } = turnsOfResistance(winding, {
      resistanceAt20COhm,
      ohmPerM: resistanceOhmPerM(numberAt(inputs, 'bareDiameterMm') * 1e-3),
    });
    return rowsOf(id, expected, {
      ohmAt20C: resistanceAt20COhm,
      turns,
      buildMm: windCoil(winding, turns).buildM * 1e3,
    });
  }),
);

describe('winding', () => {
  const scatter: Winding = {
    core: racetrackOfCore({ lengthM: 63e-3, widthM: 5.6e-3 }),
    heightM: 7.2e-3,
    overallDiameterM: 0.07e-3,
    laying: { kind: 'scatter', packing: 0.66 },
  };
  const layered: Winding = { ...scatter, laying: { kind: 'layers', stacking: 'nested' } };

  it('reads a core outline with round ends unless it has a corner radius', () => {
    assert.deepEqual(racetrackOfCore({ lengthM: 60e-3, widthM: 6e-3 }), {
      straightM: 54e-3,
      straightAcrossM: 0,
      innerRadiusM: 3e-3,
    });
    const cornered = racetrackOfCore({ lengthM: 60e-3, widthM: 6e-3, cornerRadiusM: 1e-3 });
    assert.ok(Math.abs(cornered.straightM - 58e-3) < 1e-12 && Math.abs(cornered.straightAcrossM - 4e-3) < 1e-12);
    assert.equal(racetrackOfCore({ lengthM: 60e-3, widthM: 6e-3, cornerRadiusM: 9e-3 }).innerRadiusM, 3e-3);
  });

  for (const [name, winding] of Object.entries({ scatter, layered })) {
    it(`gives back the turns of a length of wire (${name}), and how many turns a metre more makes`, () => {
      const lengthM = wireLengthOfFirstTurnsM(winding, 5050);
      const { turns, turnsPerM } = turnsOfWireLength(winding, lengthM);
      assert.ok(Math.abs(turns - 5050) < 1e-6);
      const oneMetreMore = turnsOfWireLength(winding, lengthM + 1).turns - turns;
      assert.ok(Math.abs(oneMetreMore - turnsPerM) < 1e-3);
    });

    it(`makes a tap and the rest add up to the whole (${name})`, () => {
      const whole = wireLengthOfFirstTurnsM(winding, 5050);
      const tapped = wireLengthOfFirstTurnsM(winding, 4000);
      assert.ok(tapped / whole < 4000 / 5050, 'the inner turns are shorter than the mean');
      assert.ok(whole - tapped > 1050 * (tapped / 4000), 'the outer turns are longer');
    });

    it(`fills the window with the turns it says fit, and not with 3 % more (${name})`, () => {
      const { turnsThatFit } = windingFit(winding, 5050, 4.8e-3);
      assert.equal(windingFit(winding, turnsThatFit, 4.8e-3).fits, true);
      assert.equal(windingFit(winding, Math.ceil(turnsThatFit * 1.03), 4.8e-3).fits, false);
    });
  }

  it('takes packing back from a measured build', () => {
    const { buildM } = windCoil(scatter, 5050);
    const packing = packingOfBuild({
      turns: 5050,
      overallDiameterM: scatter.overallDiameterM,
      heightM: scatter.heightM,
      buildM,
    });
    assert.ok(Math.abs(packing - 0.66) < 1e-12);
  });

  it('gives nothing for no turns and for no wire', () => {
    for (const winding of [scatter, layered]) {
      assert.equal(windCoil(winding, 0).wireLengthM, 0);
      assert.equal(windCoil(winding, 0).buildM, 0);
      assert.equal(turnsOfWireLength(winding, 0).turns, 0);
    }
  });

  it('sets the traverse: turns to a stroke, and the time at the spindle', () => {
    assert.deepEqual(traverse({ heightM: 6.35e-3, overallDiameterM: 0.0635e-3 }), {
      pitchM: 0.0635e-3,
      turnsPerLayer: 100,
      turnsPerDoubleStroke: 200,
    });
    assert.equal(windingTimeS(5000, 1000), 300);
  });
});

function windingOf({ inputs }: ReferenceCase): Winding {
  const stacking = inputs.stacking === 'nested' ? 'nested' : 'square';
  return {
    core: {
      straightM: numberAt(inputs, 'straightMm') * 1e-3,
      straightAcrossM: numberAt(inputs, 'straightAcrossMm') * 1e-3,
      innerRadiusM: numberAt(inputs, 'innerRadiusMm') * 1e-3,
    },
    heightM: numberAt(inputs, 'heightMm') * 1e-3,
    overallDiameterM: numberAt(inputs, 'overallDiameterMm') * 1e-3,
    laying:
      'packing' in inputs ? { kind: 'scatter', packing: numberAt(inputs, 'packing') } : { kind: 'layers', stacking },
  };
}

function rowsOf(id: string, expected: Record<string, unknown>, ours: Record<string, number>): Comparison[] {
  assert.deepEqual(
    Object.keys(ours).sort(),
    Object.keys(expected).sort(),
    `${id}: every number of the reference is compared`,
  );
  return Object.entries(ours).map(([key, value]) => ({
    id,
    quantity: key,
    reference: numberAt(expected, key),
    ours: value,
    tolerance: { relative: 1e-9 },
  }));
}
