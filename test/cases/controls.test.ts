/** Controls as they are wired, against nodal analysis by hand: 6.00 kohm behind pots, read at the jack or heard at low frequency. */
import assert from 'node:assert/strict';
import { coilCentres } from '../../server/src/estimates/coil-places.ts';
import type { Played } from '../../server/src/estimates/position-network.ts';
import { wiperFraction } from '../../server/src/physics/circuit/potentiometer.ts';
import { analyse } from '../support/check-fixture.ts';

const SHELF = `wire w {
  gauge 42 AWG
}
bobbin b {
  core 60 x 5.8 mm
  window 11 x 6 mm
}
pickup p {
  coil c {
    bobbin b
    wire w
    wound clockwise
    polarity north-up
    start blue
    finish orange
  }
  hookup {
    hot orange
    ground blue
  }
  readings "bench" {
    c 6.00 kohm at 20 degC
  }
}
`;

const instrument = (controls: string) => `${SHELF}instrument i {
  pickup neck p
  pickup bridge p
  controls {
${controls}
  }
  selector {
    1 "both" neck parallel bridge
    2 "neck" neck
  }
}
`;

function position(text: string, key: string, played: Played = { volume: 10, tone: 10 }) {
  const analysis = analyse(text);
  assert.deepEqual(
    analysis.findings.map(({ code }) => code).filter((code) => code.startsWith('syntax')),
    [],
  );
  const found = analysis.instruments[0]?.positions(played).find((each) => each.key === key);
  assert.ok(found);
  return found;
}

const parallel = (...ohms: readonly number[]) => 1 / ohms.reduce((sum, ohm) => sum + 1 / ohm, 0);

function near(value: number | null | undefined, right: number, within: number): void {
  assert.ok(typeof value === 'number' && Math.abs(value - right) <= within, `${value}, not ${right} ± ${within}`);
}

describe('volumes that are set apart', () => {
  const played = { volume: 10, tone: 10, apart: { neck: { volume: 0 } } };
  const volumes = (wired: string) =>
    instrument(`    volume 500 kohm audio ${wired} for neck\n    volume 500 kohm audio ${wired} for bridge`);

  it('wired wiper to pickup, one at zero leaves the other sounding: 6.00 kohm beside both tracks', () => {
    near(position(volumes('wiper to pickup'), '1', played).resistanceOhm?.value, parallel(6000, 500e3, 500e3), 1);
    // Nothing but the pickup's own resistance divides: 6.0 kohm against 500 kohm beside 1 Mohm, and the other track.
    assert.ok((position(volumes('wiper to pickup'), '1', played).levelDb?.value ?? -120) > -10);
  });

  it('wired pickup to the top, one at zero grounds both', () => {
    near(position(volumes(''), '1', played).resistanceOhm?.value, 0, 1);
  });

  it('at half travel, an audio track of 500 kohm turned round has a tenth of it across the pickup', () => {
    // From the jack: 450 kohm to the wiper, there 50 kohm beside 6 kohm to ground, and the other pickup with its 500 kohm.
    const half = { volume: 10, tone: 10, apart: { neck: { volume: 5 } } };
    near(
      position(volumes('wiper to pickup'), '1', half).resistanceOhm?.value,
      parallel(450e3 + parallel(50e3, 6000), 6000, 500e3),
      1,
    );
  });
});

describe('a tone control', () => {
  const tone = (words: string) => instrument(`    volume 500 kohm audio\n    tone 250 kohm audio ${words}`);
  const down = { volume: 5, tone: 0 };

  it('hangs before the volume, or at its wiper', () => {
    // A capacitor of 1000 uF is 16 ohm at 10 Hz, where the level is told: a divider of z/R and a tenth, or of z/450 kohm.
    const before = position(tone('with 1000 uF'), '2', down).levelDb?.value ?? 0;
    const behind = position(tone('with 1000 uF at wiper'), '2', down).levelDb?.value ?? 0;
    near(before - behind, 20 * Math.log10((0.1 * 450e3) / 6000), 0.3);
  });

  it('without load is as none at 10, and as any other below', () => {
    const none = position(instrument('    volume 500 kohm audio'), '2');
    const open = position(tone('no-load with 22 nF'), '2');
    assert.equal(open.peakDb?.value, none.peakDb?.value);
    const five = { volume: 10, tone: 5 };
    assert.equal(
      position(tone('no-load with 22 nF'), '2', five).peakDb?.value,
      position(tone('with 22 nF'), '2', five).peakDb?.value,
    );
  });

  it('of some positions is not there in the others', () => {
    const text = tone('with 22 nF in 1');
    assert.equal(
      position(text, '2').peakDb?.value,
      position(instrument('    volume 500 kohm audio'), '2').peakDb?.value,
    );
    assert.equal(position(text, '1').peakDb?.value, position(tone('with 22 nF'), '1').peakDb?.value);
  });
});

describe('a control of some positions', () => {
  it('names positions that there are', () => {
    const text = instrument('    volume 500 kohm audio\n    tone 250 kohm audio with 22 nF in 1 7');
    const [finding, ...more] = analyse(text).findings.filter(({ code }) => code === 'name/unknown');
    assert.match(finding?.message ?? '', /The selector has no position 7\./);
    assert.deepEqual(more, []);
  });
});

describe('controls taken over by like', () => {
  it('are taken away by none', () => {
    const text = `${instrument('    volume 250 kohm audio\n    tone 250 kohm audio with 22 nF')}instrument j like i {
  controls {
    tone none
  }
}
`;
    const [model, child] = analyse(text).instruments.map((each) => each.instrument.controls.map(({ kind }) => kind));
    assert.deepEqual(model, ['volume', 'tone']);
    assert.deepEqual(child, ['volume']);
  });
});

describe('tapers', () => {
  it('follow the laws that the reference states', () => {
    for (const x of [0, 0.2, 0.5, 0.9, 1]) {
      near(wiperFraction('linear', 10 * x), x, 1e-12);
      near(wiperFraction('audio', 10 * x), (81 ** x - 1) / 80, 1e-12);
      near(wiperFraction('reverse-audio', 10 * x), 1 - (81 ** (1 - x) - 1) / 80, 1e-12);
    }
  });
});

describe('the gap of a stack', () => {
  it('sets the bobbins apart: half of each window and the gap', () => {
    const stack = SHELF.replace(
      '  hookup {',
      '  coil d like c {\n    below c\n    gap 1 mm\n    start red\n    finish black\n  }\n  hookup {',
    );
    const [pickup] = analyse(stack).pickups;
    assert.ok(pickup);
    const [, lower] = [...coilCentres(pickup.pickup).values()];
    near(lower?.axialM, -0.012, 1e-9);
  });
});
