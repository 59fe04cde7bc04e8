/** Controls as they are wired, against nodal analysis by hand: 6.00 kohm behind pots, read at the jack or heard at low frequency. */
import assert from 'node:assert/strict';
import { quickOf } from '../../server/src/analysis/pickup-analysis.ts';
import { coilCentres } from '../../server/src/estimates/coil-places.ts';
import { pickupMagnetics } from '../../server/src/estimates/magnetics.ts';
import { AS_PLAYED, type Played, positionNetwork } from '../../server/src/estimates/position-network.ts';
import { stringSources } from '../../server/src/estimates/sources.ts';
import { wiperFraction } from '../../server/src/physics/circuit/potentiometer.ts';
import { responseOf } from '../../server/src/physics/circuit/response.ts';
import { analyse } from '../support/check-fixture.ts';
import { ngspiceSweep } from '../support/ngspice.ts';
import { plainBobbin, plainPickup } from '../support/shop.ts';

const SHELF = `wire w {\n  gauge 42 AWG\n}\n${plainBobbin()}${plainPickup()}`;

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

describe('a blend', () => {
  const full = { volume: 10, tone: 10 };
  const ohms = (controls: string, blend?: number) =>
    position(instrument(controls), '1', blend === undefined ? full : { ...full, blend }).resistanceOhm?.value;

  it('of one track puts the parts of the track in series with the pickups', () => {
    const controls = '    blend neck bridge 500 kohm';
    near(ohms(controls), 256e3 / 2, 1);
    near(ohms(controls, 0), parallel(6000, 506e3), 1);
    near(ohms(controls, 7), parallel(6000 + 350e3, 6000 + 150e3), 1);
  });

  it('of one track with a taper divides it as the taper does: a tenth below the wiper at half travel of an audio track', () => {
    near(ohms('    blend neck bridge 500 kohm audio'), parallel(6000 + 50e3, 6000 + 450e3), 1);
  });

  it('of two gangs has both pickups whole in the middle, and shorts one at each end', () => {
    const controls = '    blend neck bridge 500 kohm two-gang';
    near(ohms(controls), parallel(6000, 6000, 250e3), 1);
    near(ohms(controls, 10), parallel(6000, 250e3), 1);
    // Three quarters: half of the track of neck between it and the output, half across it.
    near(ohms(controls, 7.5), parallel(6000, 500e3, 250e3 + parallel(250e3, 6000)), 1);
  });

  it('of some positions is not there in the others; before the selector it stays with a pickup that sounds alone', () => {
    const alone = (controls: string) => position(instrument(controls), '2').resistanceOhm?.value;
    near(alone('    blend neck bridge 500 kohm in 1'), 6000, 1);
    near(alone('    blend neck bridge 500 kohm'), 256e3, 1);
  });

  it('of one track is left out where the two are in series, and is said to be', () => {
    const text = instrument('    blend neck bridge 500 kohm').replace('neck parallel bridge', 'neck series bridge');
    const found = position(text, '1');
    near(found.resistanceOhm?.value, 12e3, 1);
    assert.match(found.peakDb?.restsOn.join() ?? '', /the blend of neck and bridge left out, they are in series here/);
  });

  it('is taken away by none, and by its word alone in what it stands for', () => {
    const text = `${instrument('    blend neck bridge 500 kohm')}instrument j like i {
  controls {
    blend none
  }
}
`;
    assert.deepEqual(
      analyse(text).instruments.map((each) => each.instrument.controls.length),
      [2, 0],
    );
  });

  it('names slots that there are', () => {
    const [finding] = analyse(instrument('    blend neck bridg 500 kohm')).findings.filter(
      ({ code }) => code === 'name/unknown',
    );
    assert.match(finding?.message ?? '', /bridg\b/);
  });

  it('too small for its pickups is told with what follows for each kind', () => {
    const [one] = analyse(instrument('    blend neck bridge 50 kohm')).findings.filter(
      ({ code }) => code === 'controls/pot-too-small',
    );
    assert.match(
      one?.message ?? '',
      /The blend control of 50 kohm is only 8 times the 6.kΩ of neck\..*the other pickup stays heard/,
    );
    const two = analyse(instrument('    blend neck bridge 50 kohm two-gang')).findings.filter(
      ({ code }) => code === 'controls/pot-too-small',
    );
    assert.equal(two.length, 1);
    assert.match(two[0]?.message ?? '', /loads the pickup/);
  });

  for (const words of ['linear', 'two-gang'])
    it(`${words} agrees with ngspice at three settings, within 0.1 dB`, () => {
      const text = instrument(`    blend neck bridge 250 kohm ${words}\n    volume 500 kohm audio`);
      for (const blend of [1, 5, 8]) assert.ok(farthestFromNgspice(text, blend, words === 'two-gang') < 0.1);
    });
});

/** Largest distance in dB up to 20 kHz. The netlist is written here; only the values of the coils are the product's. */
function farthestFromNgspice(text: string, blend: number, twoGang: boolean): number {
  const analysis = analyse(text);
  const [made] = analysis.instruments;
  const selection = made?.instrument.positions[0]?.selection;
  assert.ok(made && selection);
  const setting = { ...AS_PLAYED, blend };
  const played = positionNetwork(made.instrument, selection, quickOf(analysis.bench), setting);
  const drives = stringSources(played.segments);
  const [neckDrive = 0, bridgeDrive = 0] = played.segments.map(({ segment }) => drives[segment.source] ?? 0);
  const coil = (name: string, drive: number) => {
    const pickup = made.instrument.slots.find((slot) => slot.name === name)?.pickup;
    assert.ok(pickup);
    const magnetics = pickupMagnetics(quickOf(analysis.bench)(pickup));
    const [magnetic] = [...magnetics.coils.values()];
    assert.ok(magnetic);
    const { windingF, startF, finishF, facesF } = magnetic.capacitances;
    // Start at ground: what lies from it to the screen is shorted.
    const across = windingF.value - facesF.value / 6 + finishF.value + facesF.value / 2 + magnetics.leadF;
    assert.ok(startF.value >= 0);
    return [
      `V${name} e${name} 0 dc 0 ac ${Math.abs(drive)} ${drive < 0 ? 180 : 0}`,
      `L${name} e${name} r${name} ${magnetic.totalH.value}`,
      `R${name} r${name} ${name} 6000`,
      `C${name} ${name} 0 ${across}`,
    ];
  };
  const track = 250e3;
  const gang = (name: string, share: number) => [
    `R${name}u ${name} out ${Math.max(track * (1 - share), 1e-3)}`,
    `R${name}l ${name} 0 ${Math.max(track * share, 1e-3)}`,
  ];
  const pots = twoGang
    ? [...gang('neck', Math.min(1, (10 - blend) / 5)), ...gang('bridge', Math.min(1, blend / 5))]
    : [`Rn neck out ${(track * blend) / 10}`, `Rb bridge out ${track * (1 - blend / 10)}`];
  const rest = ['Rvol out 0 500k', 'Ccable out 0 450p', 'Rin out 0 1meg'];
  const lines = ['* a blend', ...coil('neck', neckDrive), ...coil('bridge', bridgeDrive), ...pots, ...rest, '.end', ''];
  const sweep = ngspiceSweep(lines.join('\n'), 'out', { pointsPerDecade: 25, fromHz: 20, toHz: 20_000 });
  const ours = responseOf(played.network, played.output, drives, sweep.frequencyHz);
  assert.ok(typeof ours !== 'string');
  return Math.max(...sweep.levelDb.map((level, index) => Math.abs(level - (ours.levelDb[index] ?? Number.NaN))));
}

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
