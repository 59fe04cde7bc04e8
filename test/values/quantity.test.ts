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
    assert.equal(
      problem(written('4k7', { dimension: 'capacitance', value: 4.7, unit: 'k', code: true })),
      'code-wrong',
    );
  });

  it('takes a bare number as a count of turns, and as nothing else', () => {
    assert.equal(si(written('4_900', { dimension: 'turns', value: 4900 })), 4900);
    assert.equal(problem(written('7.3', { dimension: 'resistance', value: 7.3 })), 'unit-missing');
  });

  it('refuses a unit of another dimension', () => {
    assert.equal(problem(written('7.3 mm', { dimension: 'resistance', value: 7.3, unit: 'mm' })), 'unit-wrong');
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
      problem(written('8 kohm ± -1', { ...base, uncertainty: { value: -1, unit: undefined } })),
      'uncertainty-negative',
    );
    assert.equal(
      problem(written('8 kohm ± 1 mm', { ...base, uncertainty: { value: 1, unit: 'mm' } })),
      'uncertainty-unit-wrong',
    );
  });

  it('refuses temperatures below absolute zero and numbers without end', () => {
    assert.equal(
      problem(written('-300 degC', { dimension: 'temperature', value: -300, unit: 'degC' })),
      'below-absolute-zero',
    );
    assert.equal(si(written('-459.67 degF', { dimension: 'temperature', value: -459.67, unit: 'degF' })) < 1e-9, true);
    assert.equal(
      problem(written('1e999 m', { dimension: 'length', value: Number.POSITIVE_INFINITY, unit: 'm' })),
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
