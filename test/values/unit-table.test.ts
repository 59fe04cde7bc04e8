import assert from 'node:assert/strict';
import {
  codeMultiplier,
  type Dimension,
  dimensionOf,
  likelyUnit,
  symbolsOf,
  toSi,
  UNITS,
  unitOf,
} from '../../grammar/values/unit-table.ts';

/** SI brochure prefixes and exact definitions: inch 25.4 mm, gauss 1e-4 T, oersted 1000/(4π) A/m, °F by its two fixed points. */
const IN_SI: readonly (readonly [value: number, symbol: string, dimension: Dimension, si: number])[] = [
  [7.31, 'kohm', 'resistance', 7310],
  [7.31, 'k\u03A9', 'resistance', 7310],
  [7.31, 'k\u2126', 'resistance', 7310],
  [1, 'M\u2126', 'resistance', 1e6],
  [5.52, 'ohm/m', 'resistance per length', 5.52],
  [5.52, '\u2126/m', 'resistance per length', 5.52],
  [4.1, 'H', 'inductance', 4.1],
  [300, 'mH', 'inductance', 0.3],
  [0.022, 'uF', 'capacitance', 22e-9],
  [0.022, '\u00B5F', 'capacitance', 22e-9],
  [0.022, '\u03BCF', 'capacitance', 22e-9],
  [110, 'pF', 'capacitance', 110e-12],
  [100, 'pF/m', 'capacitance per length', 100e-12],
  [63.5, '\u03BCm', 'length', 63.5e-6],
  [25.5, 'in', 'length', 0.6477],
  [2.5, 'thou', 'length', 63.5e-6],
  [42, 'AWG', 'gauge', 42],
  [4900, 'turns', 'turns', 4900],
  [20, 'degC', 'temperature', 293.15],
  [0, '\u00B0C', 'temperature', 273.15],
  [212, 'degF', 'temperature', 373.15],
  [32, '\u00B0F', 'temperature', 273.15],
  [293.15, 'K', 'temperature', 293.15],
  [2.9, 'kHz', 'frequency', 2900],
  [850, 'G', 'flux density', 0.085],
  [85, 'mT', 'flux density', 0.085],
  [640, 'Oe', 'field strength', 50_929.58],
  [51, 'kA/m', 'field strength', 51_000],
  [310, 'g', 'mass', 0.31],
  [20, 'min', 'time', 1200],
  [80, '%', 'percentage', 0.8],
  [1200, 'rpm', 'rotation speed', 20],
  [-27, 'dB', 'level', -27],
];

describe('the unit table', () => {
  for (const [value, symbol, dimension, si] of IN_SI) {
    it(`${value} ${symbol} of ${dimension} is ${si}`, () => {
      const converted = toSi(value, symbol, dimension);
      assert.ok(
        converted !== undefined && Math.abs(converted - si) <= 1e-9 * Math.abs(si) + 5e-3 * Number(symbol === 'Oe'),
      );
    });
  }

  it('gives each spelling to one unit only', () => {
    const spellings = UNITS.flatMap((unit) => unit.spellings);
    assert.deepEqual(spellings.length, new Set(spellings).size);
    for (const unit of UNITS) for (const text of unit.spellings) assert.equal(unitOf(text), unit);
  });

  it('keeps letter case apart: mH is no MH, mohm is unknown', () => {
    assert.equal(dimensionOf('mH'), 'inductance');
    assert.equal(dimensionOf('MH'), undefined);
    assert.equal(dimensionOf('mohm'), undefined);
    assert.equal(dimensionOf('constructor'), undefined);
  });

  it('never mixes gauss with giga', () => {
    assert.equal(dimensionOf('G'), 'flux density');
    assert.equal(toSi(1, 'G', 'resistance'), undefined);
    assert.equal(codeMultiplier('G', 'resistance'), 1e9);
    assert.equal(codeMultiplier('G', 'flux density'), undefined);
  });

  it('offers the symbols of a dimension in ASCII, the most usual first', () => {
    assert.deepEqual(symbolsOf('resistance'), ['kohm', 'ohm', 'Mohm']);
    assert.deepEqual(symbolsOf('temperature'), ['degC', 'degF', 'K']);
    for (const unit of UNITS) assert.match(unit.symbol, /^[ -~]+$/);
  });

  it('guesses the unit that was left out', () => {
    const guesses: readonly (readonly [Dimension, number, string])[] = [
      ['resistance', 7.3, 'kohm'],
      ['resistance', 250, 'kohm'],
      ['resistance', 7300, 'ohm'],
      ['inductance', 4.1, 'H'],
      ['inductance', 2200, 'mH'],
      ['capacitance', 0.022, 'uF'],
      ['capacitance', 22, 'nF'],
      ['capacitance', 680, 'pF'],
      ['frequency', 2.9, 'kHz'],
      ['frequency', 50, 'Hz'],
      ['temperature', 63, 'degC'],
      ['temperature', 145, 'degF'],
      ['flux density', 1.24, 'T'],
      ['flux density', 95, 'mT'],
      ['field strength', 51, 'kA/m'],
      ['field strength', 640, 'Oe'],
      ['length', 0.063, 'mm'],
    ];
    for (const [dimension, value, symbol] of guesses) assert.equal(likelyUnit(dimension, value), symbol);
  });

  it('guesses only units of the dimension', () => {
    const dimensions = new Set(UNITS.map((unit) => unit.dimension));
    assert.equal(dimensions.size, 17);
    for (const dimension of dimensions) {
      for (const value of [0, 1e-6, 0.5, 7, 60, 700, 9e3, 1e7, -3]) {
        assert.equal(dimensionOf(likelyUnit(dimension, value)), dimension);
      }
    }
  });
});
