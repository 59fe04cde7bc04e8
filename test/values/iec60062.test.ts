import assert from 'node:assert/strict';
import { type CodedDimension, parseCode, toleranceOf } from '../../grammar/values/iec60062.ts';

/** The examples of IEC 60062, clause on resistance and capacitance values (recalled). */
const EXAMPLES: readonly (readonly [code: string, dimension: CodedDimension, si: number])[] = [
  ['R10', 'resistance', 0.1],
  ['R15', 'resistance', 0.15],
  ['R332', 'resistance', 0.332],
  ['R590', 'resistance', 0.59],
  ['1R0', 'resistance', 1],
  ['1R5', 'resistance', 1.5],
  ['3R32', 'resistance', 3.32],
  ['5R90', 'resistance', 5.9],
  ['10R', 'resistance', 10],
  ['33R2', 'resistance', 33.2],
  ['100R', 'resistance', 100],
  ['590R', 'resistance', 590],
  ['1K0', 'resistance', 1e3],
  ['1K5', 'resistance', 1.5e3],
  ['3K32', 'resistance', 3.32e3],
  ['4k7', 'resistance', 4.7e3],
  ['10K', 'resistance', 1e4],
  ['500k', 'resistance', 5e5],
  ['1M0', 'resistance', 1e6],
  ['2M2', 'resistance', 2.2e6],
  ['10M', 'resistance', 1e7],
  ['1G0', 'resistance', 1e9],
  ['10G', 'resistance', 1e10],
  ['1T0', 'resistance', 1e12],
  ['p10', 'capacitance', 0.1e-12],
  ['p332', 'capacitance', 0.332e-12],
  ['1p0', 'capacitance', 1e-12],
  ['3p32', 'capacitance', 3.32e-12],
  ['33p2', 'capacitance', 33.2e-12],
  ['100p', 'capacitance', 100e-12],
  ['1n0', 'capacitance', 1e-9],
  ['22n', 'capacitance', 22e-9],
  ['n59', 'capacitance', 590e-12],
  ['1\u00B50', 'capacitance', 1e-6],
  ['1\u03BC5', 'capacitance', 1.5e-6],
  ['33u2', 'capacitance', 33.2e-6],
  ['1m0', 'capacitance', 1e-3],
  ['10m', 'capacitance', 1e-2],
];

/** The standard's tolerance letters (recalled): percent below, percent above. */
const TOLERANCES: readonly (readonly [letter: string, minus: number, plus: number])[] = [
  ['E', 0.005, 0.005],
  ['L', 0.01, 0.01],
  ['P', 0.02, 0.02],
  ['W', 0.05, 0.05],
  ['B', 0.1, 0.1],
  ['C', 0.25, 0.25],
  ['D', 0.5, 0.5],
  ['F', 1, 1],
  ['G', 2, 2],
  ['H', 3, 3],
  ['J', 5, 5],
  ['K', 10, 10],
  ['M', 20, 20],
  ['N', 30, 30],
  ['Q', 10, 30],
  ['T', 10, 50],
  ['S', 20, 50],
  ['Z', 20, 80],
];

describe('IEC 60062 codes', () => {
  for (const [code, dimension, si] of EXAMPLES) {
    it(`${code} is ${si} ${dimension === 'resistance' ? 'ohm' : 'farad'}`, () => {
      close(value(code, dimension), si);
    });
  }

  it('knows every tolerance letter of capacitors', () => {
    for (const [letter, minus, plus] of TOLERANCES) {
      assert.deepEqual(toleranceOf(letter, 'capacitance', 22e-9), { letter, minus, plus, in: 'percent' });
    }
  });

  it('reads B C D F G as picofarads below 10 pF', () => {
    const picofarads = { B: 0.1, C: 0.25, D: 0.5, F: 1, G: 2 };
    for (const [letter, size] of Object.entries(picofarads)) {
      const tolerance = toleranceOf(letter, 'capacitance', 4.7e-12);
      assert.deepEqual(tolerance, { letter, minus: size * 1e-12, plus: size * 1e-12, in: 'farad' });
    }
  });

  it('has no lopsided tolerance for resistors', () => {
    for (const letter of ['Q', 'T', 'S', 'Z']) assert.equal(toleranceOf(letter, 'resistance', 4700), undefined);
  });

  it('reads a tolerance after the value', () => {
    assert.deepEqual(parseCode('4K7J', 'resistance'), {
      dimension: 'resistance',
      si: 4700,
      tolerance: { letter: 'J', minus: 5, plus: 5, in: 'percent' },
    });
    assert.deepEqual(parseCode('100RK', 'resistance'), {
      dimension: 'resistance',
      si: 100,
      tolerance: { letter: 'K', minus: 10, plus: 10, in: 'percent' },
    });
  });

  it('says where a code goes wrong', () => {
    assert.deepEqual(parseCode('', 'resistance'), { problem: 'empty', at: 0 });
    assert.deepEqual(parseCode('47', 'resistance'), { problem: 'no-multiplier', at: 2 });
    assert.deepEqual(parseCode('4x7', 'resistance'), { problem: 'no-multiplier', at: 1 });
    assert.deepEqual(parseCode('4n7', 'resistance'), { problem: 'no-multiplier', at: 1 });
    assert.deepEqual(parseCode('K', 'resistance'), { problem: 'no-digits', at: 0 });
    assert.deepEqual(parseCode('4K7R', 'resistance'), { problem: 'two-multipliers', at: 3 });
    assert.deepEqual(parseCode('4K7x', 'resistance'), { problem: 'unexpected', at: 3 });
    assert.deepEqual(parseCode('4K7J5', 'resistance'), { problem: 'unexpected', at: 4 });
  });
});

function value(code: string, dimension: CodedDimension): number {
  const parsed = parseCode(code, dimension);
  assert.ok('si' in parsed, `${code}: ${JSON.stringify(parsed)}`);
  return parsed.si;
}

function close(actual: number, expected: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-12 * expected, `${actual} is not ${expected}`);
}
