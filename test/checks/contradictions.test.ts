/** Kicks, compass and spindle against what is stated, by the induction law: north-up, clockwise, red on the finish, approach: positive. */
import assert from 'node:assert/strict';
import { analyse, expectFindings, fixed, fixTitles, messageOf } from '../support/check-fixture.ts';

const single = (facts: readonly string[], readings: readonly string[] = []) => `pickup wren {
  coil main {
    turns 7_700
${facts.map((line) => `    ${line}\n`).join('')}    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
  readings "on the bench" 2026-10-02 {
${readings.map((line) => `    ${line}\n`).join('')}  }
}
`;
const barred = (readings: readonly string[], bar = 'north toward screw') => `magnet bar-5 {
  material alnico-5
}
pickup heron {
  conductors turquoise orange grey pink
  coil screw {
    turns 5_000
    wound clockwise
    start to pink
    finish to grey
  }
  coil slug like screw {
    start to turquoise
    finish to orange
  }
  magnet bar-5 ${bar}
  hookup {
    hot turquoise
    link orange grey
    ground pink
  }
  readings "on the bench" 2026-10-02 {
${readings.map((line) => `    ${line}\n`).join('')}  }
}
`;
const codes = (text: string) => analyse(text).findings.map(({ code }) => code);
const contradicts = (analysis: ReturnType<typeof analyse>) => messageOf(analysis, 'reading/contradicts');

describe('a spindle', () => {
  // Facing the spindle one sees the face that is away from it; the wire is laid against the way the bobbin turns.
  const spindle = (wound: string, line: string) =>
    codes(single([`wound ${wound}`, 'polarity north-up', `spindle ${line}`]));
  for (const [line, lays] of [
    ['clockwise, bottom toward it', 'counterclockwise'],
    ['clockwise, top toward it', 'clockwise'],
    ['counterclockwise, bottom toward it', 'clockwise'],
    ['counterclockwise, top toward it', 'counterclockwise'],
  ] as const) {
    const other = lays === 'clockwise' ? 'counterclockwise' : 'clockwise';
    it(`that turns ${line} lays the wire ${lays}`, () => {
      assert.deepEqual(spindle(lays, line), []);
      assert.deepEqual(spindle(other, line), ['reading/contradicts']);
    });
  }

  it('that contradicts can be corrected either way, neither first', () => {
    const analysis = expectFindings(
      single([
        'wound clockwise',
        'polarity north-up',
        'spindle clockwise, bottom toward it',
        '^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning',
      ]),
    );
    assert.deepEqual(fixTitles(analysis, 'reading/contradicts'), [
      'The spindle turned the other way: `spindle counterclockwise`',
      'The wire lies the other way: `wound counterclockwise`',
    ]);
  });
});

describe('a kick', () => {
  it('that contradicts, its pole confirmed by a compass, leaves the wind or the leads', () => {
    const analysis = expectFindings(
      barred([
        'kick grey to pink approach negative',
        '^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning',
        'compass screw north-up',
      ]),
    );
    assert.match(
      contradicts(analysis),
      /wound clockwise and north-up, it must read positive\. The compass agrees with the magnet, so the winding direction is wrong/,
    );
    const title = 'The screw coil is wound counterclockwise: say so, and swap its leads in the hookup';
    assert.deepEqual(fixTitles(analysis, 'reading/contradicts'), [
      `${title} *`,
      'Start and finish of the screw coil are swapped: say so, and swap its leads in the hookup',
    ]);
    assert.deepEqual(codes(fixed(analysis, 'reading/contradicts', title)), []);
  });

  it('through the joints of the hookup is followed by solving them', () => {
    assert.deepEqual(
      codes(
        barred([
          'kick turquoise to pink at screw approach positive',
          'kick turquoise to pink at slug approach positive',
        ]),
      ),
      [],
    );
    assert.deepEqual(codes(barred(['kick turquoise to pink at screw approach negative', 'compass screw north-up'])), [
      'reading/contradicts',
    ]);
  });

  it('before the work is not checked', () => {
    const text = single(['wound clockwise', 'polarity north-up']).replace(
      'readings "on the bench" 2026-10-02 {\n',
      'readings found "as received" 2026-09-28 {\n    kick violet to grey approach negative\n    compass main south-up\n',
    );
    assert.deepEqual(codes(text), []);
  });

  it('against another kick, with nothing stated, is found at the second', () => {
    expectFindings(
      single(
        [],
        [
          'kick violet to grey approach positive',
          'kick violet to grey approach negative',
          '^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning',
        ],
      ),
    );
  });

  it('with a winding direction and a compass but no stated pole is held to both', () => {
    assert.deepEqual(
      codes(single(['wound clockwise'], ['compass main north-up', 'kick violet to grey approach positive'])),
      [],
    );
    assert.deepEqual(
      codes(single(['wound clockwise'], ['compass main north-up', 'kick violet to grey approach negative'])),
      ['reading/contradicts'],
    );
  });
});

describe('a kick read from hot to ground', () => {
  const text = single(['wound clockwise', 'polarity north-up'], ['kick hot to ground approach positive']).replace(
    'hot violet\n    ground grey',
    'hot grey\n    ground violet',
  );

  it('before the two were swapped in place stays with the state that it was read in', () => {
    const analysis = analyse(text);
    assert.match(
      messageOf(analysis, 'reading/contradicts'),
      /Hot and ground were swapped since, which `reworks` tells/,
    );
    const after = fixed(
      analysis,
      'reading/contradicts',
      'Hot and ground of wren were swapped after its kick was read: keep the state that it was read in as a record',
    );
    assert.match(after, /^pickup wren-before \{/m);
    assert.match(after, /^pickup wren reworks wren-before \{\n {2}hookup \{\n {4}hot grey\n {4}ground violet\n/m);
    assert.deepEqual(analyse(after).findings, []);
  });
});

describe('a compass', () => {
  it('that contradicts the stated pole explains the kick there too: told once', () => {
    const analysis = expectFindings(
      single(
        ['wound clockwise', 'polarity north-up'],
        [
          'compass main south-up',
          '^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning',
          'kick violet to grey approach negative',
        ],
      ),
    );
    assert.match(contradicts(analysis), /the kick there shows the same/);
    assert.deepEqual(
      codes(fixed(analysis, 'reading/contradicts', 'State the poles of the main coil as the compass shows them')),
      [],
    );
  });

  it('over both coils shows a bar the other way round: one finding, one fix', () => {
    const analysis = expectFindings(
      barred(['compass screw south-up', '^^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning', 'compass slug north-up']),
    );
    assert.match(
      contradicts(analysis),
      /the screw coil and the slug coil with the other pole up than the bar magnet as stated gives \(north toward screw\)/,
    );
    assert.deepEqual(fixTitles(analysis, 'reading/contradicts'), ['State the bar as the readings show it *']);
    assert.deepEqual(codes(fixed(analysis, 'reading/contradicts', 'State the bar as the readings show it')), []);
  });

  it('kicks at both coils show the same', () => {
    expectFindings(
      barred([
        'kick turquoise to orange approach negative',
        '^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning',
        'kick grey to pink approach negative',
      ]),
    );
  });

  it('that agrees with the bar leaves each kick to its own coil', () => {
    const text = barred([
      'kick turquoise to orange approach negative',
      'kick grey to pink approach negative',
      'compass screw north-up',
      'compass slug south-up',
    ]);
    assert.deepEqual(codes(text), ['reading/contradicts', 'reading/contradicts']);
  });

  it('against another compass is found at the second', () => {
    expectFindings(
      single(
        [],
        ['compass main north-up', 'compass main south-up', '^^^^^^^^^^^^^^^^^^^^^ reading/contradicts warning'],
      ),
    );
  });
});

describe('leads found by kicks', () => {
  it('prove products of signs only: a stated wind is not contradicted', () => {
    const text = single(['wound clockwise', 'polarity north-up'], ['kick violet to grey at main approach negative'])
      .replace('    start grey\n    finish violet\n', '')
      .replace('pickup wren {\n', 'pickup wren {\n  conductors violet grey\n');
    assert.deepEqual(codes(text), []);
  });
});

describe('a coil that was kept', () => {
  const spec = (wound: string, magnet: string, word = 'kept') => `magnet bar {
  material alnico-5
  size 60 x 12 x 3 mm
}
pickup p {
  coil screw {
    ${word}
    turns 5_000
    wound ${wound}
    start pink
    finish grey
  }
  coil slug {
    new
    turns 5_000
    wound clockwise
    start violet
    finish white
  }
  magnet bar north toward screw, ${magnet}
  hookup {
    hot violet
    link white grey
    ground pink
    on purpose
  }
  readings found "as received" {
    kick grey to pink approach positive
    compass screw north-up
  }
}
`;
  const told = (text: string) =>
    analyse(text).findings.flatMap(({ code, message }) => (code === 'reading/contradicts' ? [message] : []));

  // North-up, wound clockwise, red on the finish: approach reads positive. The wind outlasts the magnet.
  it('is wound as kick and compass as found show, whatever magnet lies there now', () => {
    for (const magnet of ['kept', 'new']) {
      assert.deepEqual(told(spec('clockwise', magnet)), []);
      const [message, ...more] = told(spec('counterclockwise', magnet));
      assert.match(
        message ?? '',
        /The screw coil was kept, .* that is a coil wound clockwise, not counterclockwise as stated/,
      );
      assert.deepEqual(more, []);
      assert.match(
        fixed(analyse(spec('counterclockwise', magnet)), 'reading/contradicts', 'The screw coil is wound clockwise'),
        /wound clockwise\n {4}start pink/,
      );
    }
  });

  it('and one that is new may be wound either way', () => {
    assert.deepEqual(told(spec('counterclockwise', 'new', 'new')), []);
  });
});

describe('a coil whose leads nobody had traced when it came in', () => {
  const text = (found: string, ends: string, wound: string, reads: string) => `magnet bar {
  material alnico-5
  size 60 x 12 x 3 mm
}
pickup found {
  conductors red white green black
  coil one {
    turns 5_000
  }
  coil two {
    turns 5_000
${found}  }
  magnet bar north toward two
  readings "as it came" {
    kick green to black at two approach ${reads}
  }
}
pickup now reworks found {
  coil two {
    kept
    wound ${wound}
${ends}  }
  magnet bar north toward two, kept
}
`;
  const ends = (start: string, finish: string) => `    start to ${start}\n    finish to ${finish}\n`;
  const isTold = (spec: string) => analyse(spec).findings.some(({ code }) => code === 'reading/contradicts');

  // North-up, wound clockwise, red on the finish: approach reads positive; each of the three turned over turns it over.
  for (const [start, finish] of [
    ['green', 'black'],
    ['black', 'green'],
  ] as const)
    for (const wound of ['clockwise', 'counterclockwise'])
      for (const reads of ['positive', 'negative'])
        it(`is judged by the ends that are stated since: ${wound} from ${start}, ${reads}`, () => {
          const agrees = (finish === 'green') === ((wound === 'clockwise') === (reads === 'positive'));
          const since = ends(start, finish);
          assert.equal(isTold(text('', since, wound, reads)), !agrees);
          assert.equal(isTold(text(since, since, wound, reads)), !agrees);
        });

  it('is not judged where it has other leads since', () => {
    for (const reads of ['positive', 'negative'])
      assert.equal(isTold(text('', ends('red', 'white'), 'clockwise', reads)), false);
  });
});
