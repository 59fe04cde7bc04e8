import assert from 'node:assert/strict';
import { readQuantity } from '../../grammar/src/read-quantity.ts';

type CodedDimension = 'resistance' | 'capacitance';

/** The examples of IEC 60062, clause on resistance and capacitance values (recalled), as far as a line may hold them. */
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

describe('IEC 60062 codes', () => {
  for (const [code, dimension, si] of EXAMPLES) {
    it(`${code} is ${si} ${dimension === 'resistance' ? 'ohm' : 'farad'}`, () => {
      close(value(code, dimension), si);
    });
  }
});

function value(code: string, dimension: CodedDimension): number {
  return readQuantity(code, dimension)?.si ?? Number.NaN;
}

function close(actual: number, expected: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-12 * expected, `${actual} is not ${expected}`);
}
