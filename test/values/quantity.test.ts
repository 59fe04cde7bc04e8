import assert from 'node:assert/strict';
import { quantityOf, type WrittenQuantity } from '../../grammar/values/quantity.ts';

describe('a written quantity', () => {
  it('becomes SI and remembers its text', () => {
    assert.deepEqual(quantityOf(written('7.31 kohm', { dimension: 'resistance', value: 7.31, unit: 'kohm' })), {
      ok: true,
      quantity: { dimension: 'resistance', si: 7310, written: '7.31 kohm' },
    });
  });

  it('takes an IEC 60062 code by its letter', () => {
    assert.equal(si(written('4k7', { dimension: 'resistance', value: 4.7, unit: 'k', code: true })), 4700);
    assert.ok(
      Math.abs(si(written('22n', { dimension: 'capacitance', value: 22, unit: 'n', code: true })) / 22e-9 - 1) < 1e-15,
    );
    assert.deepEqual(problem(written('4k7', { dimension: 'capacitance', value: 4.7, unit: 'k', code: true })), {
      kind: 'code-wrong',
      letter: 'k',
      expected: ['nF', 'pF', 'uF', 'F'],
    });
  });

  it('takes a bare number as a count of turns, and as nothing else', () => {
    assert.equal(si(written('4_900', { dimension: 'turns', value: 4900 })), 4900);
    assert.deepEqual(problem(written('7.3', { dimension: 'resistance', value: 7.3 })), {
      kind: 'unit-missing',
      expected: ['kohm', 'ohm', 'Mohm'],
    });
  });

  it('says which units would do when the dimension is wrong', () => {
    assert.deepEqual(problem(written('7.3 mm', { dimension: 'resistance', value: 7.3, unit: 'mm' })), {
      kind: 'unit-wrong',
      unit: 'mm',
      expected: ['kohm', 'ohm', 'Mohm'],
    });
  });

  it('scales a ± by the unit, without the offset of a temperature', () => {
    const room = {
      dimension: 'temperature',
      value: 70,
      unit: 'degF',
      uncertainty: { value: 9, unit: undefined },
    } as const;
    assert.ok(Math.abs(sd(written('70 degF ± 9', room)) - 5) < 1e-12);
    const reading = { dimension: 'resistance', value: 8, unit: 'kohm', uncertainty: { value: 5, unit: '%' } } as const;
    assert.ok(Math.abs(sd(written('8 kohm ± 5 %', reading)) - 400) < 1e-9);
    const mixed = { dimension: 'resistance', value: 8, unit: 'kohm', uncertainty: { value: 40, unit: 'ohm' } } as const;
    assert.equal(sd(written('8 kohm ± 40 ohm', mixed)), 40);
    const share = { dimension: 'percentage', value: 80, unit: '%', uncertainty: { value: 5, unit: '%' } } as const;
    assert.equal(sd(written('80 % ± 5 %', share)), 0.05);
  });

  it('refuses a ± that is negative or of another dimension', () => {
    const base = { dimension: 'resistance', value: 8, unit: 'kohm' } as const;
    assert.equal(
      problem(written('8 kohm ± -1', { ...base, uncertainty: { value: -1, unit: undefined } })).kind,
      'uncertainty-negative',
    );
    assert.equal(
      problem(written('8 kohm ± 1 mm', { ...base, uncertainty: { value: 1, unit: 'mm' } })).kind,
      'uncertainty-unit-wrong',
    );
  });

  it('reads the gauges above 0 by their zeros and refuses what the series lacks', () => {
    const gauge = (text: string, value: number) => written(`${text} AWG`, { dimension: 'gauge', value, unit: 'AWG' });
    assert.equal(si(gauge('0000', 0)), -3);
    assert.equal(si(gauge('000', 0)), -2);
    assert.equal(si(gauge('00', 0)), -1);
    assert.equal(si(gauge('0', 0)), 0);
    assert.equal(si(gauge('42', 42)), 42);
    assert.equal(si(gauge('60', 60)), 60);
    assert.equal(problem(gauge('61', 61)).kind, 'gauge-out-of-range');
    assert.equal(problem(gauge('00000', 0)).kind, 'gauge-out-of-range');
    assert.equal(problem(gauge('-5', -5)).kind, 'gauge-out-of-range');
  });

  it('refuses temperatures below absolute zero and numbers without end', () => {
    assert.equal(
      problem(written('-300 degC', { dimension: 'temperature', value: -300, unit: 'degC' })).kind,
      'below-absolute-zero',
    );
    assert.equal(si(written('-459.67 degF', { dimension: 'temperature', value: -459.67, unit: 'degF' })) < 1e-9, true);
    assert.equal(
      problem(written('1e999 m', { dimension: 'length', value: Number.POSITIVE_INFINITY, unit: 'm' })).kind,
      'not-finite',
    );
  });
});

function written(
  text: string,
  parts: Pick<WrittenQuantity, 'dimension' | 'value'> & Partial<WrittenQuantity>,
): WrittenQuantity {
  return { unit: undefined, code: false, uncertainty: undefined, decimals: 0, text, ...parts };
}

function si(text: WrittenQuantity): number {
  const result = quantityOf(text);
  assert.ok(result.ok);
  return result.quantity.si;
}

function sd(text: WrittenQuantity): number {
  const result = quantityOf(text);
  assert.ok(result.ok && result.quantity.sd !== undefined);
  return result.quantity.sd;
}

function problem(text: WrittenQuantity) {
  const result = quantityOf(text);
  assert.ok(!result.ok);
  return result.problem;
}
