import assert from 'node:assert/strict';
import { type Component, circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { coil, coupling, inductor, mutualInductance } from '../../../server/src/physics/circuit/coil.ts';
import { capacitor, currentSource, resistor, wire } from '../../../server/src/physics/circuit/components.ts';
import { resistanceBetween } from '../../../server/src/physics/circuit/dc.ts';
import { networkOf } from '../../../server/src/physics/circuit/network.ts';
import { potentiometer, type Taper, wiperFraction } from '../../../server/src/physics/circuit/potentiometer.ts';
import { responseFigures, responseOf, silenceDb } from '../../../server/src/physics/circuit/response.ts';
import { cancelledDb } from '../../../server/src/physics/circuit/silence.ts';
import { solve, transfers } from '../../../server/src/physics/circuit/solve.ts';
import { combinedLevelDb } from '../../support/combined-level.ts';
import { voltageSource } from '../../support/voltage-source.ts';

const ends = { start: ground, finish: 'hot' };
const bare = { ohm: 4000, henry: 2 };
const pickup = coil({ name: 'pickup', ...ends, ...bare, farad: 6e-11 });

describe('circuit: what has no value says so', () => {
  const tapedOff = coil({ name: 'taped off', start: 'one', finish: 'other', ...bare, farad: 5e-11 });
  const network = networkOf(circuit([pickup, tapedOff, coupling('k', pickup, tapedOff, 0.1)]));

  const NODES = ['one', 'other', 'hot', ground];

  it('a coil taped off at both ends floats, and its own resistance can still be read', () => {
    const solution = solve(network, 1000, { pickup: 1 });
    assert.ok(solution !== 'undetermined');
    assert.equal(solution.voltageAt('one'), 'floating');
    assert.equal(transfers(network, 'other', 1000), 'floating');
    assert.equal(responseOf(network, 'other', { pickup: 1 }), 'floating');
    assert.equal(responseFigures(network, 'other', { pickup: 1 }), 'floating');
    assert.deepEqual(
      NODES.map((a) => NODES.map((b) => rounded(resistanceBetween(network, a, b)))),
      [
        [0, 4000, null, null],
        [4000, 0, null, null],
        [null, null, 0, 4000],
        [null, null, 4000, 0],
      ],
    );
  });

  it('a floating coil leaves the rest as it is', () => {
    const alone = transfers(networkOf(circuit([pickup])), 'hot', 3000);
    const beside = transfers(networkOf(circuit([pickup, { ...tapedOff }])), 'hot', 3000);
    assert.ok(typeof alone === 'object' && typeof beside === 'object');
    assert.deepEqual(beside[0], alone[0]);
  });

  it('a node behind a capacitor floats for the meter, not for the string', () => {
    const network = networkOf(circuit([pickup, capacitor({ name: 'c', from: 'hot', to: 'out', farad: 1e-8 })]));
    assert.equal(resistanceBetween(network, 'out', ground), null);
    assert.equal(transfers(network, 'out', 0), 'floating');
    assert.equal(typeof transfers(network, 'out', 100), 'object');
  });

  it('a node nobody mentions floats', () => {
    assert.equal(transfers(networkOf(circuit([pickup])), 'nowhere', 100), 'floating');
    assert.equal(resistanceBetween(networkOf(circuit([pickup])), 'nowhere', ground), null);
    assert.equal(resistanceBetween(networkOf(circuit([])), ground, ground), 0);
  });

  it('a source left out is 0, also one that is called as what every object has', () => {
    for (const name of ['left-out', 'constructor', 'valueOf']) {
      const coils = [pickup, coil({ name, start: 'hot', finish: 'out', ...bare, farad: 5e-11 })];
      const network = networkOf(circuit(coils));
      const solution = solve(network, 0, { pickup: 1 });
      assert.ok(solution !== 'undetermined');
      assert.deepEqual(solution.voltageAt('out'), solution.voltageAt('hot'), name);
      assert.equal(combinedLevelDb(network, 'out', { pickup: 1 }, 0), 0, name);
      const figures = responseFigures(network, 'out', { pickup: 1 });
      assert.ok(typeof figures !== 'string' && Number.isFinite(figures.lowFrequencyLevelDb), name);
    }
  });

  it('two voltage sources side by side are undetermined, and so is a current with nowhere to go', () => {
    const sources = ['a', 'b'].map((name) => voltageSource({ name, from: ground, to: 'hot' }));
    assert.equal(solve(networkOf(circuit(sources)), 100, { a: 1, b: 2 }), 'undetermined');
    assert.equal(solve(networkOf(circuit(sources)), 0, {}), 'undetermined');
    const nowhere = networkOf(circuit([currentSource({ name: 'i', from: ground, to: 'hot' })]));
    assert.equal(transfers(nowhere, 'hot', 100), 'floating');
  });

  it('a value that is no number is undetermined, never a number', () => {
    const network = networkOf(circuit([coil({ name: 'c', ...ends, ohm: Number.NaN, henry: 2 })]));
    assert.equal(solve(network, 100, { c: 1 }), 'undetermined');
    assert.equal(resistanceBetween(network, 'hot', ground), null);
    assert.equal(responseOf(network, 'hot', { c: 1 }), 'undetermined');
  });

  it('an output joined to ground is silent and reads nothing', () => {
    const shorted = networkOf(circuit([pickup, wire({ name: 'short', from: 'hot', to: ground })]));
    assert.equal(resistanceBetween(shorted, 'hot', ground), 0);
    assert.equal(combinedLevelDb(shorted, 'hot', { pickup: 1 }, 100), cancelledDb);
    const response = responseOf(shorted, 'hot', { pickup: 1 });
    assert.ok(typeof response === 'object' && response.levelDb.every((level) => level === silenceDb));
    assert.deepEqual(responseFigures(shorted, 'hot', { pickup: 1 }), {
      lowFrequencyLevelDb: silenceDb,
      peakHz: null,
      peakDb: null,
      minus3DbHz: null,
    });
  });

  it('coils that cancel completely have no peak above nothing', () => {
    const same = { ...ends, ...bare };
    const network = networkOf(circuit([coil({ name: 'a', ...same }), coil({ name: 'b', ...same })]));
    assert.equal(combinedLevelDb(network, 'hot', { a: 1, b: -1 }, 100), cancelledDb);
    const figures = responseFigures(network, 'hot', { a: 1, b: -1 });
    assert.ok(typeof figures === 'object');
    assert.deepEqual([figures.peakHz, figures.minus3DbHz], [null, null]);
  });
});

describe('circuit: where the fixed order of elimination meets a vanishing pivot', () => {
  // A trap without loss: at its resonance L and C in series are a short, so all of the source's current flows in it.
  const farad = 1 / (2 * Math.PI * 5000) ** 2;
  const trap = circuit([
    voltageSource({ name: 'v', from: ground, to: 'in' }),
    resistor({ name: 'r', from: 'in', to: 'out', ohm: 1000 }),
    inductor({ name: 'l', from: 'out', to: 'middle', henry: 1 }),
    capacitor({ name: 'c', from: 'middle', to: ground, farad }),
  ]);

  it('still knows every voltage', () => {
    const solution = solve(networkOf(trap), 5000, { v: 1 });
    assert.ok(solution !== 'undetermined');
    const [out, middle] = [solution.voltageAt('out'), solution.voltageAt('middle')];
    assert.ok(out !== 'floating' && middle !== 'floating');
    assert.ok(Math.hypot(out.re, out.im) < 1e-9);
    assert.ok(Math.abs(middle.im + 2 * Math.PI * 5) < 1e-9 && Math.abs(middle.re) < 1e-9);
  });

  it('and sweeps through it', () => {
    const response = responseOf(networkOf(trap), 'middle', { v: 1 }, Float64Array.of(4999.999, 5000, 5000.001));
    assert.ok(typeof response === 'object');
    response.levelDb.forEach((level) => {
      assert.ok(Math.abs(level - 20 * Math.log10(10 * Math.PI)) < 1e-4);
    });
  });
});

describe('circuit: very small and very large values', () => {
  for (const [joint, leak] of [
    [1e-6, 1e9],
    [1e-3, 1e12],
    [1e-9, 1e6],
  ] as const)
    it(`a joint of ${joint} ohm beside a leak of ${leak} ohm`, () => {
      const parts: Component[] = [
        resistor({ name: 'joint', from: 'hot', to: 'out', ohm: joint }),
        resistor({ name: 'leak', from: 'out', to: ground, ohm: leak }),
      ];
      const alone = resistanceBetween(networkOf(circuit(parts)), 'hot', ground);
      assert.ok(alone !== null && Math.abs(alone / leak - 1) < 1e-6);
      const both = resistanceBetween(networkOf(circuit([...parts, pickup])), 'out', ground);
      const exact = 1 / (1 / (4000 + joint) + 1 / leak);
      assert.ok(both !== null && Math.abs(both / exact - 1) < 1e-9);
    });

  it('a resistor of 0 ohm joins, one of infinite ohm does not', () => {
    const joined = (ohm: number) =>
      resistanceBetween(
        networkOf(circuit([pickup, resistor({ name: 'r', from: 'hot', to: 'out', ohm })])),
        'out',
        ground,
      );
    assert.equal(rounded(joined(0)), 4000);
    assert.equal(joined(Number.POSITIVE_INFINITY), null);
  });

  it('a coil without inductance, or shorted by a wire, or of no length', () => {
    const parts = [
      coil({ name: 'short', start: 'hot', finish: 'hot', ...bare, farad: 1e-10 }),
      coil({ name: 'resistive', ...ends, ohm: 4000, henry: 0 }),
    ];
    const level = combinedLevelDb(
      networkOf(circuit([pickup, ...parts])),
      'hot',
      { pickup: 1, short: 5, resistive: 1 },
      100,
    );
    assert.ok(typeof level === 'number' && Math.abs(level - 20 * Math.log10(2)) < 1);
  });
});

describe('circuit: mutual inductance', () => {
  it('in henries is the coupling factor times the root of both inductances', () => {
    const [a, b] = ['a', 'b'].map((name, index) =>
      inductor({ name, from: ground, to: name, henry: 1 + index, ohm: 10 }),
    );
    assert.ok(a && b);
    const driven = [
      a,
      b,
      resistor({ name: 'r', from: 'in', to: 'a', ohm: 100 }),
      voltageSource({ name: 'v', from: ground, to: 'in' }),
    ];
    const [byFactor] = [coupling('k', a, b, 0.3)];
    const byHenry = mutualInductance('k', a, b, 0.3 * Math.sqrt(2));
    const voltage = (k: Component) => transfers(networkOf(circuit([...driven, k])), 'b', 50);
    assert.deepEqual(voltage(byFactor), voltage(byHenry));
  });

  it('of two coils in series adds twice to the inductance, or takes twice from it', () => {
    const inductance = (k: number) => {
      const a = inductor({ name: 'a', from: 'in', to: 'link', henry: 2 });
      const b = inductor({ name: 'b', from: 'link', to: ground, henry: 3 });
      const source = currentSource({ name: 'i', from: ground, to: 'in' });
      const solution = solve(networkOf(circuit([a, b, coupling('k', a, b, k), source])), 1 / (2 * Math.PI), { i: 1 });
      const voltage = solution === 'undetermined' ? solution : solution.voltageAt('in');
      assert.ok(typeof voltage === 'object');
      return voltage.im;
    };
    assert.ok(Math.abs(inductance(0.4) - (5 + 0.8 * Math.sqrt(6))) < 1e-12);
    assert.ok(Math.abs(inductance(-0.4) - (5 - 0.8 * Math.sqrt(6))) < 1e-12);
  });
});

describe('potentiometer', () => {
  const tapers: readonly Taper[] = ['linear', 'audio', 'reverse-audio'];

  for (const taper of tapers)
    it(`${taper} runs from one end of its track to the other and never back`, () => {
      const travel = Array.from({ length: 41 }, (_, step) => wiperFraction(taper, step / 4));
      assert.equal(travel[0], 0);
      assert.equal(travel[40], 1);
      travel.slice(1).forEach((fraction, index) => {
        assert.ok(fraction > (travel[index] ?? 1));
      });
      assert.equal(wiperFraction(taper, -3), 0);
      assert.equal(wiperFraction(taper, 12), 1);
    });

  it('has half, a tenth and nine tenths of its track at half travel', () => {
    assert.deepEqual(
      tapers.map((taper) => Math.round(wiperFraction(taper, 5) * 1e9) / 1e9),
      [0.5, 0.1, 0.9],
    );
  });

  it('at either end is a wire and the whole track, or keeps its end resistance', () => {
    const reading = (rotation: number, endOhm: number) => {
      const pot = { name: 'pot', high: 'in', wiper: 'out', low: ground, trackOhm: 250e3, taper: 'audio' as const };
      const network = networkOf(circuit([potentiometer({ ...pot, rotation, endOhm })]));
      return ['in', ground].map((node) => rounded(resistanceBetween(network, 'out', node)));
    };
    assert.deepEqual(reading(10, 0), [0, 250e3]);
    assert.deepEqual(reading(0, 0), [250e3, 0]);
    assert.deepEqual(reading(10, 5), [5, 250_005]);
  });
});

function rounded(ohm: number | null): number | null {
  return ohm === null ? null : Math.round(ohm * 1e4) / 1e4;
}
