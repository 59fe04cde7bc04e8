/** Specs of a winder's questions about turns and readings, with the answers by hand; the first lines of each spec say them. */
import assert from 'node:assert/strict';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { targetProposals, turnsAfterBreak } from '../../server/src/estimates/turns-plan.ts';
import { estimateOf } from '../../server/src/quantities/estimate.ts';

const analyser = createAnalyser();
const folder = import.meta.dirname;
const analysed = (name: string) => analyser.analyse(uriOf(path.join(folder, `${name}.pickup`)), diskHost(folder));

function near(value: number | undefined, right: number, within: number): void {
  assert.ok(value !== undefined && Math.abs(value - right) <= within, `${value}, not ${right} ± ${within}`);
}

describe('turns', () => {
  it("after a break follow from the coil's own reading: half the resistance is more than half the turns", () => {
    const { pickups, bench } = analysed('turns-after-break');
    const [pickup] = pickups;
    assert.ok(pickup);
    const quick = quickOf(bench)(pickup.pickup);
    const [coil] = pickup.pickup.coils;
    assert.ok(coil);
    const after = turnsAfterBreak(quick, coil, estimateOf(3200, { basis: 'reading' }));
    near(after?.left.value, 4146, 5);
    near(after?.gone?.turns.value, 7900 - 4146, 5);
    assert.ok(after && after.left.sd > 5 && after.left.sd < 60);
  });

  it('are proposed where only a target is stated, with the window and the spool', () => {
    const { pickups, bench, findings } = analysed('target-only');
    const [in42, in43] = pickups.map(({ pickup }) => targetProposals(quickOf(bench)(pickup), bench)[0]?.proposals[0]);
    near(in42?.windowFilled, 1.18, 0.01);
    assert.equal(in42?.fits, false);
    near(in43?.turns.value, 8822, 20);
    near(in43?.turns.sd, 400, 50);
    near(in43?.wire.massKg?.value, 0.03, 0.001);
    assert.equal(in43?.wire.enough, false);
    const [no, yes] = findings.filter(({ code }) => code === 'winding/turns-unknown').map(({ message }) => message);
    assert.match(no ?? '', /does not fit, 118 % of the window.*Take thinner wire/);
    assert.match(yes ?? '', /not enough.*Plan them: `turns 8_820`\.$/);
  });
});

describe('tolerances of pots', () => {
  it('are most of the error at the jack behind a small pot', () => {
    // 17.00 · 250/(17.00 + 250) = 15.92; a pot of 20 % moves that by 0.2 at most, the coil's reading has 1 % and three digits.
    const [instrument] = analysed('pot-tolerance').instruments;
    const [position] = instrument?.positions({ volume: 10, tone: 10 }) ?? [];
    near(position?.resistanceOhm?.value, 15_918, 1);
    near(position?.resistanceOhm?.sd, 150, 5);
  });
});
