/** What fits an instrument: pots, levels, poles and strings. Limits are common practice, no published source. */
import assert from 'node:assert/strict';
import { analyse, messageOf } from '../../support/check-fixture.ts';
import { single } from '../../support/shop.ts';

const pickup = (
  name: string,
  { turns = 7700, kohm = 6, poles = 50, strings = 6, form = 'rod alnico-5 4.8 x 16.5 mm' } = {},
) => `
bobbin ${name}-bobbin {
  poles ${strings} spread ${poles} mm
  pole ${form}
}
${single(name, {
  head: `  strings ${strings}\n`,
  built: `    bobbin ${name}-bobbin\n`,
  turns: String(turns),
  inside: `  readings "bench" 2026-10-02 {\n    main ${kohm} kohm at 20 degC\n  }\n`,
})}`;

const instrument = (
  pickups: string,
  positions = '    1 "neck" neck\n    2 "bridge" bridge',
  controls = '',
) => `${pickups}
instrument juniper {
  scale 600 mm
  strings 6 spread 52 mm at bridge, 34 mm at nut
  pickup neck wren at 150 mm
  pickup bridge heron at 50 mm
  controls {
${controls}  }
  selector {
${positions}
  }
}
`;

const codes = (text: string) => analyse(text).findings.map(({ code }) => code);

describe('a pot', () => {
  const pots = (line: string) =>
    instrument(pickup('wren', { kohm: 6 }) + pickup('heron', { kohm: 8 }), undefined, `    ${line}\n`);

  it('of 20 times the largest pickup that it serves is large enough', () => {
    assert.deepEqual(codes(pots('volume 160 kohm audio')), []);
    assert.deepEqual(codes(pots('volume 159 kohm audio')), ['controls/pot-too-small']);
  });

  it('for one pickup is measured by that one', () => {
    assert.deepEqual(codes(pots('volume 125 kohm audio for neck')), []);
    assert.match(
      messageOf(analyse(pots('tone 125 kohm audio with 22 nF for bridge')), 'controls/pot-too-small'),
      /^The tone control of 125 kohm is only 16 times the 8\skΩ of bridge/,
    );
  });
});

describe('neighbouring positions', () => {
  // 20 log10(8000 / 3000) = 8.5 dB, 20 log10(8000 / 3300) = 7.7 dB
  const levels = (neckTurns: number, positions?: string) =>
    instrument(pickup('wren', { turns: neckTurns }) + pickup('heron', { turns: 8000 }), positions);

  it('may differ by 8 dB', () => {
    assert.deepEqual(codes(levels(3300)), []);
    assert.match(messageOf(analyse(levels(3000)), 'output/level-jump'), /about 9 dB (quieter|louder) than position/);
  });

  it('are left alone where one of them is meant', () => {
    assert.deepEqual(codes(levels(3000, '    1 "neck" neck, on purpose\n    2 "bridge" bridge')), []);
  });

  it('of one odd pickup make one finding, at the odd position', () => {
    const three = '    1 "bridge" bridge\n    2 "neck" neck\n    3 "bridge again" bridge';
    assert.match(
      messageOf(analyse(levels(3000, three)), 'output/level-jump'),
      /^Position 2 \(neck\) is about 9 dB quieter than position 1 \(bridge\) and position 3/,
    );
  });
});

describe('outer poles', () => {
  // At 150 of 600 mm: 52 - 18 x 150 / 600 = 47.5 mm; at 50 mm: 50.5 mm. 3 mm more of spread is 1.5 mm at each side.
  const poles = (neck: number, form?: string) =>
    instrument(
      pickup('wren', { poles: neck, ...(form === undefined ? {} : { form }) }) + pickup('heron', { poles: 50 }),
    );

  it('may lie 1.5 mm off their strings, outside and inside', () => {
    for (const spread of [44.6, 47.5, 50.4]) assert.deepEqual(codes(poles(spread)), [], `${spread} mm`);
    assert.match(messageOf(analyse(poles(50.7)), 'fit/pole-spread'), /neck lie 1\.6 mm outside .* 47\.5 mm apart/);
    assert.match(messageOf(analyse(poles(44.3)), 'fit/pole-spread'), /neck lie 1\.6 mm inside/);
  });

  it('of a blade miss no string', () => {
    assert.deepEqual(codes(poles(60, 'blade steel 3 x 12 mm')), []);
  });

  it('for another number of strings are told as that', () => {
    const text = instrument(pickup('wren', { strings: 7, poles: 60 }) + pickup('heron'));
    assert.deepEqual(codes(text), ['fit/strings']);
  });
});
