import { combinedDb } from '../../../server/src/estimates/phase.ts';
import { type Component, circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { coil, coupling } from '../../../server/src/physics/circuit/coil.ts';
import { resistor } from '../../../server/src/physics/circuit/components.ts';
import { networkOf } from '../../../server/src/physics/circuit/network.ts';
import { type SourceValues, solve } from '../../../server/src/physics/circuit/solve.ts';
import { magnitude } from '../../../server/src/physics/complex.ts';
import { combinedLevelDb } from '../../support/combined-level.ts';
import {
  type Comparison,
  numberAt,
  type ReferenceCase,
  referenceCases,
  testAgainstReference,
  uncertaintyOf,
} from '../../support/reference-cases.ts';

/* hum.json: Faraday's law and superposition in closed form with complex impedances. */

testAgainstReference('hum of a series path', () => [
  ...referenceCases('hum', 'H-SER').flatMap((reference): Comparison[] => {
    const area = numberAt(reference.inputs, 'meanTurnAreaMm2') * 1e-6;
    const first = numberAt(reference.inputs, 'turns1') * area;
    const second = numberAt(reference.inputs, 'turns2') * area;
    const residue = combinedDb([first, -second]);
    const toSmallerDb = 20 * Math.log10(first / second);
    return [
      compare(reference, 'residueRelativeToLargerCoilDb', residue),
      compare(reference, 'residueRelativeToSmallerCoilDb', residue + toSmallerDb),
      compare(reference, 'residueRelativeToSumDb', residue - combinedDb([first, second])),
    ];
  }),
  ...referenceCases('hum', 'H-AREA').map((reference) => {
    const [first, second] = turnAreas(reference);
    return compare(reference, 'residueRelativeToLargerCoilDb', combinedDb([first, -second]));
  }),
  ...referenceCases('hum', 'H-STEEL').map((reference) => {
    const ratio = numberAt(reference.inputs, 'effectiveAreaRatio');
    return compare(reference, 'residueRelativeToLargerCoilDb', combinedDb([1, -ratio]));
  }),
]);

testAgainstReference('hum of a series path, solved as a circuit', () =>
  referenceCases('hum', 'H-AREA').map((reference) => {
    const [first, second] = turnAreas(reference);
    const network = networkOf(
      circuit([
        coil({ name: 'first', start: ground, finish: 'link', ohm: 4000, henry: 2 }),
        coil({ name: 'second', start: 'link', finish: 'hot', ohm: 4100, henry: 2.2 }),
      ]),
    );
    const residue = combinedLevelDb(network, 'hot', { first, second: -second }, 50);
    return compare(reference, 'residueRelativeToLargerCoilDb', Number(residue));
  }),
);

testAgainstReference('hum of two coils in parallel', () =>
  referenceCases('hum', 'H-PAR').flatMap((reference): Comparison[] => {
    const { inputs, expected } = reference;
    const [first, second] = turnAreas(reference);
    const frequencyHz = numberAt(inputs, 'frequencyHz');
    const values = { first, second: -second };
    const larger = numberAt(expected, 'largerCoil') === 1 ? 'first' : 'second';
    const coils = [1, 2].map((index) =>
      coil({
        name: index === 1 ? 'first' : 'second',
        start: ground,
        finish: 'hot',
        ohm: numberAt(inputs, `ohm${index}`),
        henry: numberAt(inputs, `henry${index}`),
      }),
    );
    const [a, b] = coils;
    const k = numberAt(inputs, 'couplingAsConnected');
    const both: Component[] = a && b && k !== 0 ? [...coils, coupling('k', a, b, k)] : coils;
    const network = networkOf(circuit(both));
    const ownDb = 20 * Math.log10(amplitude(both, values, frequencyHz) / Math.max(first, second));
    return [
      compare(
        reference,
        'residueRelativeToLargerCoilInPlaceDb',
        Number(combinedLevelDb(network, 'hot', values, frequencyHz, larger)),
      ),
      compare(reference, 'residueRelativeToLargerCoilOnItsOwnDb', ownDb),
    ];
  }),
);

testAgainstReference('hum of a two-coil pickup beside a single coil', () =>
  referenceCases('hum', 'H-FULL').flatMap((reference): Comparison[] => {
    const pairOhm = numberAt(reference.inputs, 'ohmTwoCoilSeries');
    const components = [
      coil({ name: 'screw', start: ground, finish: 'link', ohm: pairOhm / 2, henry: 0 }),
      coil({ name: 'slug', start: 'link', finish: 'hot', ohm: pairOhm / 2, henry: 0 }),
      coil({ name: 'single', start: ground, finish: 'hot', ohm: numberAt(reference.inputs, 'ohmSingle'), henry: 0 }),
    ];
    const values = { screw: 0.7, slug: -0.7, single: 1 };
    return [
      compare(reference, 'residueRelativeToSingleOnItsOwnDb', 20 * Math.log10(amplitude(components, values, 50))),
      compare(
        reference,
        'residueRelativeToSingleInPlaceDb',
        Number(combinedLevelDb(networkOf(circuit(components)), 'hot', values, 50, 'single')),
      ),
    ];
  }),
);

testAgainstReference('hum and signal of a pair split through a resistor', () =>
  referenceCases('hum', 'H-SPLIT').flatMap((reference): Comparison[] => {
    const { inputs } = reference;
    const values = { ohm: numberAt(inputs, 'ohmEachCoil'), henry: numberAt(inputs, 'henryEachCoil') };
    const components = [
      coil({ name: 'lower', start: ground, finish: 'link', ...values }),
      coil({ name: 'upper', start: 'link', finish: 'hot', ...values }),
      resistor({ name: 'split', from: 'link', to: ground, ohm: numberAt(inputs, 'resistorOhm') }),
    ];
    const frequencyHz = numberAt(inputs, 'frequencyHz');
    const level = (lower: number) => 20 * Math.log10(amplitude(components, { upper: 1, lower }, frequencyHz));
    return [
      compare(reference, 'humResidueRelativeToOneCoilDb', level(-1)),
      compare(reference, 'stringSumRelativeToOneCoilDb', level(1)),
    ];
  }),
);

/** Amplitude at `hot`, without load, for the given e.m.f. */
function amplitude(components: readonly Component[], values: SourceValues, frequencyHz: number): number {
  const solution = solve(networkOf(circuit(components)), frequencyHz, values);
  const voltage = solution === 'undetermined' ? solution : solution.voltageAt('hot');
  return typeof voltage === 'string' ? Number.NaN : magnitude(voltage);
}

function turnAreas({ inputs }: ReferenceCase): [number, number] {
  const area = (index: 1 | 2) => numberAt(inputs, `turns${index}`) * numberAt(inputs, `meanTurnArea${index}Mm2`) * 1e-6;
  return [area(1), area(2)];
}

/** A level near 0 dB has no relative uncertainty to speak of; 1e-8 dB is the same of the amplitude. */
function compare(reference: ReferenceCase, quantity: string, ours: number): Comparison {
  const expected = numberAt(reference.expected, quantity);
  const relative = uncertaintyOf(reference, quantity) * Math.abs(expected);
  return { id: reference.id, quantity, reference: expected, ours, tolerance: { absolute: Math.max(relative, 1e-8) } };
}
