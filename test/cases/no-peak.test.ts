import assert from 'node:assert/strict';
import { compareNumbers } from '../../server/src/comparison/compare-numbers.ts';
import { numberRows } from '../../server/src/comparison/number-rows.ts';
import { pickupNumbers } from '../../server/src/comparison/numbers-table.ts';
import { pickupRows } from '../../server/src/features/estimate-rows.ts';
import { analyse } from '../support/check-fixture.ts';

/** A cover and a plate of brass about a pickup of two coils: nothing of its peak is left (common practice, no published source). */
const covered = (metal: string) => `
wire stock-42 { gauge 42 AWG ; enamel plain }
bobbin low { core 63 x 5.6 mm ; window 7.2 x 4.8 mm ; poles 6 spread 49.5 mm ; pole slug steel 4.8 x 12.5 mm }
bobbin high like low { pole screw steel 3.4 x 16 mm }
magnet bar { material alnico-2 ; size 63 x 12.5 x 3.2 mm }
pickup dull {
  conductors violet grey pink turquoise
  shield bare
  coil slug {
    bobbin low
    wire stock-42
    turns 5_000
    wound counterclockwise
    start gold to violet
    finish brown to turquoise
  }
  coil screw like slug { bobbin high ; start gold to pink ; finish brown to grey }
  magnet bar north toward screw
  baseplate ${metal} tied to bare
  cover ${metal} 0.5 mm tied to bare
  hookup { hot violet ; link turquoise grey ; ground pink bare }
}
`;

describe('a response without a peak', () => {
  const [brass, silver] = [analyse(covered('brass')), analyse(covered('nickel-silver'))];
  const rowsOf = (analysis: typeof brass) => {
    const [pickup] = analysis.pickups;
    assert.ok(pickup);
    return pickupRows(pickup.estimates()).map(({ name, value }) => `${name}: ${value}`);
  };

  it('is told as one, with where it has fallen by 3 dB: silence would leave the question open', () => {
    assert.ok(rowsOf(brass).includes('resonance: no peak'), rowsOf(brass).join('\n'));
    assert.ok(rowsOf(brass).some((row) => /^−3\sdB at: 4\.\d ± 0\.\d\skHz$/.test(row)));
    assert.ok(rowsOf(silver).every((row) => !/no peak|−3\sdB/.test(row)));
  });

  it('misses a target of resonance, and says so', () => {
    const wanted = covered('brass').replace('  hookup {', '  target { resonance 3.2 kHz loaded }\n  hookup {');
    const found = analyse(wanted)
      .allFindings()
      .filter(({ code }) => code === 'target/missed');
    assert.equal(found.length, 1);
    assert.match(found[0]?.what ?? '', /^The loaded response has no peak: .* target of 3\.2 kHz/);
  });

  it('beside one with a peak is one row, of the resonance', () => {
    const rows = numberRows(compareNumbers(brass, silver, new Map())).map(
      ({ what, before, after }) => `${what}: ${before}, ${after}`,
    );
    const ofPeak = rows.filter((row) => /resonance|dB at/.test(row));
    assert.equal(ofPeak.length, 1, ofPeak.join('\n'));
    assert.match(ofPeak[0] ?? '', /^resonance: no peak, 3\.\d\d ± 0\.\d\d\skHz$/);
    const [was, is] = [brass.pickups[0], silver.pickups[0]];
    assert.ok(was && is);
    const inView = pickupNumbers(is, was).rows.filter(({ name }) => /resonance|dB at/.test(name));
    assert.deepEqual(
      inView.map(({ name, before, change }) => [name, before, change]),
      [['resonance, kHz', 'no peak', 'changed']],
    );
  });
});
