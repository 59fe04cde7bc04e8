import fc from 'fast-check';
import { type Component, circuit, ground } from '../../server/src/physics/circuit/circuit.ts';
import { type Coil, coil, coupling, shortedTurn } from '../../server/src/physics/circuit/coil.ts';
import { capacitor, resistor } from '../../server/src/physics/circuit/components.ts';
import type { Example } from './example-circuits.ts';

const nodes = ['hot', 'a', 'b', 'c', 'd'];

/** Values over the decades that pickups, controls and cables have. */
export const anyOhm = decades(1, 7);
export const anyHenry = decades(-1, 1);
export const anyFarad = decades(-11, -7);
export const anyFrequencyHz = decades(1, 5);

/**
 * Circuits of one to five coils, some coupled, between up to six nodes, with resistors and capacitors between any of
 * them. Every node reaches ground through a resistor, so that everything has a value.
 */
export const anyCircuit: fc.Arbitrary<Example> = fc
  .record({
    coils: fc.array(
      fc.record({
        between: twoNodes(),
        ohm: decades(3, 4.2),
        henry: anyHenry,
        farad: anyFarad,
        emf: fc.tuple(fc.constantFrom(1, -1), decades(-2, 0.5)).map(([sign, size]) => sign * size),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    turns: fc.array(fc.record({ coupling: fc.double({ min: -0.4, max: 0.4, noNaN: true }), cornerHz: decades(2, 5) }), {
      maxLength: 5,
    }),
    k: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
    resistors: fc.array(fc.record({ between: twoNodes(), ohm: anyOhm }), { maxLength: 6 }),
    capacitors: fc.array(fc.record({ between: twoNodes(), farad: anyFarad }), { maxLength: 6 }),
    leaks: fc.array(anyOhm, { minLength: nodes.length, maxLength: nodes.length }),
  })
  .map(({ coils, turns, k, resistors, capacitors, leaks }) => {
    const made = coils.map(
      ({ between: [start, finish], emf: _, ...values }, index): Coil =>
        coil({ name: `coil ${index}`, start, finish, ...values }),
    );
    const [first, second] = made;
    const components: Component[] = [
      ...made,
      ...(first && second ? [coupling('coupling', first, second, k)] : []),
      ...made.flatMap((each, index): Component[] => {
        const turn = turns[index];
        if (!turn) return [];
        const beside = [{ coil: each, coupling: turn.coupling, drive: turn.coupling / 2 }];
        return [shortedTurn({ name: `turn ${index}`, cornerHz: turn.cornerHz, beside })];
      }),
      ...resistors.map(({ between: [from, to], ohm }, index) => resistor({ name: `resistor ${index}`, from, to, ohm })),
      ...capacitors.map(({ between: [from, to], farad }, index) =>
        capacitor({ name: `capacitor ${index}`, from, to, farad }),
      ),
      ...nodes.map((from, index) => resistor({ name: `leak ${from}`, from, to: ground, ohm: leaks[index] ?? 1e6 })),
    ];
    return {
      title: 'random',
      circuit: circuit(components),
      values: Object.fromEntries(coils.map(({ emf }, index) => [`coil ${index}`, emf])),
      output: 'hot',
    };
  });

function twoNodes(): fc.Arbitrary<[string, string]> {
  return fc
    .shuffledSubarray([ground, 'hot', 'a', 'b', 'c', 'd'], { minLength: 2, maxLength: 2 })
    .map(([from = ground, to = ground]) => [from, to]);
}

function decades(from: number, to: number): fc.Arbitrary<number> {
  return fc.double({ min: from, max: to, noNaN: true }).map((exponent) => 10 ** exponent);
}
