/**
 * Stated odds against draws of everything that is not known of a pickup (wire, packing, cores, poles, permeability, capacitance, pots; see
 * test/support/drawn-pickup.ts): of a thousand, the share that lands within all its targets is within five points of what is said. The draws are
 * long, so their shares are stored (test/scripts/draw-odds.ts); the first of them are drawn here again, so that they are of this model.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { jointOdds } from '../../server/src/proposal/odds.ts';
import { type DrawnFigures, drawnFigures, drawsOf } from '../support/drawn-pickup.ts';
import { CASES } from './odds-cases.ts';
import { aimsFor } from './odds-spec.ts';

interface Stored {
  readonly seed: number;
  readonly first: readonly DrawnFigures[];
  readonly landed: readonly number[];
}
const STORED = JSON.parse(readFileSync(path.join(import.meta.dirname, 'odds-drawn.json'), 'utf8')) as {
  readonly draws: number;
  readonly cases: Readonly<Record<string, Stored>>;
};

describe('the odds of a build', () => {
  for (const [name, { drawn, targets }] of Object.entries(CASES)) {
    const stored = STORED.cases[name];
    for (const [index, target] of targets.entries())
      it(`${name}, ${target}: as many land`, () => {
        const share = (stored?.landed[index] ?? Number.NaN) / STORED.draws;
        const odds = jointOdds(aimsFor(drawn, target));
        assert.ok(Math.abs(odds - share) <= 0.05, `odds ${odds.toFixed(3)}, ${share} land`);
      });

    it(`${name}: the draws are of this model`, () => {
      const draws = drawsOf(stored?.seed ?? 0);
      for (const { ohm, henry, hz } of stored?.first ?? []) {
        const again = drawnFigures(drawn, draws);
        for (const [is, was] of [
          [again.ohm, ohm],
          [again.henry, henry],
          [again.hz[0] ?? 0, hz[0] ?? 0],
        ] as const)
          assert.ok(Math.abs(is / was - 1) < 1e-6, `${is}, stored ${was}`);
      }
    });
  }
});
