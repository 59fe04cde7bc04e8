/**
 * Readings through several coils at once, seeded: what they leave of each coil against the conditioning of a multivariate normal, written
 * here with matrices: gain G = C·aᵀ·(a·C·aᵀ)⁻¹, x + G·(t − a·x), C − G·a·C + G·V·Gᵀ (in every text on it). What is known of the coils
 * before is that of the same spec without the readings.
 */
import assert from 'node:assert/strict';
import type { PickupAnalysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { type Estimate, sum } from '../../server/src/quantities/estimate.ts';
import { uniform } from '../support/chance.ts';
import { pickupText } from '../support/shop.ts';
import { coilOf, known, near, pickupOf } from './spec-text.ts';

/** Coils of one wire, one behind the other: `a1` is ground, `b1` and `a2` are joined, and so on. */
const inSeries = (turns: readonly number[], readings: readonly string[]) =>
  text(turns, readings, seriesHookup(turns.length));
const seriesHookup = (count: number) =>
  [
    '    ground a1',
    ...Array.from({ length: count - 1 }, (_, index) => `    link b${index + 1} a${index + 2}`),
    `    hot b${count}`,
  ].join('\n');

function text(turns: readonly (number | undefined)[], readings: readonly string[], hookup: string): string {
  const coils = turns.map((count) => ({
    facts: `    packing 0.66${count === undefined ? '' : `\n    turns ${count}`}`,
  }));
  const block = readings.length > 0 ? `  readings "bench" {\n    ${readings.join('\n    ')}\n  }\n` : '';
  return pickupText(coils, { hookup, readings: block }).replaceAll(/wire w\d$/gm, 'wire w1');
}

const ohmsOf = (pickup: PickupAnalysis, count: number): readonly Estimate[] =>
  Array.from({ length: count }, (_, index) => known(coilOf(pickup, `c${index + 1}`).resistance20COhm));

type Matrix = readonly (readonly number[])[];
const times = (a: Matrix, b: Matrix): Matrix =>
  a.map((row) => (b[0] ?? []).map((_, column) => row.reduce((all, each, k) => all + each * (b[k]?.[column] ?? 0), 0)));
const transposed = (a: Matrix): Matrix => (a[0] ?? []).map((_, column) => a.map((row) => row[column] ?? 0));
const combined = (a: Matrix, b: Matrix, sign: number): Matrix =>
  a.map((row, i) => row.map((each, j) => each + sign * (b[i]?.[j] ?? 0)));

/** Gauss and Jordan, for a few rows. */
function inverse(a: Matrix): Matrix {
  const rows = a.map((row, i) => [...row, ...a.map((_, j) => (i === j ? 1 : 0))]);
  for (const [i, row] of rows.entries()) {
    const pivot = row[i] ?? 0;
    for (const [j, each] of row.entries()) row[j] = each / pivot;
    for (const [k, other] of rows.entries()) {
      const factor = other[i] ?? 0;
      if (k !== i) for (const [j, each] of other.entries()) other[j] = each - factor * (row[j] ?? 0);
    }
  }
  return rows.map((row) => row.slice(a.length));
}

/** By whole sums, then by what they leave of others: the second half has the gain C₁·aᵀ/(a·C₁·aᵀ + what the readings add). */
function conditioned(before: readonly Estimate[], A: Matrix, read: readonly number[], V: Matrix) {
  const C = before.map((a, i) => before.map((b, j) => (i === j ? a.sd ** 2 : shared(a, b))));
  const identity = C.map((row, i) => row.map((_, j) => (i === j ? 1 : 0)));
  let [ofTerms, ofReads]: [Matrix, Matrix] = [identity, C.map(() => read.map(() => 0))];
  for (const [index, a] of A.entries()) {
    const open = times(times(ofTerms, C), transposed(ofTerms));
    const missing = combined([read.map((_, k) => (k === index ? 1 : 0))], times([a], ofReads), -1);
    const along = times(open, transposed([a]));
    const noise = index === 0 ? [[0]] : times(times(missing, V), transposed(missing));
    const gain = times(along, inverse(combined(times([a], along), noise, 1)));
    ofTerms = combined(ofTerms, times(gain, times([a], ofTerms)), -1);
    ofReads = combined(ofReads, times(gain, missing), 1);
  }
  const column = (each: readonly number[]) => each.map((value) => [value]);
  const values = combined(times(ofTerms, column(before.map(({ value }) => value))), times(ofReads, column(read)), 1);
  const errors = combined(
    times(times(ofTerms, C), transposed(ofTerms)),
    times(times(ofReads, V), transposed(ofReads)),
    1,
  );
  return { values: values.map(([value = 0]) => value), sds: errors.map((row, i) => Math.sqrt(row[i] ?? 0)) };
}

const shared = ({ sources: a = {} }: Estimate, { sources: b = {} }: Estimate) =>
  Object.entries(a).reduce((all, [cause, share]) => all + share * (b[cause] ?? 0), 0);

/** 1 % of a reading, which one meter makes of all, and three digits of 10 ohm, which are each one's own: limits. Half a kelvin. */
const errorsOf = (read: readonly number[]): Matrix =>
  read.map((a, i) =>
    read.map((b, j) => (0.01 * a * 0.01 * b) / 3 + (i === j ? 30 ** 2 / 3 + (0.00393 * 0.5 * a) ** 2 : 0)),
  );

describe('readings through several coils', () => {
  const chance = uniform(20);
  const some = (from: number, to: number) => Math.round(from + (to - from) * chance());
  for (let round = 0; round < 6; round++) {
    const count = 2 + (round % 3);
    const turns = Array.from({ length: count }, () => some(4000, 6000));
    it(`from hot to ground of ${turns.join(' + ')} turns: the sum is as read, each coil has its part`, () => {
      const before = ohmsOf(pickupOf(inSeries(turns, [])), count);
      const whole = Math.round((sum(...before).value * (0.97 + 0.06 * chance())) / 10) * 10;
      const pickup = pickupOf(inSeries(turns, [`hot to ground ${whole / 1e3} kohm at 20 degC`]));
      const total = known(pickup.estimates().resistance20COhm);
      assert.equal(total.basis, 'reading');
      near(total.value, whole, 1e-9);
      near(total.sd, Math.sqrt(errorsOf([whole])[0]?.[0] ?? 0), 1e-9);
      const after = ohmsOf(pickup, count);
      const expected = conditioned(before, [turns.map(() => 1)], [whole], errorsOf([whole]));
      for (const [index, each] of after.entries()) {
        near(each.value, expected.values[index] ?? 0, 1e-9);
        near(each.sd, expected.sds[index] ?? 0, 1e-6);
      }
      // What one has less the others have more.
      near(sum(...after).value, whole, 1e-9);
      near(sum(...after).sd, total.sd, 1e-6);
    });
  }

  it('over some of the coils as well: from hot over three of four', () => {
    const turns = [4100, 5300, 4700, 5900];
    const before = ohmsOf(pickupOf(inSeries(turns, [])), 4);
    const [whole, three] = [1.02 * sum(...before).value, 1.025 * sum(...before.slice(1)).value].map(
      (ohm) => Math.round(ohm / 10) * 10,
    ) as [number, number];
    const after = ohmsOf(
      pickupOf(
        inSeries(turns, [`hot to b1 ${three / 1e3} kohm at 20 degC`, `hot to ground ${whole / 1e3} kohm at 20 degC`]),
      ),
      4,
    );
    const A = [
      [1, 1, 1, 1],
      [0, 1, 1, 1],
    ];
    const expected = conditioned(before, A, [whole, three], errorsOf([whole, three]));
    for (const [index, each] of after.entries()) {
      near(each.value, expected.values[index] ?? 0, 1e-9);
      near(each.sd, expected.sds[index] ?? 0, 1e-6);
    }
  });

  it('from hot to the link is of one coil alone, and the other is the rest', () => {
    const pickup = pickupOf(
      inSeries([5000, 5200], ['hot to b1 4.10 kohm at 20 degC', 'hot to ground 8.05 kohm at 20 degC']),
    );
    const [first, second] = ohmsOf(pickup, 2);
    assert.equal(second?.basis, 'reading');
    near(known(second).value, 4100, 1e-12);
    near(known(first).value, 3950, 1e-9);
    // 1 % is common to both readings: of the difference there is only 1 % of 3950 ohm. Digits and temperature are each reading's own.
    const own = [4100, 8050].map((ohm) => Math.hypot(30 / Math.sqrt(3), 0.00393 * 0.5 * ohm));
    near(known(first).sd, Math.hypot(39.5 / Math.sqrt(3), ...own), 1e-6);
  });

  it('side by side: the parallel resistance is as read, whatever each has', () => {
    const hookup = '    hot b1 b2\n    ground a1 a2';
    const before = ohmsOf(pickupOf(text([4500, 5500], [], hookup)), 2);
    const pickup = pickupOf(text([4500, 5500], ['hot to ground 2.02 kohm at 20 degC'], hookup));
    const after = ohmsOf(pickup, 2).map(({ value }) => value);
    near(1 / after.reduce((all, ohm) => all + 1 / ohm, 0), 2020, 1e-6);
    // Along C·a, a being the squares of the shares of the current.
    const a = after.map((ohm) => (2020 / ohm) ** 2);
    const C = before.map((one, i) => before.map((other, j) => (i === j ? one.sd ** 2 : shared(one, other))));
    const [along] = transposed(times(C, transposed([a])));
    const moved = after.map((ohm, index) => ohm - (before[index]?.value ?? 0));
    near((moved[0] ?? 0) / (moved[1] ?? 1), (along?.[0] ?? 0) / (along?.[1] ?? 1), 1e-4);
  });

  it('of a coil that nobody knows: it is the rest, and its turns follow', () => {
    const pickup = pickupOf(
      text([5000, undefined], ['c1 4.05 kohm at 20 degC', 'hot to ground 8.25 kohm at 20 degC'], seriesHookup(2)),
    );
    near(known(coilOf(pickup, 'c2').resistance20COhm).value, 4200, 1e-6);
    // A coil of so many turns, by its own wire and bobbin, has that resistance.
    const turns = Math.round(known(coilOf(pickup, 'c2').turns).value);
    near(known(coilOf(pickupOf(text([5000, turns], [], seriesHookup(2))), 'c2').resistance20COhm).value, 4200, 3e-4);
  });

  it('of two coils that nobody knows: the sum is as read, each about half, which no number tells', () => {
    const pickup = pickupOf(text([undefined, undefined], ['hot to ground 8.20 kohm at 20 degC'], seriesHookup(2)));
    const total = known(pickup.estimates().resistance20COhm);
    near(total.value, 8200, 1e-9);
    near(total.sd, Math.sqrt(errorsOf([8200])[0]?.[0] ?? 0), 1e-9);
    for (const { resistance20COhm: part } of quickOf(undefined)(pickup.pickup).windings.values()) {
      near(known(part).value, 4100, 1e-6);
      assert.equal(part?.basis, 'assumed');
      assert.ok(known(part).sd > 0.09 * 4100);
    }
    const { resistance20COhm, turns } = coilOf(pickup, 'c1');
    assert.deepEqual([resistance20COhm, turns], [undefined, undefined]);
  });

  it('that is not what was wound: the sum is as read, the coils stay as computed', () => {
    const before = ohmsOf(pickupOf(inSeries([5000, 5000], [])), 2);
    const pickup = pickupOf(inSeries([5000, 5000], ['hot to ground 4.10 kohm at 20 degC']));
    near(known(pickup.estimates().resistance20COhm).value, 4100, 1e-12);
    near(known(coilOf(pickup, 'c1').resistance20COhm).value, known(before[0]).value, 1e-12);
  });
});

describe('inductances read of several coils', () => {
  const bobbins = (readings: readonly string[], turns = [5000, 5200, 4800]) =>
    pickupOf(
      text(turns, readings, seriesHookup(turns.length)).replaceAll(
        'pole none',
        'pole slug steel 4.8 x 12.5 mm\n  poles 6 spread 50 mm',
      ),
    );
  const henriesOf = (pickup: PickupAnalysis, count: number) =>
    Array.from({ length: count }, (_, index) => known(coilOf(pickup, `c${index + 1}`).inductanceH));

  for (const [words, turns] of [
    ['two', [5000, 5400]],
    ['three', [5000, 5200, 4800]],
  ] as const)
    it(`hot to ground of ${words}: the whole is as read, the coils no better known than their share of it`, () => {
      const [before, wholeBefore] = [bobbins([], [...turns]), bobbins([], [...turns]).estimates().inductanceH];
      const read = 1.03 * known(wholeBefore).value;
      // At 1 Hz eddy currents do not matter, and the capacitance by R²C alone: 2 mH.
      const after = bobbins([`inductance hot to ground ${read.toFixed(4)} H at 1 Hz`], [...turns]);
      const whole = known(after.estimates().inductanceH);
      assert.equal(whole.basis, 'reading');
      near(whole.value, read, 2e-3);
      near(whole.sd, 0.02 * read, 2e-3);
      const [was, now] = [henriesOf(before, turns.length), henriesOf(after, turns.length)];
      for (const [index, each] of now.entries()) {
        const prior = known(was[index]);
        assert.ok(each.value > prior.value && each.value < 1.06 * prior.value, `${each.value}, was ${prior.value}`);
        // The meter's 2 % are common to all; what one coil has more than another stays as it was.
        assert.ok(each.sd >= 0.015 * each.value && each.sd < 1.2 * prior.sd, `${each.sd}, was ${prior.sd}`);
      }
    });

  it('in the circuit: the coils with their couplings are what was read', () => {
    const after = bobbins(['inductance hot to ground 4.6 H at 1 Hz'], [5000, 5400]);
    const magnetics = pickupMagnetics(quickOf(undefined)(after.pickup));
    const [one, other] = [...magnetics.coils.values()];
    assert.ok(one && other);
    // Alike wound and joined finish to start, so that the currents run the same way round: L₁ + L₂ + 2M.
    const mutual = magnetics.mutualSameSenseH(one.coil, other.coil);
    near(one.totalH.value + other.totalH.value + 2 * mutual, known(after.estimates().inductanceH).value, 1e-6);
  });

  it('over two of three, and of one: what was read of one stands, the others have the rest', () => {
    const before = henriesOf(bobbins([]), 3);
    const pickup = bobbins([
      `inductance hot to b2 ${(1.02 * known(before[2]).value).toFixed(4)} H at 1 Hz`,
      'inductance hot to b1 3.9 H at 1 Hz',
    ]);
    const after = henriesOf(pickup, 3);
    near(known(after[2]).value, 1.02 * known(before[2]).value, 1e-3);
    const magnetics = pickupMagnetics(quickOf(undefined)(pickup.pickup));
    const [, two, three] = [...magnetics.coils.values()];
    assert.ok(two && three);
    near(two.totalH.value + three.totalH.value + 2 * magnetics.mutualSameSenseH(two.coil, three.coil), 3.9, 1e-3);
  });
});
