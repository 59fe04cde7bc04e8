import assert from 'node:assert/strict';
import {
  difference,
  type Estimate,
  estimateOf,
  functionOf,
  linear,
  ownDeviation,
  product,
  ratio,
  restingOn,
  scale,
  sum,
} from '../../server/src/quantities/estimate.ts';
import { correlation } from '../support/correlation.ts';

/** Expected deviations by hand from u² = Σ (∂f/∂x)² u² + 2 Σ ∂f/∂x ∂f/∂y cov(x, y), JCGM 100:2008 equations 10 and 13. */
describe('an estimate', () => {
  const slug = own(4060, 30);
  const screw = own(5100, 40);
  const reelA = shared(4000, 80, 'reel W7');
  const reelB = shared(5000, 100, 'reel W7');

  it('adds independent errors by squares', () => {
    close(sum(slug, screw).value, 9160);
    close(sum(slug, screw).sd, 50);
    close(difference(slug, screw).sd, 50);
  });

  it('adds errors of one cause as they stand, and cancels them in a difference', () => {
    close(sum(reelA, reelB).sd, 180);
    close(difference(reelA, reelB).sd, 20);
    close(ratio(reelA, reelB).sd, 0);
    close(correlation(reelA, reelB), 1);
    close(correlation(reelA, scale(reelB, -1)), -1);
    assert.equal(correlation(slug, screw), 0);
  });

  it('keeps shared and own errors apart through several steps', () => {
    const readA = sum(reelA, own(0, 60));
    const readB = sum(reelB, own(0, 80));
    close(readA.sd, 100);
    close(ownDeviation(readA), 60);
    close(difference(readA, readB).sd, Math.sqrt(20 ** 2 + 60 ** 2 + 80 ** 2));
  });

  it('takes one estimate given twice as one error', () => {
    close(sum(slug, slug).sd, 60);
    close(difference(slug, slug).sd, 0);
    close(product(slug, slug).sd, 2 * 4060 * 30);
  });

  it('multiplies: relative errors add by squares', () => {
    const turns = own(5000, 50);
    const area = own(4e-4, 8e-6);
    close(product(turns, area).sd / product(turns, area).value, Math.hypot(0.01, 0.02));
    close(ratio(turns, area).sd / ratio(turns, area).value, Math.hypot(0.01, 0.02));
  });

  it('goes through any function by its slopes', () => {
    const inductance = own(4.1, 0.2);
    const capacitance = own(110e-12, 10e-12);
    const resonance = functionOf([inductance, capacitance], ([l = 0, c = 0]) => 1 / (2 * Math.PI * Math.sqrt(l * c)));
    const relative = Math.hypot(0.5 * (0.2 / 4.1), 0.5 * (10 / 110));
    assert.ok(Math.abs(resonance.sd / resonance.value / relative - 1) < 1e-3);
  });

  it('uses the one side of a function that ends there, and admits where it cannot tell', () => {
    const edge = functionOf([own(0, 1)], ([x = 0]) => (x < 0 ? Number.NaN : 3 * x));
    close(edge.sd, 3);
    assert.equal(functionOf([own(0, 1)], ([x = 0]) => (x === 0 ? 1 : Number.NaN)).sd, Number.POSITIVE_INFINITY);
  });

  it('weighs', () => {
    const mean = linear([slug, screw], [0.5, 0.5]);
    close(mean.value, 4580);
    close(mean.sd, 25);
  });

  it('collects what it rests on, each reason once', () => {
    const a = restingOn(own(1, 0.1), 'default packing', 'room 20 degC');
    const b = restingOn(own(2, 0.1), 'room 20 degC');
    assert.deepEqual(sum(a, b).restsOn, ['default packing', 'room 20 degC']);
    assert.equal(sum(a, b).basis, 'computed');
  });

  it('carries an exact number without a source', () => {
    assert.deepEqual(estimateOf(6, { basis: 'stated', source: 'nothing' }), {
      value: 6,
      sd: 0,
      basis: 'stated',
      restsOn: [],
    });
  });
});

function own(value: number, sd: number): Estimate {
  return estimateOf(value, { sd, basis: 'reading' });
}

function shared(value: number, sd: number, source: string): Estimate {
  return estimateOf(value, { sd, basis: 'computed', source });
}

function close(actual: number, expected: number): void {
  assert.ok(Math.abs(actual - expected) <= 1e-9 * Math.max(1, Math.abs(expected)), `${actual} is not ${expected}`);
}
