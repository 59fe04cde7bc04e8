/** Turns for a target and a match, and after a break. Expected numbers are worked out beside each, from geometry alone. */
import assert from 'node:assert/strict';
import {
  turnsAfterBreak,
  turnsForResistance,
  turnsForTarget,
  turnsPeeled,
  turnsThatMatch,
} from '../../server/src/estimates/turns-plan.ts';
import { type Estimate, estimateOf } from '../../server/src/quantities/estimate.ts';
import { HUM_CANCELLING, pickupText } from '../support/shop.ts';
import { coilOf, known, near, pickupOf, quickOfText } from './spec-text.ts';
import { firstCoil, lengthM, OHM_PER_M, WOUND, woundCoil } from './wound-coil.ts';

const exactly = (value: number): Estimate => estimateOf(value, { basis: 'reading' });

describe('turns for a target', () => {
  it('of resistance: wound with them, the coil has it', () => {
    const quick = quickOfText(woundCoil());
    const proposal = turnsForResistance(quick, firstCoil(quick), exactly(4100));
    assert.ok(proposal);
    near(lengthM(proposal.turns.value) * OHM_PER_M, 4100, 2e-4);
    assert.equal(proposal.fits, true);
  });

  for (const [what, target, key] of [
    ['inductance', { inductanceH: 1.1 }, 'inductanceH'],
    ['loaded resonance', { resonanceHz: 6000, loaded: true }, 'resonanceHz'],
  ] as const)
    it(`of ${what}: the spec with those turns reaches it within a tenth of a per cent`, () => {
      const [proposal] = turnsForTarget(quickOfText(woundCoil()), undefined, target) ?? [];
      assert.ok(proposal);
      const reached = pickupOf(
        woundCoil(`    packing 0.66\n    turns ${Math.round(proposal.turns.value)}`),
      ).estimates()[key];
      near(known(reached).value, Object.values(target)[0] as number, 1e-3);
    });

  it('are scaled by what the coil really reads', () => {
    const plain = turnsForTarget(quickOfText(woundCoil()), undefined, { resistanceOhm: 4100 });
    const reading = '  readings "bench" {\n    c1 4.20 kohm at 20 degC\n  }\n';
    const high = turnsForTarget(quickOfText(woundCoil(WOUND, reading)), undefined, { resistanceOhm: 4100 });
    assert.ok((high?.[0]?.turns.value ?? 0) < (plain?.[0]?.turns.value ?? 0));
  });

  it('that match another coil are those of equal turn-area', () => {
    const quick = quickOfText(
      pickupText(
        [
          { coreMm: [63, 5.6], facts: WOUND },
          { coreMm: [61, 5.0], facts: WOUND },
        ],
        { hookup: HUM_CANCELLING },
      ),
    );
    const [a, b] = quick.netlist.pickup.coils;
    assert.ok(a && b);
    const turns = Math.round(turnsThatMatch(quick, b, a)?.turns.value ?? Number.NaN);
    assert.ok(turns > 5000);
    const matched = pickupOf(
      pickupText(
        [
          { coreMm: [63, 5.6], facts: WOUND },
          { coreMm: [61, 5.0], facts: `    packing 0.66\n    turns ${turns}` },
        ],
        { hookup: HUM_CANCELLING },
      ),
    );
    near(known(coilOf(matched, 'c2').turnAreaM2).value, known(coilOf(matched, 'c1').turnAreaM2).value, 3e-4);
  });
});

describe('after a break', () => {
  it('turns left from what the rest reads, and how many came off', () => {
    const quick = quickOfText(woundCoil());
    const rest = lengthM(3000) * OHM_PER_M;
    const after = turnsAfterBreak(quick, firstCoil(quick), exactly(rest));
    near(known(after?.left).value, 3000, 1e-9);
    near(known(after?.gone?.turns).value, 2000, 1e-9);
    near(known(after?.gone?.lengthM).value, lengthM(5000) - lengthM(3000), 1e-9);
  });

  it('turns that a length of peeled wire was: from the outside, where they are longest', () => {
    const quick = quickOfText(woundCoil());
    const peeledM = lengthM(5000) - lengthM(4900);
    near(known(turnsPeeled(quick, firstCoil(quick), exactly(peeledM))?.gone).value, 100, 1e-6);
    assert.ok(known(turnsPeeled(quick, firstCoil(quick), exactly(0))?.gone).value < 1e-6);
  });
});
