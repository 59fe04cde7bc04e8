import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Component, circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { type Coil, coil, coupling } from '../../../server/src/physics/circuit/coil.ts';
import { capacitor, resistor } from '../../../server/src/physics/circuit/components.ts';
import { resistanceBetween } from '../../../server/src/physics/circuit/dc.ts';
import { planElimination } from '../../../server/src/physics/circuit/elimination-plan.ts';
import { type Network, networkOf } from '../../../server/src/physics/circuit/network.ts';
import { transfers } from '../../../server/src/physics/circuit/solve.ts';
import { denseFactors } from '../../support/dense-factors.ts';

const LONG = 2000;
const omega = 2 * Math.PI * 1000;

describe('circuit: long netlists', () => {
  it('has the resistance of a ladder of R and 2R, which is 2R however long it is', () => {
    // Every textbook's R-2R ladder (recalled): closed by 2R at its end, it is 2R again from each of its rungs.
    const rungs = Array.from({ length: LONG }, (_, index): readonly Component[] => [
      resistor({ name: `along ${index}`, from: `n${index}`, to: `n${index + 1}`, ohm: 1000 }),
      resistor({ name: `across ${index}`, from: `n${index + 1}`, to: ground, ohm: 2000 }),
    ]);
    const end = resistor({ name: 'end', from: `n${LONG}`, to: ground, ohm: 2000 });
    const ohm = resistanceBetween(networkOf(circuit([...rungs.flat(), end])), 'n0', ground);
    assert.ok(ohm !== null && Math.abs(ohm / 2000 - 1) < 1e-12, `${ohm} ohm`);
  });

  it('divides the voltage of each coil of a chain between all coils and the load', () => {
    const network = networkOf(circuit([...chain(LONG), resistor({ name: 'load', from: 'n0', to: ground, ohm: 1e6 })]));
    const perUnit = transfers(network, 'n0', 0);
    assert.ok(typeof perUnit === 'object');
    const expected = 1e6 / (1e6 + LONG * 5000);
    assert.equal(perUnit.length, LONG);
    for (const { re } of perUnit) assert.ok(Math.abs(Math.abs(re) / expected - 1) < 1e-9, `${re} against ${expected}`);
  });

  it('needs about as many numbers as there are entries: for a chain, for coils side by side, for a tree', () => {
    const sideBySide = Array.from({ length: LONG }, (_, index) => someCoil(index, ground, 'hot'));
    const tree = Array.from({ length: LONG }, (_, index) => someCoil(index, `n${index >> 1}`, `n${index + 1}`));
    for (const components of [chain(LONG), sideBySide, tree]) {
      const { system } = networkOf(circuit(components)).alternating();
      const plan = planElimination(system, omega);
      assert.ok(plan !== null);
      assert.ok(plan.slotCount <= 1.5 * system.rows.length, `${plan.slotCount} of ${system.rows.length}`);
      assert.ok(plan.targetSlots.length <= 4 * system.rows.length, `${plan.targetSlots.length} products`);
    }
  });

  it('agrees with the full matrix on random netlists of up to eighty nodes', () => {
    fc.assert(
      fc.property(anyMesh, (components) => {
        const network = networkOf(circuit(components));
        const { system } = network.alternating();
        const perUnit = transfers(network, 'n0', 1000);
        const factors = denseFactors(system);
        assert.ok(typeof perUnit === 'object' && factors.factor(omega));
        const [re, im] = [new Float64Array(system.size), new Float64Array(system.size)];
        factors.solveTransposed(unitAt(network, 'n0'), re, im);
        for (const { source, row, coefficient } of network.sourceTerms) {
          const ours = perUnit[source] ?? { re: Number.NaN, im: Number.NaN };
          const off = Math.hypot(ours.re - coefficient * (re[row] ?? 0), ours.im - coefficient * (im[row] ?? 0));
          assert.ok(off < 1e-9, `source ${source} is off by ${off}`);
        }
      }),
      { numRuns: 40 },
    );
  });

  it('finds no order where an equation says the same as others', () => {
    const twice = { rows: [0, 0, 1, 1], columns: [0, 1, 0, 1], values: [1, 3, 2, 6] };
    const system = {
      size: 2,
      rows: Int32Array.from(twice.rows),
      columns: Int32Array.from(twice.columns),
      g: Float64Array.from(twice.values),
      b: new Float64Array(4),
    };
    assert.equal(planElimination(system, omega), null);
  });
});

function someCoil(index: number, start: string, finish: string): Coil {
  return coil({ name: `coil ${index}`, start, finish, ohm: 5000, henry: 2.5, farad: 8e-11 });
}

function chain(length: number): readonly Coil[] {
  return Array.from({ length }, (_, index) =>
    someCoil(index, index + 1 === length ? ground : `n${index + 1}`, `n${index}`),
  );
}

const NODES = 80;
const anyNode = fc.integer({ min: 0, max: NODES }).map((node) => (node === NODES ? ground : `n${node}`));

/** A chain of coils, neighbours coupled, with resistors and capacitors from anywhere to anywhere. */
const anyMesh: fc.Arbitrary<readonly Component[]> = fc
  .record({
    coils: fc.integer({ min: 2, max: NODES }),
    k: fc.double({ min: -0.4, max: 0.4, noNaN: true }),
    resistors: fc.array(fc.tuple(anyNode, anyNode, fc.double({ min: 2, max: 6, noNaN: true })), { maxLength: 40 }),
    capacitors: fc.array(fc.tuple(anyNode, anyNode, fc.double({ min: -11, max: -8, noNaN: true })), { maxLength: 40 }),
  })
  .map(({ coils, k, resistors, capacitors }) => {
    const made = chain(coils);
    return [
      ...made,
      ...made.flatMap((each, index) => {
        const next = made[index + 1];
        return next ? [coupling(`k ${index}`, each, next, k)] : [];
      }),
      ...resistors.map(([from, to, exponent], index) =>
        resistor({ name: `resistor ${index}`, from, to, ohm: 10 ** exponent }),
      ),
      ...capacitors.map(([from, to, exponent], index) =>
        capacitor({ name: `capacitor ${index}`, from, to, farad: 10 ** exponent }),
      ),
      ...Array.from({ length: NODES }, (_, index) =>
        resistor({ name: `leak ${index}`, from: `n${index}`, to: ground, ohm: 1e7 }),
      ),
    ];
  });

function unitAt({ nets, size }: Network, node: string): Float64Array {
  const unit = new Float64Array(size);
  unit[(nets.ofNode.get(node) ?? 0) - 1] = 1;
  return unit;
}
