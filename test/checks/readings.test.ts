/**
 * Readings against what turns and wire compute to, and against one another. Copper's temperature coefficient 0.00393 per kelvin is
 * that of IEC 60028; the sizes of hands, pots and reels are common practice, no published source.
 */
import assert from 'node:assert/strict';
import { analyse, expectFindings, findingLines, fixed, messageOf } from '../support/check-fixture.ts';
import { SHOP, twoCoils, WITH_SHOP } from '../support/shop.ts';

const read = (...lines: readonly string[]) =>
  twoCoils(`  readings "on the bench" 2026-10-02 {\n${lines.map((line) => `    ${line}\n`).join('')}  }\n`);
const findings = (...lines: readonly string[]) => expectFindings(read(...lines), WITH_SHOP);
const clean = (...lines: readonly string[]) => assert.deepEqual(findingLines(analyse(read(...lines), WITH_SHOP)), []);

describe('a coil read by itself', () => {
  it('is likely where turns and wire compute to it', () => {
    clean('room 21 degC', 'screw 4.02 kohm', 'turquoise to orange 4.03 kohm');
  });

  it('is compared at its own temperature: 4.02 kohm at 21 degC reads 4.19 at 32', () => {
    clean('screw 4.19 kohm at 32 degC');
    findings('screw 4.19 kohm at 21 degC', '^^^^^^^^^^^^^^^^^^^^^^^^^^ reading/unlikely warning');
  });

  it('a third too low has shorted turns, or a counter that started late', () => {
    const analysis = findings('slug 2.71 kohm', '^^^^^^^^^^^^^^ reading/unlikely warning');
    assert.match(
      messageOf(analysis, 'reading/unlikely'),
      /reads 2\.71 kohm, but 5_000 turns from spool RYD-W7 compute to 4\.02.* at 21.°C.*shorted turns in the slug coil, or a counter that started late.*inductance/,
    );
  });

  it('has an open wire where the meter shows nothing', () => {
    const analysis = findings('slug open', '^^^^^^^^^ reading/unlikely warning');
    assert.match(messageOf(analysis, 'reading/unlikely'), /Most likely an open slug coil/);
  });

  it('of next to nothing is shorted', () => {
    const analysis = findings('slug 12 ohm', '^^^^^^^^^^^ reading/unlikely warning');
    assert.match(messageOf(analysis, 'reading/unlikely'), /Most likely a short across it/);
  });

  it('a thousand times too small is a slip of the unit', () => {
    const analysis = findings('slug 4.02 ohm', '^^^^^^^^^^^^^ reading/unlikely warning');
    assert.match(messageOf(analysis, 'reading/unlikely'), /slip of the decimal point or the unit: 4\.02.kΩ was meant/);
  });

  it('exactly as of another gauge has shorted turns all the same where its reel was measured', () => {
    // 4.02 / 1.261 kohm: what 41 AWG would read.
    const analysis = findings('slug 3.19 kohm', '^^^^^^^^^^^^^^ reading/unlikely warning');
    assert.match(messageOf(analysis, 'reading/unlikely'), /Most likely shorted turns in the slug coil/);
  });

  it('that states its own ± is held to that', () => {
    clean('slug 3.80 kohm ± 0.1 kohm');
    findings('slug 3.80 kohm ± 0.02 kohm', '^^^^^^^^^^^^^^^^^^^^^^^^^^ reading/unlikely warning');
  });
});

describe('one cause of several lines', () => {
  it('a pickup still warm from the wax is told once, with the other lines beside it', () => {
    // Ten kelvin above the room: 1.0432 / 1.00393 of what they read cold.
    const analysis = findings(
      'room 21 degC',
      'screw 4.19 kohm',
      '^^^^^^^^^^^^^^^ reading/unlikely warning',
      'slug 4.19 kohm',
      'hot to ground 8.38 kohm',
    );
    assert.match(messageOf(analysis, 'reading/unlikely'), /Most likely a coil still warm, at about 32.°C/);
    assert.deepEqual(
      analysis.findings[0]?.related.map(({ message }) => message),
      ['The slug coil reads 4.19 kohm, from the same cause', 'The turns it is computed from'],
    );
  });

  it('a reel that runs thicker than stated shows on every coil wound from it', () => {
    const analysis = findings(
      'screw 3.70 kohm',
      '^^^^^^^^^^^^^^^ reading/unlikely warning',
      'slug 3.70 kohm',
      'hot to ground 7.40 kohm',
    );
    assert.match(messageOf(analysis, 'reading/unlikely'), /Most likely wire plain-42 that runs thicker than stated/);
  });

  it('a warm coil would not leave the other one cold', () => {
    const analysis = findings(
      'room 21 degC',
      'screw 4.02 kohm',
      'slug 4.19 kohm',
      '^^^^^^^^^^^^^^ reading/unlikely warning',
    );
    assert.match(messageOf(analysis, 'reading/unlikely'), /Most likely more turns on the slug coil/);
  });

  it('an odd coil explains the odd sum', () => {
    findings('slug 2.71 kohm', '^^^^^^^^^^^^^^ reading/unlikely warning', 'hot to ground 6.73 kohm');
  });

  it('an odd reading of a coil does not make the right sum odd', () => {
    findings('slug 2.71 kohm', '^^^^^^^^^^^^^^ reading/unlikely warning', 'hot to ground 8.04 kohm');
  });

  it('a joint lies in the way of its own coil only: two coils half too high are two findings', () => {
    findings(
      'screw 6.0 kohm',
      '^^^^^^^^^^^^^^ reading/unlikely warning',
      'slug 6.0 kohm',
      '^^^^^^^^^^^^^ reading/unlikely warning',
    );
  });

  it('two different causes are two findings', () => {
    findings(
      'slug 2.71 kohm',
      '^^^^^^^^^^^^^^ reading/unlikely warning',
      'bare to baseplate open',
      '^^^^^^^^^^^^^^^^^^^^^^ reading/unlikely warning',
    );
  });
});

describe('the whole against its coils', () => {
  it('is their sum', () => clean('screw 4.01 kohm', 'slug 4.02 kohm', 'hot to ground 8.03 kohm'));

  it('with 200 kohm of hands across the probes reads 7.78 instead of 8.10', () => {
    // Parallel resistance: 8.10 kohm beside 200 kohm.
    const analysis = findings(
      'screw 4.05 kohm',
      'slug 4.05 kohm',
      'hot to ground 7.78 kohm',
      '^^^^^^^^^^^^^^^^^^^^^^^ reading/sum warning',
    );
    assert.match(
      messageOf(analysis, 'reading/sum'),
      /4\.05 \+ 4\.05 is 8\.10 kΩ at 21.°C, 0\.32 kΩ more than read\. Most likely a path of 200.kΩ beside it: hands on the probes/,
    );
    assert.deepEqual(
      analysis.findings[0]?.related.map(({ message }) => message),
      ['The screw coil by itself', 'The slug coil by itself'],
    );
  });

  it('above their sum has a poor joint or a warm coil in it', () => {
    const analysis = findings(
      'screw 4.05 kohm',
      'slug 4.05 kohm',
      'hot to ground 9.60 kohm',
      '^^^^^^^^^^^^^^^^^^^^^^^ reading/sum warning',
    );
    assert.match(
      messageOf(analysis, 'reading/sum'),
      /1\.50 kΩ less than read\. Most likely a poor joint that adds 1\.5.kΩ/,
    );
  });

  it('is judged by what turns compute to where no coil was read', () => {
    clean('hot to ground 8.04 kohm');
    findings('hot to ground 7.40 kohm', '^^^^^^^^^^^^^^^^^^^^^^^ reading/unlikely warning');
  });

  it('in parallel is what the circuit makes of them, half of 4.02', () => {
    const parallel = (ohms: string) =>
      twoCoils(`  readings "on the bench" 2026-10-02 {\n    hot to ground ${ohms}\n  }\n`, {
        hookup: 'hot turquoise grey\n    ground pink orange bare',
      });
    // The two coils side by side are in phase and cancel hum here: only the reading is at fault.
    const codes = (ohms: string) => analyse(parallel(ohms), WITH_SHOP).findings.map(({ code }) => code);
    assert.equal(codes('2.01 kohm').includes('reading/unlikely'), false);
    assert.equal(codes('8.04 kohm').includes('reading/unlikely'), true);
  });
});

describe('leads and metal', () => {
  it('joined by the hookup: any two points through the netlist', () => {
    clean('turquoise to baseplate 8.04 kohm', 'orange to grey 0.2 ohm', 'slug.start to screw.start 8.04 kohm');
  });

  it('before the leads are joined: open between coils, one state for the whole block', () => {
    const lines = [
      'turquoise to grey open',
      'turquoise to bare open',
      'grey to pink 4.02 kohm',
      'bare to baseplate 0.3 ohm',
    ];
    const analysis = analyse(read(...lines), WITH_SHOP);
    assert.deepEqual(
      analysis.findings.map(({ code, severity }) => `${code} ${severity}`),
      ['reading/unlikely information'],
    );
    const after = fixed(analysis, 'reading/unlikely', 'Read before the leads were joined: `readings apart`');
    assert.deepEqual(findingLines(analyse(after, WITH_SHOP)), []);
  });

  it('a shield that goes to ground by itself is open to the coils until the pickup is fitted', () => {
    const apart = (...lines: readonly string[]) =>
      analyse(
        twoCoils(`  readings "on the bench" 2026-10-02 {\n${lines.map((each) => `    ${each}\n`).join('')}  }\n`, {
          hookup: 'hot turquoise\n    link orange grey\n    ground pink\n    shield bare',
        }),
        WITH_SHOP,
      ).findings.map(({ code }) => code);
    assert.deepEqual(apart('hot to ground 8.04 kohm', 'turquoise to bare open'), []);
    assert.deepEqual(apart('hot to ground 8.04 kohm', 'turquoise to bare 8.04 kohm'), []);
    assert.deepEqual(apart('hot to ground 8.04 kohm', 'turquoise to bare 4.02 kohm'), ['reading/unlikely']);
  });

  it('joined by solder read some tenths of an ohm, clips and leads, by the finest meter', () => {
    const fine = { 'shop.pickup': SHOP.replace(/meter .*/, 'meter accuracy 0.05 % digits 1 resolution 0.01 ohm') };
    assert.deepEqual(findingLines(analyse(read('bare to baseplate 0.3 ohm'), fine)), []);
    assert.equal(analyse(read('bare to baseplate 12 ohm'), fine).findings.length, 1);
  });

  it('open where it must be open: metal that touches a coil is found', () => {
    const analysis = findings(
      'turquoise to grey open',
      'turquoise to bare open',
      'pink to bare 3.1 kohm',
      '^^^^^^^^^^^^^^^^^^^^^ reading/unlikely warning',
      'orange to bare open',
    );
    assert.match(messageOf(analysis, 'reading/unlikely'), /but nothing stated joins pink to bare.*pinched lead/);
  });

  it('a megohm and more counts as open', () => {
    assert.deepEqual(
      analyse(read('turquoise to grey open', 'turquoise to bare 20 Mohm', 'grey to bare open'), WITH_SHOP).findings.map(
        ({ severity }) => severity,
      ),
      ['information'],
    );
  });

  it('probes on other leads are named', () => {
    const analysis = findings(
      'turquoise to grey open',
      'turquoise to bare open',
      'grey to bare 4.02 kohm',
      '^^^^^^^^^^^^^^^^^^^^^^ reading/unlikely warning',
    );
    assert.match(messageOf(analysis, 'reading/unlikely'), /probes on other leads than written/);
  });

  it('say nothing where a fault of the hookup already explains them', () => {
    const text = twoCoils(
      '  readings "on the bench" 2026-10-02 {\n    hot to ground 8.04 kohm\n    slug 4.02 kohm\n  }\n',
      {
        hookup: 'hot turquoise\n    ground pink bare',
      },
    );
    assert.deepEqual(
      analyse(text, WITH_SHOP).findings.map(({ code }) => code),
      ['circuit/open'],
    );
  });
});

describe('readings that are not judged', () => {
  const kept = (inside: string) => twoCoils(inside, { turns: '' });

  it('those before the work', () => {
    const text = twoCoils(
      '  readings found "as received" 2026-09-28 {\n    screw 1.72 kohm\n    hot to ground open\n  }\n',
    );
    const said = text.replace('    bobbin six\n', '    new\n    bobbin six\n');
    assert.deepEqual(findingLines(analyse(said, WITH_SHOP)), []);
  });

  it('the reading that turns were inferred from, against itself', () => {
    const text = kept(
      '  readings "on the bench" 2026-10-02 {\n    screw 3.60 kohm\n    slug 3.90 kohm\n    hot to ground 7.50 kohm\n  }\n',
    );
    assert.deepEqual(
      analyse(text, WITH_SHOP)
        .findings.filter(({ code }) => code.startsWith('reading/'))
        .map(({ code }) => code),
      [],
    );
  });

  it('but a second reading of the same coil is held to the first', () => {
    const text = kept(`  readings "before potting" 2026-10-02 {
    screw 4.02 kohm
    slug 4.02 kohm
  }
  readings "after potting" 2026-10-03 {
    screw 4.02 kohm
    slug 3.70 kohm
  }
`);
    assert.match(
      messageOf(analyse(text, WITH_SHOP), 'reading/unlikely'),
      /by an earlier reading.*turns of the slug coil shorted since the earlier reading/,
    );
  });
});

describe('a coil that was kept', () => {
  const found = (word: string) => `wire w {
  gauge 42 AWG
}
bobbin b {
  core 63.0 x 5.6 mm
  window 7.2 x 4.8 mm
}
pickup p {
  coil main {
    ${word}
    bobbin b
    wire w
    packing 0.66
    turns 5_000
    start pink
    finish grey
    polarity north-up
    wound clockwise
  }
  hookup {
    hot grey
    ground pink
  }
  readings found "as received" {
    room 20 degC
    main 5.4 kohm
  }
}
`;
  const told = (word: string) => analyse(found(word)).findings.map(({ code }) => code);

  it('is held to its stated turns by what it read as found', () => {
    assert.deepEqual(told('kept'), ['reading/unlikely']);
  });

  it('and one that is new, or of which nobody says so, is not', () => {
    assert.deepEqual(told('new'), []);
    assert.deepEqual(told(''), ['reading/whose-coil']);
  });
});

describe('a coil read twice', () => {
  const twice = (before: string, after: string) =>
    analyse(
      twoCoils(
        `  readings "before potting" 2026-10-02 {\n    slug ${before}\n  }\n  readings "after potting" 2026-10-03 {\n    slug ${after}\n  }\n`,
      ),
      WITH_SHOP,
    );
  const places = (before: string, after: string) => {
    const analysis = twice(before, after);
    return analysis.findings.map(({ place }) => {
      const at = analysis.locate(place);
      return at && analysis.text.slice(at.start, at.end);
    });
  };

  it('that has changed since is told by the change', () => {
    assert.match(
      messageOf(twice('4.02 kohm', '2.71 kohm'), 'reading/unlikely'),
      /2\.71 kohm, but was 4\.02.* by an earlier reading/,
    );
    assert.deepEqual(places('4.02 kohm', '2.71 kohm'), ['slug 2.71 kohm']);
  });

  it('wrongly the first time is right the second time', () => {
    assert.deepEqual(places('2.71 kohm', '4.02 kohm'), ['slug 2.71 kohm']);
  });
});

describe('wire and reel', () => {
  const single = (wire: string, reading: string) => `wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
}
spool RYD-W7 {
  wire plain-42
  measures 5.52 ohm/m at 20 degC
}
bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
}
pickup wren {
  coil main {
    bobbin rod-six
    ${wire}
    turns 7_700
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
    tap 4_000 turns orange
  }
  hookup {
    hot violet
    ground grey
    free orange
  }
  readings "on the bench" 2026-10-02 {
    ${reading}
  }
}
`;
  const messages = (wire: string, reading: string) =>
    analyse(single(wire, reading)).findings.map(({ message }) => message);

  it('43 AWG where 42 is stated reads 1.26 times as much, by the AWG rule 92^(2/39)', () => {
    const [message, ...others] = messages('wire plain-42', 'main 7.40 kohm at 20 degC');
    assert.deepEqual(others, []);
    assert.match(message ?? '', /Most likely 43 AWG wire on the main coil/);
  });

  it('a gauge may be 8 % off by its standard, a measured reel may not', () => {
    assert.deepEqual(messages('wire plain-42', 'main 6.10 kohm at 20 degC'), []);
    assert.equal(messages('spool RYD-W7', 'main 6.40 kohm at 20 degC').length, 1);
  });

  it('a tap reads its share of the wire: inner turns are shorter', () => {
    // 4,000 of 7,700 turns hold 51.9 % of the turns and about 48 % of the wire.
    assert.deepEqual(messages('spool RYD-W7', 'grey to orange 2.87 kohm at 20 degC'), []);
    assert.equal(messages('spool RYD-W7', 'grey to orange 3.15 kohm at 20 degC').length, 1);
  });
});
