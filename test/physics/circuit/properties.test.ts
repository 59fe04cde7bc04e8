import assert from 'node:assert/strict';
import fc from 'fast-check';
import { type Circuit, type Component, circuit, ground } from '../../../server/src/physics/circuit/circuit.ts';
import { coil, coupling } from '../../../server/src/physics/circuit/coil.ts';
import { capacitor, currentSource, resistor } from '../../../server/src/physics/circuit/components.ts';
import { resistanceBetween } from '../../../server/src/physics/circuit/dc.ts';
import { networkOf } from '../../../server/src/physics/circuit/network.ts';
import { logFrequencies, responseOf, silenceDb } from '../../../server/src/physics/circuit/response.ts';
import { type SourceValues, solve, transfers } from '../../../server/src/physics/circuit/solve.ts';
import { type Complex, magnitude } from '../../../server/src/physics/complex.ts';
import { denseFactors } from '../../support/dense-factors.ts';
import { anyCircuit, anyFarad, anyFrequencyHz, anyHenry, anyOhm } from '../../support/random-circuits.ts';

const runs = { numRuns: 200 };

describe('circuit: what holds for every network', () => {
  it('is reciprocal: a current at one node moves another as much as the other way round', () => {
    fc.assert(
      fc.property(anyCircuit, anyFrequencyHz, ({ circuit }, hz) => {
        const forward = voltage(withCurrent(circuit, 'hot'), hz, { probe: 1 }, 'b');
        const backward = voltage(withCurrent(circuit, 'b'), hz, { probe: 1 }, 'hot');
        assertClose(forward, backward, magnitude(selfImpedance(circuit, 'hot', hz)));
      }),
      runs,
    );
  });

  it('superposes: all coils together are the sum of what each contributes', () => {
    fc.assert(
      fc.property(anyCircuit, anyFrequencyHz, ({ circuit, values, output }, hz) => {
        const network = networkOf(circuit);
        const perUnit = transfers(network, output, hz);
        assert.ok(typeof perUnit === 'object');
        const parts = perUnit.map(({ re, im }, index) => {
          const value = values[network.sources[index] ?? ''] ?? 0;
          return { re: re * value, im: im * value };
        });
        const sum = parts.reduce((total, part) => ({ re: total.re + part.re, im: total.im + part.im }), {
          re: 0,
          im: 0,
        });
        // Rounding is against the largest voltages of the network, the sources themselves.
        const size = parts.reduce((total, part) => total + magnitude(part), 0) + 1e-6 * emfSum(values);
        assertClose(sum, voltage(circuit, hz, values, output), size);
      }),
      runs,
    );
  });

  it('sounds the same with every coil reversed', () => {
    fc.assert(
      fc.property(anyCircuit, anyFrequencyHz, ({ circuit, values, output }, hz) => {
        const reversed = Object.fromEntries(Object.entries(values).map(([coil, value]) => [coil, -value]));
        const there = voltage(circuit, hz, values, output);
        const back = voltage(circuit, hz, reversed, output);
        assert.equal(magnitude(back), magnitude(there));
      }),
      runs,
    );
  });

  it('sounds the same with the leads of every coil swapped: coupling keeps its sense', () => {
    const pair = (swapped: boolean, k: number, ohm: number) => {
      const ends = (start: string, finish: string) => (swapped ? { start: finish, finish: start } : { start, finish });
      const first = coil({ name: 'first', ...ends(ground, 'link'), ohm, henry: 2, farad: 6e-11 });
      const second = coil({ name: 'second', ...ends('link', 'hot'), ohm: 4000, henry: 2.2, farad: 5e-11 });
      return circuit([
        first,
        second,
        coupling('k', first, second, k),
        resistor({ name: 'load', from: 'hot', to: ground, ohm: 2e5 }),
        capacitor({ name: 'cable', from: 'hot', to: ground, farad: 5e-10 }),
      ]);
    };
    fc.assert(
      fc.property(fc.double({ min: -0.5, max: 0.5, noNaN: true }), anyOhm, anyFrequencyHz, (k, ohm, hz) => {
        const values = { first: 1, second: 0.9 };
        const there = voltage(pair(false, k, ohm), hz, values, 'hot');
        const back = voltage(pair(true, k, ohm), hz, values, 'hot');
        assertClose({ re: -back.re, im: -back.im }, there, magnitude(there));
      }),
      runs,
    );
  });

  it('is passive: no current fed into a node comes back stronger', () => {
    fc.assert(
      fc.property(anyCircuit, anyFrequencyHz, ({ circuit }, hz) => {
        const impedance = selfImpedance(circuit, 'hot', hz);
        assert.ok(impedance.re >= -1e-9 * magnitude(impedance), `real part ${impedance.re} ohm`);
      }),
      runs,
    );
  });

  it('scales: all impedances times s changes no ratio of voltages', () => {
    fc.assert(
      fc.property(
        anyOhm,
        anyHenry,
        anyFarad,
        anyFrequencyHz,
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (...drawn) => {
          const [ohm, henry, farad, hz, s] = drawn;
          const there = voltage(loadedCoil(ohm, henry, farad), hz, { coil: 1 }, 'hot');
          const scaled = voltage(loadedCoil(ohm * s, henry * s, farad / s, s), hz, { coil: 1 }, 'hot');
          assertClose(scaled, there, magnitude(there));
        },
      ),
      runs,
    );
  });

  it('scales: inductances and capacitances by 1/s, frequencies by s, is the same response', () => {
    fc.assert(
      fc.property(
        anyOhm,
        anyHenry,
        anyFarad,
        anyFrequencyHz,
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        (...drawn) => {
          const [ohm, henry, farad, hz, s] = drawn;
          const there = voltage(loadedCoil(ohm, henry, farad), hz, { coil: 1 }, 'hot');
          const moved = voltage(loadedCoil(ohm, henry / s, farad / s), hz * s, { coil: 1 }, 'hot');
          assertClose(moved, there, magnitude(there));
        },
      ),
      runs,
    );
  });

  it('gives the same in the fixed order of elimination and by partial pivoting on the full matrix', () => {
    fc.assert(
      fc.property(anyCircuit, anyFrequencyHz, ({ circuit }, hz) => {
        const { system, solver } = networkOf(circuit).alternating();
        const right = Float64Array.from({ length: system.size }, (_, index) => Math.sin(index + 1));
        const [re, im, denseRe, denseIm] = Array.from({ length: 4 }, () => new Float64Array(system.size));
        assert.ok(re && im && denseRe && denseIm);
        const factors = denseFactors(system);
        const omega = 2 * Math.PI * hz;
        for (const method of ['solve', 'solveTransposed'] as const) {
          assert.ok(solver[method](omega, right, re, im));
          assert.ok(factors.factor(omega));
          factors[method](right, denseRe, denseIm);
          const largest = Math.max(...re.map(Math.abs), ...im.map(Math.abs));
          re.forEach((value, index) => {
            const ours = { re: value, im: im[index] ?? 0 };
            assertClose(ours, { re: denseRe[index] ?? 0, im: denseIm[index] ?? 0 }, largest);
          });
        }
      }),
      runs,
    );
  });

  it('sweeps as it solves: one frequency after another gives the same levels', () => {
    fc.assert(
      fc.property(anyCircuit, ({ circuit, values, output }) => {
        const frequencies = logFrequencies(20, 20_000, 37);
        const response = responseOf(networkOf(circuit), output, values, frequencies);
        assert.ok(typeof response === 'object');
        frequencies.forEach((hz, index) => {
          const single = Math.max(magnitude(voltage(circuit, hz, values, output)), 10 ** (silenceDb / 20));
          const swept = 10 ** ((response.levelDb[index] ?? 0) / 20);
          assert.ok(Math.abs(single - swept) <= 1e-9 * (single + 1e-6 * emfSum(values)), `${single} against ${swept}`);
        });
      }),
      { numRuns: 50 },
    );
  });
});

describe('circuit: resistance', () => {
  it('adds in series, and its conductances in parallel', () => {
    fc.assert(
      fc.property(fc.array(anyOhm, { minLength: 1, maxLength: 8 }), (ohms) => {
        const series = ohms.map((ohm, index) =>
          coil({ name: `${index}`, start: index === 0 ? ground : `n${index}`, finish: `n${index + 1}`, ohm, henry: 1 }),
        );
        const parallel = ohms.map((ohm, index) => resistor({ name: `${index}`, from: 'hot', to: ground, ohm }));
        const sum = ohms.reduce((total, ohm) => total + ohm, 0);
        const conductance = ohms.reduce((total, ohm) => total + 1 / ohm, 0);
        assertRelative(resistanceBetween(networkOf(circuit(series)), `n${ohms.length}`, ground), sum);
        assertRelative(resistanceBetween(networkOf(circuit(parallel)), 'hot', ground), 1 / conductance);
      }),
      runs,
    );
  });

  it('of all pairs is symmetric, positive, and never shorter by a detour', () => {
    fc.assert(
      fc.property(anyCircuit, ({ circuit }) => {
        const names = [ground, 'hot', 'a', 'b', 'c', 'd'];
        const network = networkOf(circuit);
        const ohm = (i: number, j: number) => resistanceBetween(network, names[i] ?? '', names[j] ?? '') ?? Number.NaN;
        for (const i of names.keys())
          for (const j of names.keys()) {
            assert.ok(i === j ? ohm(i, j) === 0 : ohm(i, j) > 0);
            assert.equal(ohm(i, j), ohm(j, i));
            for (const k of names.keys()) {
              const detour = ohm(i, k) + ohm(k, j);
              assert.ok(ohm(i, j) <= detour * (1 + 1e-9), `${ohm(i, j)} > ${detour}`);
            }
          }
      }),
      { numRuns: 50 },
    );
  });
});

function voltage(parts: Circuit, hz: number, values: SourceValues, node: string): Complex {
  const solution = solve(networkOf(parts), hz, values);
  assert.ok(solution !== 'undetermined');
  const found = solution.voltageAt(node);
  assert.ok(found !== 'floating');
  return found;
}

function emfSum(values: SourceValues): number {
  return Object.values(values).reduce((sum, value) => sum + Math.abs(value), 0);
}

function withCurrent({ components }: Circuit, node: string): Circuit {
  return circuit([...components, currentSource({ name: 'probe', from: ground, to: node })]);
}

function selfImpedance(parts: Circuit, node: string, hz: number): Complex {
  return voltage(withCurrent(parts, node), hz, { probe: 1 }, node);
}

function loadedCoil(ohm: number, henry: number, farad: number, scale = 1): Circuit {
  const components: Component[] = [
    coil({ name: 'coil', start: ground, finish: 'hot', ohm, henry, farad: farad / 5 }),
    resistor({ name: 'load', from: 'hot', to: ground, ohm: 2e5 * scale }),
    capacitor({ name: 'cable', from: 'hot', to: ground, farad }),
  ];
  return circuit(components);
}

function assertClose(ours: Complex, reference: Complex, size: number): void {
  const difference = Math.hypot(ours.re - reference.re, ours.im - reference.im);
  assert.ok(difference <= 1e-8 * size, `${ours.re}+j${ours.im} against ${reference.re}+j${reference.im}, size ${size}`);
}

function assertRelative(ours: number | null, reference: number): void {
  assert.ok(ours !== null && Math.abs(ours / reference - 1) < 1e-9, `${ours} against ${reference}`);
}
