/** Which cause makes most of an uncertainty, and the measurement that settles it. */
import assert from 'node:assert/strict';
import { largestCause } from '../../server/src/estimates/causes.ts';
import { fieldAtStringT } from '../../server/src/estimates/magnet-estimates.ts';
import { estimateOf, product } from '../../server/src/quantities/estimate.ts';
import { ALONE, HUM_CANCELLING, pickupText } from '../support/shop.ts';
import { coilOf, known, near, pickupOf } from './spec-text.ts';

const of = (facts: string, readings = '') => pickupOf(pickupText([{ facts }], { hookup: ALONE, readings }));

describe('the largest cause', () => {
  it('is the one of the largest square, with its share of the variance', () => {
    const long = estimateOf(10, { sd: 0.3, basis: 'computed', source: 'spool R1' });
    const wide = estimateOf(10, { sd: 0.4, basis: 'computed', source: 'packing of wren.c1' });
    const cause = largestCause(product(long, wide));
    assert.equal(cause?.cause, 'packing of wren.c1');
    near(cause?.share ?? 0, 16 / 25, 1e-9);
    assert.match(cause?.measurement ?? '', /how deep the winding is/);
  });

  it('of a coil by the table is its wire; of one that was read, the meter', () => {
    const table = known(coilOf(of('    turns 5000')).resistance20COhm);
    assert.equal(largestCause(table)?.cause, 'wire w1');
    // On a 20 kohm range the meter's 1 % weighs more than its digits.
    const read = known(
      coilOf(of('    turns 5000', '  readings "bench" {\n    c1 8.00 kohm at 20 degC\n  }\n')).resistance20COhm,
    );
    assert.equal(largestCause(read)?.cause, 'the meter');
  });

  it('there is none of an exact number, nor where its own error is the largest', () => {
    assert.equal(largestCause(estimateOf(5000, { basis: 'stated' })), undefined);
    assert.equal(largestCause(estimateOf(5000, { sd: 10, basis: 'stated' })), undefined);
  });
});

describe('a bar beneath', () => {
  const bar = 'magnet short-bar {\n  material alnico-5\n  size 60 x 12.7 x 3.2 mm\n}\n';
  const slugs = 'poles 6 spread 50 mm\n  pole slug steel 4.8 x 12.5 mm';
  const coil = { facts: '    turns 5000', pole: slugs };
  const facts = '  magnet short-bar north toward c1';

  it('adds 0 to 25 % to an inductance with its poles: 12.5 % ± 7.2 %, and measuring it settles that', () => {
    const without = known(pickupOf(pickupText([coil, coil], { hookup: HUM_CANCELLING })).estimates().inductanceH);
    const with_ = known(
      pickupOf(pickupText([coil, coil], { hookup: HUM_CANCELLING, facts, bench: bar })).estimates().inductanceH,
    );
    near(with_.value / without.value, 1.125, 1e-9);
    near(Math.abs(with_.sources?.['magnet and steel beneath wren'] ?? 0) / without.value, 0.25 / Math.sqrt(12), 1e-9);
    assert.match(largestCause(with_)?.measurement ?? '', /measure the inductance/);
  });

  it('gives two rows of poles a field, and a single row over its middle none: it is magnetised across its width', () => {
    const field = (text: string) => {
      const { pickup } = pickupOf(text);
      const [first] = pickup.coils;
      assert.ok(first);
      return fieldAtStringT(pickup, first);
    };
    assert.ok(known(field(pickupText([coil, coil], { hookup: HUM_CANCELLING, facts, bench: bar }))).value > 5e-3);
    assert.equal(field(pickupText([coil], { hookup: ALONE, facts, bench: bar })), undefined);
  });
});
