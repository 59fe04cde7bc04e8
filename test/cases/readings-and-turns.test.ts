/** Specs of a winder's questions about turns and readings, with the answers by hand; the first lines of each spec say them. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { diskHost, uriOf } from '../../server/src/cli/files.ts';
import { WIRE_ALLOWANCE } from '../../server/src/estimates/common-practice.ts';
import { targetProposals, turnsAfterBreak } from '../../server/src/estimates/turns-plan.ts';
import { estimateOf } from '../../server/src/quantities/estimate.ts';
import { analyse } from '../support/check-fixture.ts';

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
    // 28.4 g on the coil, by length and section; what is lost at both ends comes to it.
    near(in43?.wire.massKg?.value, 0.0284 * WIRE_ALLOWANCE, 0.001);
    assert.equal(in43?.wire.enough, false);
    const [no, yes] = findings.filter(({ code }) => code === 'winding/turns-unknown').map(({ message }) => message);
    assert.match(no ?? '', /does not fit, 118.% of the window.*Take thinner wire/);
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

/** What is told of readings, those of inductance included, which are judged once the inductances are there. */
function messageOf(analysis: Analysis, code: string): string {
  const [found, another] = analysis.allFindings().filter((each) => each.code === code);
  assert.ok(found && !another, `one ${code} expected`);
  return found.message;
}

/** A spec of this folder with the shelf that it uses, and one text of it changed. */
function changed(name: string, from: string, to: string) {
  const text = readFileSync(path.join(folder, `${name}.pickup`), 'utf8');
  assert.ok(text.includes(from));
  const shelf = readFileSync(path.join(folder, 'parts/shelf.pickup'), 'utf8');
  return analyse(text.replace(from, to), { 'parts/shelf.pickup': shelf });
}

describe('a reading of inductance', () => {
  it('far below what is computed, with a low resistance, is shorted turns for certain; nothing is asked for', () => {
    const message = messageOf(analysed('shorted-turns-by-inductance'), 'reading/unlikely');
    assert.match(message, /It is shorted turns in the slug coil/);
    assert.doesNotMatch(message, /inductance reading|Take /);
  });

  it('as computed, with a low resistance, is other wire', () => {
    // 41 AWG has 0.793 of the resistance of 42 AWG by the rule of the gauge, 92^(-2/39); 3.20 of 3.94 kohm is 0.812.
    const message = messageOf(changed('shorted-turns-by-inductance', 'gold 0.6 H', 'gold 1.9 H'), 'reading/unlikely');
    assert.match(message, /Most likely 41 AWG wire on the slug coil/);
    assert.doesNotMatch(message, /shorted|inductance reading/);
  });

  it('that turns make, with the resistance of as many turns less, is a counter that started late', () => {
    // 4,060 turns of 5,000: 0.812 of the resistance, 0.66 of 1.96 H.
    const message = messageOf(changed('shorted-turns-by-inductance', 'gold 0.6 H', 'gold 1.27 H'), 'reading/unlikely');
    assert.match(message, /fewer turns on the slug coil than stated/);
  });

  it('alone, with a resistance that fits, is a warning', () => {
    const message = messageOf(analysed('inductance-alone'), 'reading/unlikely');
    assert.match(message, /^Blue to gold reads 0\.6 H at 1 kHz, but 5_000 turns .* compute to 1\.9\d ± 0\.1\d.H\./);
    assert.match(message, /Most likely shorted turns in the slug coil/);
  });

  it('of one coil stands in the place of what is computed of it, and goes into the whole', () => {
    const at = (henry: string) => changed('inductance-alone', 'gold 0.6 H', `gold ${henry}`).pickups[0]?.estimates();
    const [low, high] = [at('1.8 H ± 0.02 H'), at('2.1 H ± 0.02 H')];
    const slug = (each: typeof low) => each?.coils.get('slug')?.inductanceH;
    assert.equal(slug(low)?.basis, 'reading');
    // Brought to low frequency: a coil of 2 H and some 60 pF shows 0.5 % more at 1 kHz, and the eddy currents take a few per cent.
    near(slug(high)?.value, 2.1, 0.15);
    near((slug(high)?.value ?? 0) / (slug(low)?.value ?? 1), 2.1 / 1.8, 0.01);
    // In series L = L1 + L2 + 2 k sqrt(L1 L2): what one coil gains, the whole gains, and half of the mutual part with it.
    const whole = (each: typeof low) => each?.inductanceH?.value ?? Number.NaN;
    const [one, other] = [slug(low)?.value ?? Number.NaN, low?.coils.get('screw')?.inductanceH?.value ?? Number.NaN];
    const mutual = (whole(low) - one - other) / 2;
    near((whole(high) - whole(low)) / ((slug(high)?.value ?? 0) - one), 1 + mutual / one, 0.01);
  });
});

describe('a reading after the bath', () => {
  it('that is lower than the coils before it is shorted turns first, then hands on the probes', () => {
    const message = messageOf(analysed('loss-after-potting'), 'reading/sum');
    assert.match(
      message,
      /Most likely turns of the screw or the slug coil shorted since .*; else a path of 180\u202FkΩ beside it: hands/,
    );
  });
});

describe('a reading at the jack', () => {
  it('that equals another coil of the same pickup says so', () => {
    const shelf = readFileSync(path.join(folder, 'parts/shelf.pickup'), 'utf8');
    const spec = readFileSync(path.join(folder, 'inductance-alone.pickup'), 'utf8')
      .replace('slug 3.93 kohm', 'slug 4.60 kohm')
      .replace(/ *inductance .*\n/, '');
    const jack = `instrument i {
  pickup neck pair
  readings "jack" {
    position 1 4.60 kohm at 20 degC
  }
  selector {
    1 "split" neck.screw
  }
}
`;
    const told = analyse(`${spec}${jack}`, { 'parts/shelf.pickup': shelf })
      .findings.filter(({ code }) => code === 'reading/unlikely')
      .map(({ message }) => message)
      .filter((message) => message.startsWith('Position'));
    assert.match(told.join(), /Most likely the slug coil of neck in place of its screw coil, which should read so/);
  });
});
