import assert from 'node:assert/strict';
import {
  type PrintableQuantity,
  printCount,
  printDb,
  printNumber,
  printParts,
  printQuantity,
  printValue,
  roundUncertainty,
} from '../../server/src/quantities/print.ts';

const EXAMPLES: readonly (readonly [quantity: PrintableQuantity, typographic: string, plain: string])[] = [
  [{ value: 4062, sd: 31, dimension: 'resistance' }, '4.06 ± 0.03\u202Fk\u03A9', '4.06 +- 0.03 kohm'],
  [{ value: 9160, sd: 57, dimension: 'resistance' }, '9.16 ± 0.06\u202Fk\u03A9', '9.16 +- 0.06 kohm'],
  [{ value: 5058, sd: 223, dimension: 'turns' }, '5\u202F060 ± 220 turns', '5060 +- 220 turns'],
  [{ value: 10, sd: 223, dimension: 'turns' }, '10 ± 220 turns', '10 +- 220 turns'],
  [{ value: -1286, dimension: 'turns' }, '\u22121\u202F286 turns', '-1286 turns'],
  [{ value: 2900, sd: 120, dimension: 'frequency' }, '2.90 ± 0.12\u202FkHz', '2.90 +- 0.12 kHz'],
  [{ value: 742, sd: 8, dimension: 'length', unit: 'm' }, '742 ± 8\u202Fm', '742 +- 8 m'],
  [{ value: 740, sd: 34, dimension: 'length' }, '740 ± 30\u202Fm', '740 +- 30 m'],
  [{ value: 294.15, dimension: 'temperature' }, '21\u202F\u00B0C', '21 degC'],
  [{ value: 295, sd: 0.5, dimension: 'temperature' }, '21.9 ± 0.5\u202F\u00B0C', '21.9 +- 0.5 degC'],
  [{ value: 0.888, dimension: 'percentage', digits: 2 }, '89\u202F%', '89 %'],
  [{ value: 999.96, dimension: 'resistance' }, '1\u202Fk\u03A9', '1 kohm'],
  // What rounding left over is no uncertainty.
  [{ value: 500_000, sd: 1e-9, dimension: 'resistance' }, '500\u202Fk\u03A9', '500 kohm'],
  [{ value: 680, dimension: 'resistance' }, '680\u202F\u03A9', '680 ohm'],
  [{ value: 1e6, dimension: 'resistance' }, '1\u202FM\u03A9', '1 Mohm'],
  [{ value: 4.1, sd: 0.25, dimension: 'inductance' }, '4.10 ± 0.25\u202FH', '4.10 +- 0.25 H'],
  [{ value: 0.31, dimension: 'inductance' }, '310\u202FmH', '310 mH'],
  [{ value: 22e-9, dimension: 'capacitance' }, '22\u202FnF', '22 nF'],
  [{ value: 110e-12, sd: 12e-12, dimension: 'capacitance' }, '110 ± 12\u202FpF', '110 +- 12 pF'],
  [{ value: 2.2e-6, dimension: 'capacitance' }, '2.2\u202F\u00B5F', '2.2 uF'],
  [{ value: 63.5e-6, dimension: 'length' }, '0.0635\u202Fmm', '0.0635 mm'],
  [{ value: 42, dimension: 'gauge' }, '42 AWG', '42 AWG'],
  [{ value: 20, dimension: 'rotation speed' }, '1\u202F200\u202Frpm', '1200 rpm'],
  [{ value: 0, dimension: 'resistance' }, '0\u202F\u03A9', '0 ohm'],
];

describe('printing', () => {
  for (const [quantity, typographic, plain] of EXAMPLES) {
    it(plain, () => {
      assert.equal(printQuantity(quantity), typographic);
      assert.equal(printQuantity({ ...quantity, style: 'plain' }), plain);
      assert.match(plain, /^[ -~]+$/);
    });
  }

  it('keeps one digit of an uncertainty, two where it starts with 1 or 2', () => {
    const cases: readonly (readonly [sd: number, rounded: number, place: number])[] = [
      [0.0286, 0.029, -3],
      [0.0296, 0.03, -2],
      [0.034, 0.03, -2],
      [0.096, 0.1, -2],
      [0.1, 0.1, -2],
      [1, 1, -1],
      [9.4, 9, 0],
      [9.6, 10, 0],
      [223, 220, 1],
      [1000, 1000, 2],
      [3.4e-8, 3e-8, -8],
      [2.94e21, 2.9e21, 20],
    ];
    for (const [sd, rounded, place] of cases) assert.deepEqual(roundUncertainty(sd), { rounded, place }, String(sd));
  });

  it('shows the zero that an uncertainty rounded up has earned', () => {
    assert.equal(printQuantity({ value: 4062, sd: 96, dimension: 'resistance' }), '4.06 ± 0.10\u202Fk\u03A9');
  });

  it('says unknown for what is not finite', () => {
    assert.equal(printQuantity({ value: Number.NaN, dimension: 'resistance' }), 'unknown');
    assert.equal(printQuantity({ value: 1, sd: Number.POSITIVE_INFINITY, dimension: 'resistance' }), 'unknown');
    assert.equal(printCount(Number.NaN), 'unknown');
    assert.equal(printDb(Number.NEGATIVE_INFINITY), 'unknown');
  });

  it('sets value, uncertainty and unit apart for tables', () => {
    assert.deepEqual(printParts({ value: 9160, sd: 57, dimension: 'resistance' }), {
      value: '9.16',
      uncertainty: '0.06',
      unit: 'k\u03A9',
    });
    assert.equal(printValue({ value: 9160, sd: 57, dimension: 'resistance' }), '9.16\u202Fk\u03A9');
  });

  it('groups in threes from a thousand on and leaves decimals alone', () => {
    assert.equal(printCount(999), '999');
    assert.equal(printCount(10_110), '10\u202F110');
    assert.equal(printCount(1_234_567), '1\u202F234\u202F567');
    assert.equal(printNumber(1234.56789, 5), '1\u202F234.56789');
    assert.equal(printNumber(-0.4, 0), '0');
  });

  it('gives hum and signal in whole decibels', () => {
    assert.equal(printDb(-26.6), '\u221227\u202FdB');
    assert.equal(printDb(6.02, { signed: true }), '+6\u202FdB');
    assert.equal(printDb(-0.2, { signed: true }), '0\u202FdB');
  });

  it('survives every size of number', () => {
    for (const value of [1e-300, -1e-300, 5e-324, 1e21, 1.7e308, 0.1 + 0.2]) {
      for (const sd of [0, 1e-300, 1e-9, 1, 1e21, 1.7e308]) {
        assert.doesNotThrow(() => printQuantity({ value, sd, dimension: 'resistance' }));
      }
    }
  });
});
