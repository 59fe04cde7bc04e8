/**
 * Findings over the positions of a selector. Resistances at the jack are worked out beside the test: coils in parallel and in
 * series by Ohm's law, with the pot across them.
 */
import assert from 'node:assert/strict';
import { analyse, expectFindings, findingLines, fixed, fixTitles, messageOf } from '../../support/check-fixture.ts';

interface Single {
  readonly turns?: number;
  readonly wound?: 'clockwise' | 'counterclockwise' | 'unknown';
  readonly poles?: 'north-up' | 'south-up' | 'unknown';
  readonly more?: string;
  readonly inside?: string;
}

const single = (
  name: string,
  { turns = 7700, wound = 'clockwise', poles = 'north-up', more = '', inside = '' }: Single = {},
) => `pickup ${name} {
  coil main {
    turns ${turns}
${wound === 'unknown' ? '' : `    wound ${wound}\n`}${poles === 'unknown' ? '' : `    polarity ${poles}\n`}${more}    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
${inside}}
`;

const twoCoils = (name: string, more: readonly [string, string] = ['', '']) => `pickup ${name} {
  coil low {
    turns 5_000
    wound clockwise
    polarity north-up
    start pink
    finish grey
${more[0]}  }
  coil high {
    turns 5_000
    wound clockwise
    polarity south-up
    start violet
    finish turquoise
${more[1]}  }
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
`;

const instrument = (pickups: string, positions: string, more = '') => `${pickups}
instrument juniper {
  pickup neck wren at 160 mm
  pickup bridge heron at 42 mm
${more}  selector {
${positions}
  }
}
`;

const codes = (text: string) => analyse(text).findings.map(({ code }) => code);

describe('signs that are open between pickups', () => {
  const both = '    1 "neck" neck\n    2 "both" neck parallel bridge\n    3 "bridge" bridge';

  it('are told at the first position that needs them, once', () => {
    const analysis = expectFindings(
      instrument(
        single('wren') + single('heron', { wound: 'unknown' }),
        `    1 "neck" neck
    2 "both" neck parallel bridge
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ phase/unproven information
    3 "both, in series" neck series bridge`,
      ),
    );
    assert.match(
      messageOf(analysis, 'phase/unproven'),
      /the winding direction of bridge is .* kick `violet to grey` with approach/,
    );
  });

  it('do not matter where pickups never sound together', () => {
    const alone = '    1 "neck" neck\n    2 "bridge" bridge';
    assert.deepEqual(codes(instrument(single('wren') + single('heron', { wound: 'unknown' }), alone)), []);
  });

  it('are settled for phase by a kick, for hum by a compass beside it', () => {
    const readings = (lines: string) => `  readings "bench" 2026-10-02 {\n${lines}  }\n`;
    const kick = '    kick violet to grey approach positive\n';
    const compass = '    compass main north-up\n';
    const heron = (lines: string) => single('heron', { wound: 'unknown', poles: 'unknown', inside: readings(lines) });
    const found = analyse(instrument(single('wren') + heron(kick), both));
    assert.match(messageOf(found, 'phase/unproven'), /cancel hum in position 2 .* Take a compass reading over bridge/);
    assert.deepEqual(codes(instrument(single('wren') + heron(kick + compass), both)), []);
  });

  it('are told at the pickup alone where it is open inside', () => {
    const heron = twoCoils('heron').replace('    wound clockwise\n', '');
    const found = analyse(instrument(single('wren') + heron, both)).findings;
    assert.deepEqual(
      found.map(({ code, subject }) => [code, subject.pickup, subject.instrument]),
      [['phase/unproven', 'heron', undefined]],
    );
  });
});

describe('the numbers of a selector', () => {
  const pickups = single('wren') + single('heron', { wound: 'counterclockwise', poles: 'south-up' });

  it('stand once each; the fix takes the first free one', () => {
    const text = instrument(pickups, '    1 "neck" neck\n    1 "bridge" bridge');
    const analysis = analyse(text);
    assert.deepEqual(findingLines(analysis), [`name/duplicate error at ${text.lastIndexOf('1 "bridge"')}: 1`]);
    assert.match(fixed(analysis, 'name/duplicate', 'Number it 2'), /^ {4}2 "bridge" bridge$/m);
  });

  it('have no gap, however wide it is', () => {
    const text = (numbers: readonly [number, number]) =>
      instrument(pickups, `    ${numbers[0]} "neck" neck\n    ${numbers[1]} "bridge" bridge`);
    const message = (numbers: readonly [number, number]) =>
      messageOf(analyse(text(numbers)), 'selector/position-missing');
    assert.match(message([1, 3]), /^Position 2 is missing/);
    assert.match(message([2, 999_999]), /^Positions 1 and 3 to 999998 are missing/);
  });

  it('that stand on a line that cannot be read are not missed', () => {
    const text = instrument(
      pickups,
      '    1 "neck" neck\n    2 "both" neck parallel\n    3 "bridge" bridge',
      '  readings "handed over" 2026-10-09 {\n    position 2 2.9 kohm\n  }\n',
    );
    assert.deepEqual(
      codes(text).filter((code) => !code.startsWith('syntax/')),
      [],
    );
  });

  it('that a reading names exist', () => {
    const readings = '  readings "handed over" 2026-10-09 {\n    position 7 5.8 kohm\n  }\n';
    assert.deepEqual(codes(instrument(pickups, '    1 "neck" neck\n    2 "bridge" bridge', readings)), [
      'name/unknown',
    ]);
  });
});

describe('a position that gives nothing', () => {
  const pickups = single('wren') + twoCoils('heron').replace('  coil low', '  conductors orange\n  coil low');
  const free = pickups.replace('    ground pink', '    ground pink\n    free orange');

  it('taken at its own ground lead is a short', () => {
    const found = analyse(instrument(free, '    1 "neck" neck\n    2 "tapped" bridge.pink'));
    assert.match(
      messageOf(found, 'circuit/output-shorted'),
      /^Position 2 \(tapped\) is silent: .* because bridge\.pink/,
    );
  });

  it('taken at a lead that no coil is soldered to is open, and told once', () => {
    const found = analyse(instrument(free, '    1 "neck" neck\n    2 "tapped" bridge.orange'));
    assert.match(messageOf(found, 'circuit/open'), /bridge\.orange gives nothing: no coil is soldered to orange/);
  });

  it('beside a pickup that does sound is told too', () => {
    const found = analyse(instrument(free, '    1 "neck" neck\n    2 "both" neck parallel bridge.orange'));
    assert.match(messageOf(found, 'circuit/open'), /In position 2 \(both\) bridge\.orange gives nothing/);
  });
});

describe('halves that sense different strings', () => {
  const halves = twoCoils('heron', ['    serves strings 3 to 4\n', '    serves strings 1 to 2\n']);
  const low = '    serves strings 3 to 4\n';

  it('of two pickups are no pair that could cancel its string signal', () => {
    const other = single('wren', { wound: 'counterclockwise', more: low });
    const positions = '    1 "neck" neck\n    2 "halves" neck parallel bridge.high';
    assert.deepEqual(
      codes(instrument(other + halves, positions)).filter((code) => code.startsWith('phase/')),
      [],
    );
    // The same half under the same strings is one.
    const same = positions.replace('bridge.high', 'bridge.low');
    assert.deepEqual(codes(instrument(other + halves, same)), ['phase/position-cancels']);
  });

  it('that go opposite ways: the other pickup clashes with one of them whichever way a pickup is turned', () => {
    const apart = halves.replace('south-up', 'north-up');
    const found = analyse(instrument(single('wren') + apart, '    1 "both" neck parallel bridge'));
    assert.match(messageOf(found, 'phase/position-cancels'), /the (?:low|high) coil of bridge works against neck/);
    const { action } = found.findings.find(({ code }) => code === 'phase/position-cancels') ?? {};
    assert.equal(
      action,
      'Make the coils of bridge agree first, or say `on purpose` behind the position where it is meant.',
    );
    assert.deepEqual(fixTitles(found, 'phase/position-cancels'), ['Position 1 (both) is meant: say `on purpose`']);
  });

  it('are no choice in place of each other, where a position hums', () => {
    const other = single('wren', { more: low });
    const positions = '    1 "neck" neck\n    2 "halves" neck parallel bridge.low';
    assert.deepEqual(codes(instrument(other + halves, positions)), []);
    // Without 'serves' the other coil is a choice: its poles are unlike those of the neck.
    assert.deepEqual(codes(instrument(single('wren') + twoCoils('heron'), positions)), ['hum/position-hums']);
  });
});

describe('hum of a position in which nobody knows how large a coil is', () => {
  const shelf = 'bobbin rods {\n  core 60 x 6 mm\n  window 11 x 5 mm\n}\nwire plain-42 {\n  gauge 42 AWG\n}\n';
  const wound = '    bobbin rods\n    wire plain-42\n';
  const against = { wound: 'counterclockwise', poles: 'south-up' } as const;
  const of = (heron: Single, positions: string) =>
    analyse(instrument(`${shelf}${single('wren', { more: wound })}${single('heron', heron)}`, `    ${positions}`));
  const codes = (analysis: ReturnType<typeof analyse>) => analysis.allFindings().map(({ code }) => code);

  it('is not told in dB, nor that the coils are unequal', () => {
    const fewer = { ...against, turns: 6000 };
    assert.deepEqual(codes(of({ ...fewer, more: wound }, '1 "both" neck parallel bridge')), ['hum/partly-cancelled']);
    assert.deepEqual(codes(of(fewer, '1 "both" neck parallel bridge')), []);
  });

  it('is told to hum or not by the way that the coils turn', () => {
    const dummy = (size: string) =>
      messageOf(
        of({ poles: 'unknown', more: `${size}    serves none\n` }, '1 "quiet" neck series bridge'),
        'hum/position-hums',
      );
    assert.match(dummy(wound), /^Position 1 \(quiet\) hums, 6\sdB against its strongest coil: /);
    assert.match(dummy(''), /^Position 1 \(quiet\) hums: neck\.main and bridge\.main turn the same way round/);
  });
});

describe('a reading at the jack', () => {
  // Coils of 8.00 and 6.00 kohm, as read; 500 kohm across: 8.00 | 500 = 7.87, 6.00 | 500 = 5.93, 8.00 | 6.00 | 500 = 3.40 kohm.
  const read = (kohm: number) => `  readings "bench" 2026-10-02 {\n    main ${kohm} kohm at 20 degC\n  }\n`;
  const pickups =
    single('wren', { inside: read(6) }) +
    single('heron', { wound: 'counterclockwise', poles: 'south-up', inside: read(8) });
  const positions = '    1 "neck" neck\n    2 "both" neck parallel bridge\n    3 "bridge" bridge';
  const jack = (lines: string) =>
    instrument(
      pickups,
      positions,
      `  controls {\n    volume 500 kohm audio\n  }\n  readings "handed over" 2026-10-09 {\n    room 20 degC\n${lines}  }\n`,
    );

  it('within the meter and the pot is clean', () => {
    assert.deepEqual(codes(jack('    position 1 5.93 kohm\n    position 2 3.40 kohm\n    position 3 7.87 kohm\n')), []);
  });

  const explained = (line: string) => messageOf(analyse(jack(line)), 'reading/unlikely');

  it('that is another position is told as that, with what it should be', () => {
    assert.match(
      explained('    position 2 7.87 kohm\n'),
      /should read 3\.41\s± .*kΩ at 20.°C .* Most likely the switch in position 3/,
    );
  });

  it('that is one pickup too few names the pickup', () => {
    const text = explained('    position 2 5.93 kohm\n');
    assert.match(text, /Most likely the switch in position 1, .*; else bridge does not reach the output/);
  });

  it('that is too high is a volume turned down', () => {
    assert.match(explained('    position 1 9.40 kohm\n'), /Most likely a volume control that is not full up/);
  });

  it('that is too low is a path beside it, with its size', () => {
    // 7.874 | 196 = 7.570
    assert.match(explained('    position 3 7.57 kohm\n'), /a path of 196\skΩ beside it: a hand on the plug/);
  });

  it('that is open is a joint, and told once where everything is', () => {
    const found = analyse(jack('    position 1 open\n    position 2 open\n    position 3 open\n')).findings;
    assert.deepEqual(
      found.map(({ code, related }) => [code, related.length]),
      [['reading/unlikely', 3]],
    );
    assert.match(found[0]?.message ?? '', /Most likely an open joint between the jack and the pickups/);
  });

  it('that is nothing is a short', () => {
    assert.match(explained('    position 1 2 ohm\n'), /the output is shorted/);
  });

  it('found before the work is not judged', () => {
    const found = jack('    position 1 2 ohm\n').replace('readings "handed over"', 'readings found "as it came"');
    assert.deepEqual(codes(found), []);
  });
});

// What follows from Faraday's law alone: e.m.f.s of one sense add, of opposite sense subtract, whichever spec a coil was built to.
describe('coils that are heard together', () => {
  it('are two where two slots hold pickups of one spec', () => {
    const text = (positions: string) =>
      instrument(single('wren'), positions).replace('bridge heron at', 'bridge wren at');
    assert.deepEqual(codes(text('    1 "both" neck parallel bridge')), []);
    assert.deepEqual(codes(text('    1 "both" neck parallel reversed bridge')), ['phase/position-cancels']);
  });

  it('leave out the lower coil of a stack, in a pickup and in a position alike', () => {
    const stack = (name: string, wound: string) => `  coil ${name}-top {
    turns 5_000
    wound ${wound}
    polarity north-up
    start ${name}-1
    finish ${name}-2
  }
  coil ${name}-low {
    turns 5_000
    wound ${wound}
    polarity north-up
    below ${name}-top
    start ${name}-3
    finish ${name}-4
  }
`;
    // Each top is joined against its own low, so that hum cancels; both tops push the same way, both lows the other.
    const heron = `pickup heron {
${stack('a', 'clockwise')}${stack('b', 'clockwise')}  hookup {
    hot a-2
    link a-1 a-3
    link a-4 b-2
    link b-1 b-3
    ground b-4
  }
}
`;
    assert.deepEqual(codes(instrument(single('wren') + heron, '    1 "bridge" bridge')), []);
  });
});
