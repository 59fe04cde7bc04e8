import assert from 'node:assert/strict';
import { circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { coil } from '../../../server/src/physics/circuit/coil.ts';
import { combinedLevelDb } from '../../../server/src/physics/circuit/combined-level.ts';
import { wire } from '../../../server/src/physics/circuit/components.ts';
import { type Network, networkOf } from '../../../server/src/physics/circuit/network.ts';
import {
  humEmfSign,
  type Motion,
  type Poles,
  stringEmfSign,
  type Wound,
} from '../../../server/src/physics/circuit/polarity.ts';
import { solve } from '../../../server/src/physics/circuit/solve.ts';
import { type ReferenceCase, referenceCases } from '../../support/reference-cases.ts';

/* sign-table.json: flux through polylines wound turn by turn, integrated without any sign formula. */

describe('polarity: all series wirings of two coils, solved as circuits', () => {
  for (const { id, inputs, expected } of referenceCases('sign-table', 'SG')) {
    it(`${id}: ${inputs.coilAWound} ${inputs.coilAPoles}, ${inputs.coilBWound} ${inputs.coilBPoles}, ${inputs.linkJoins}`, () => {
      const network = seriesPair(inputs);
      const string = { a: stringSign(inputs, 'A'), b: stringSign(inputs, 'B') };
      const hum = { a: humEmfSign(inputs.coilAWound as Wound), b: humEmfSign(inputs.coilBWound as Wound) };

      assert.equal(sum(network, string), expected.stringSignal);
      assert.equal(sum(network, hum), expected.hum);
      assert.equal(polarityAtHot(network, { a: string.a }), expected.coilAStringPolarityAtHot);
      assert.equal(polarityAtHot(network, { b: string.b }), expected.coilBStringPolarityAtHot);
    });
  }
});

describe('polarity: kicks of one coil, red probe against the other end', () => {
  for (const { id, inputs, expected } of referenceCases('sign-table', 'KICK')) {
    it(`${id}: ${inputs.wound}, ${inputs.poles}, red on ${inputs.redProbeOn}, ${inputs.steel}`, () => {
      const redOnFinish = inputs.redProbeOn === 'finish';
      const [start, finish] = redOnFinish ? [ground, 'hot'] : ['hot', ground];
      const network = networkOf(circuit([coil({ name: 'coil', start, finish, ohm: 4000, henry: 2 })]));
      const emf = stringEmfSign(inputs.wound as Wound, inputs.poles as Poles, inputs.steel as Motion);
      assert.equal(polarityAtHot(network, { coil: emf }), expected.reads);
    });
  }
});

/** Two coils between their own ends, joined as the case says: link, hot and ground are ideal joints. */
function seriesPair(inputs: ReferenceCase['inputs']): Network {
  const [first = '', second = ''] = String(inputs.linkJoins).split(' with ');
  return networkOf(
    circuit([
      coil({ name: 'a', start: 'a.start', finish: 'a.finish', ohm: 4000, henry: 2, farad: 60e-12 }),
      coil({ name: 'b', start: 'b.start', finish: 'b.finish', ohm: 4000, henry: 2, farad: 60e-12 }),
      wire({ name: 'link', from: first, to: second }),
      wire({ name: 'hot', from: String(inputs.hot), to: 'hot' }),
      wire({ name: 'ground', from: String(inputs.ground), to: ground }),
    ]),
  );
}

function stringSign(inputs: ReferenceCase['inputs'], which: 'A' | 'B'): 1 | -1 {
  return stringEmfSign(inputs[`coil${which}Wound`] as Wound, inputs[`coil${which}Poles`] as Poles);
}

function sum(network: Network, values: { a: number; b: number }): string {
  const db = combinedLevelDb(network, 'hot', values, 100);
  assert.ok(typeof db === 'number');
  if (db > 6) return 'adds';
  return db < -80 ? 'cancels' : `${db} dB`;
}

function polarityAtHot(network: Network, values: Readonly<Record<string, number>>): string {
  const solution = solve(network, 0, values);
  assert.ok(solution !== 'undetermined');
  const voltage = solution.voltageAt('hot');
  assert.ok(voltage !== 'floating' && voltage.re !== 0);
  return voltage.re > 0 ? 'positive' : 'negative';
}
