import assert from 'node:assert/strict';
import { missingInstrumentReadings, missingPickupReadings } from '../../server/src/features/missing-readings.ts';
import { SINGLE } from '../support/shop.ts';
import { analysed } from './analysed.ts';

const readings = (text: string) => {
  const analysis = analysed(text);
  const [pickup] = analysis.pickups;
  assert.ok(pickup);
  return missingPickupReadings(analysis, pickup);
};

const TWO = `use "parts.pickup"

pickup wren "Wren" {
  strings 6
  conductors violet grey pink turquoise
  coil screw {
    bobbin rod-six
    wire plain-42
    turns 5_000
    packing 0.66
    polarity north-up
    start to pink
    finish to turquoise
  }
  coil slug {
    bobbin rod-six
    wire plain-42
    turns 5_000
    wound clockwise
    packing 0.66
    polarity south-up
    start to violet
    finish to grey
  }
  cover none
  hookup {
    hot violet
    link grey turquoise
    ground pink
  }
}
`;

describe('readings still missing', () => {
  it('of a coil with its turns stated: its resistance, between its leads, and what to expect', () => {
    const [coil] = readings(SINGLE);
    assert.ok(coil);
    assert.match(coil.settles, /resistance of the main coil/);
    assert.match(coil.how, /from grey to violet/);
    assert.match(coil.expected ?? '', /^\d\.\d+ ± 0\.\d+\u202FkΩ at \d+\u202F°C$/);
    assert.equal(coil.line, 'main … kohm');
  });

  it('of a coil whose turns nobody knows: its resistance settles them, and nothing can be expected', () => {
    const [coil] = readings(SINGLE.replace('    turns 7_700\n', ''));
    assert.equal(coil?.settles, 'turns of the main coil');
    assert.equal(coil.expected, undefined);
  });

  it('none of a coil that is still to be wound for a target', () => {
    const blank = SINGLE.replace('    turns 7_700\n', '');
    assert.equal(readings(blank).length, 1);
    assert.deepEqual(readings(blank.replace('  hookup {', '  target {\n    resistance 6 kohm\n  }\n  hookup {')), []);
  });

  it('none of what has been read', () => {
    const read = SINGLE.replace(/\}\n$/, '  readings "after winding" {\n    main 5.75 kohm\n  }\n}\n');
    assert.deepEqual(readings(read), []);
  });

  it('none of a coil that was kept and read before the work; that of a new one is asked for', () => {
    const reworked = (slug: string) => `${TWO.replace(
      'pickup wren "Wren"',
      'pickup wren-before "Wren, before"',
    ).replace(/\}\n$/, '  readings "after winding" 2025-03-01 {\n    screw 3.9 kohm\n    slug 3.9 kohm\n  }\n}\n')}
pickup wren "Wren" reworks wren-before {
  made 2026-05-06
  coil screw {
    kept
  }
  coil slug {
    ${slug}
  }
}
`;
    const asked = (slug: string) => {
      const analysis = analysed(reworked(slug));
      const now = analysis.pickups.find(({ pickup }) => pickup.name === 'wren');
      assert.ok(now);
      return missingPickupReadings(analysis, now).flatMap(({ line }) => (/^(screw|slug) /.test(line) ? [line] : []));
    };
    assert.deepEqual(asked('kept'), []);
    assert.deepEqual(
      asked(
        'new\n    bobbin rod-six\n    wire plain-42\n    turns 6_100\n    packing 0.66\n    start to violet\n    finish to grey',
      ),
      ['slug … kohm'],
    );
  });

  it('where the wind of a coil is open, a kick settles phase and hum: red on the finish, black on the start', () => {
    const [kick] = readings(TWO);
    assert.ok(kick);
    assert.equal(kick.settles, 'phase and hum (the screw coil)');
    assert.equal(kick.line, 'kick turquoise to pink at screw approach …');
  });

  it('where only the polarity is open, a compass does', () => {
    const text = TWO.replace('    polarity north-up\n', '    wound clockwise\n');
    const [compass] = readings(text);
    assert.ok(compass);
    assert.equal(compass.settles, 'phase (the screw coil)');
    assert.equal(compass.line, 'compass screw …');
  });

  it('of an instrument: the positions that nobody has read at the jack', () => {
    const analysis = analysed(`${SINGLE}
instrument lark "Lark" {
  pickup bridge wren
  controls {
    volume 500 kohm audio
  }
  readings "handed over" {
    position 1 5.7 kohm
  }
  selector {
    1 bridge
    2 "again" bridge
  }
}
`);
    const [instrument] = analysis.instruments;
    assert.ok(instrument);
    const missing = missingInstrumentReadings(instrument);
    assert.deepEqual(
      missing.map(({ settles, line }) => [settles, line]),
      [['position 2, again', 'position 2 … kohm']],
    );
    assert.match(missing[0]?.expected ?? '', /kΩ$/);
  });
});
