/** What is left of a string where two pickups at different places cancel, against the sum of its harmonics. */
import assert from 'node:assert/strict';
import { alikeAt } from '../../server/src/physics/string-places.ts';
import { uniform } from '../support/chance.ts';
import { analyse } from '../support/check-fixture.ts';
import { known } from './spec-text.ts';

/** Harmonics of a plucked string, speeds falling as 1/n (the pluck itself at any place), by their number. */
const HARMONICS = Array.from({ length: 4000 }, (_, index) => index + 1);
const power = (heard: (n: number) => number) => HARMONICS.reduce((sum, n) => sum + (heard(n) / n) ** 2, 0);
const at = (distanceMm: number, scaleMm: number) => (n: number) => Math.sin((n * Math.PI * distanceMm) / scaleMm);

describe('a plucked string at two places', () => {
  const chance = uniform(31);
  for (let round = 0; round < 5; round++) {
    const [one, other] = [30 + 120 * chance(), 30 + 250 * chance()].map(Math.round) as [number, number];
    it(`${one} and ${other} mm from the saddle of 640 mm has in common what its harmonics have`, () => {
      const [a, b] = [at(one, 640), at(other, 640)];
      const both = HARMONICS.reduce((sum, n) => sum + (a(n) * b(n)) / n ** 2, 0);
      const expected = both / Math.sqrt(power(a) * power(b));
      assert.ok(Math.abs(alikeAt((Math.PI * one) / 640, (Math.PI * other) / 640) - expected) < 2e-3, `${expected}`);
    });
  }
});

const SHELF = `wire w {
  gauge 42 AWG
}
bobbin b {
  core 60 x 5.8 mm
  window 11 x 6 mm
  poles 6 spread 50 mm
  pole rod alnico-5 4.8 x 16 mm
}
pickup p {
  coil one {
    bobbin b
    wire w
    turns 7_600
    wound clockwise
    polarity north-up
    start pink
    finish grey
  }
  hookup {
    hot grey
    ground pink
  }
}
pickup q like p {
}
`;
const positionsOf = (neckMm: number, bridgeMm: number, scale = '  scale 640 mm\n') =>
  analyse(`${SHELF}instrument i {
${scale}  pickup neck p at ${neckMm} mm
  pickup bridge q at ${bridgeMm} mm
  selector {
    1 "alone" neck
    2 "out of phase" neck parallel reversed bridge on purpose
    3 "in phase" neck parallel bridge
  }
}
`).instruments[0]?.positions() ?? [];

describe('two pickups out of phase', () => {
  for (const [neckMm, bridgeMm] of [
    [160, 40],
    [160, 100],
    [120, 25],
  ] as const)
    it(`at ${neckMm} and ${bridgeMm} mm are not silent: as far as the harmonics of a string held at the octave go`, () => {
      const [, out, inPhase] = positionsOf(neckMm, bridgeMm);
      const [a, b] = [at(neckMm, 320), at(bridgeMm, 320)];
      // Both as loud by themselves.
      const equal = Math.sqrt(power(a) / power(b));
      const left = 10 * Math.log10(power((n) => a(n) - equal * b(n)) / power(a));
      const { value, sd, restsOn } = known(out?.signalDb);
      assert.ok(Math.abs(value + sd - left) < 0.05, `${value + sd}, ${left}`);
      assert.ok(restsOn.some((reason) => reason.startsWith('of a string heard at two places')));
      assert.ok(known(out?.levelDb).value + known(out?.levelDb).sd > -20);
      // Where they add, both places move alike at low frequencies.
      assert.ok(Math.abs(known(inPhase?.signalDb).value - 6.02) < 0.01);
      assert.ok(known(inPhase?.signalDb).sd < 1);
    });

  it('at one place cancel', () => {
    const [, out] = positionsOf(100, 100);
    assert.equal(out?.levelDb, null);
  });

  it('without a stated length are taken to be on a usual one', () => {
    const [stated, usual] = [positionsOf(160, 40), positionsOf(160, 40, '')].map(([, out]) => known(out?.signalDb));
    assert.deepEqual(stated, usual);
  });
});
