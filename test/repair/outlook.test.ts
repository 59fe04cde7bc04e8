/** What a plan leaves to be heard of pickups by themselves. */
import assert from 'node:assert/strict';
import { outlookOf } from '../../server/src/repair/outlook.ts';
import { analyse } from '../support/check-fixture.ts';

const coil = (name: string, pole: string) => `  coil ${name} {
    bobbin b
    wire w
    turns 5_000
    wound clockwise
    polarity ${pole}
    start ${name}-in
    finish ${name}-out
  }
`;

describe('what is heard of a pickup by itself', () => {
  it('is its phase, of several coils whether hum is left, and how loud both are', () => {
    const analysis = analyse(`wire w {
  diameter 0.0635 mm
  overall 0.070 mm
}
bobbin b {
  core 60 x 5.8 mm
  window 11 x 6 mm
}
pickup quiet {
${coil('a', 'north-up')}${coil('b', 'south-up')}  hookup {
    hot b-in
    link a-out b-out
    ground a-in
  }
}
pickup alone {
${coil('a', 'north-up')}  hookup {
    hot a-out
    ground a-in
  }
}
`);
    const heard = outlookOf(analysis, { pickups: analysis.model.pickups, instrument: undefined });
    assert.deepEqual(
      heard.map(({ pickup, phase, hum }) => [pickup, phase, hum]),
      [
        ['quiet', 'in', 'gone'],
        ['alone', 'single', undefined],
      ],
    );
    // Two coils alike, in phase: twice the string signal of one, 6 dB.
    assert.deepEqual(
      heard.map(({ signalDb }) => signalDb && Math.round(signalDb.value)),
      [6, 0],
    );
  });
});
