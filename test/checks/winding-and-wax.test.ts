/** Windings and the wax bath. Limits of bath and plastic are common practice, no published source. */
import assert from 'node:assert/strict';
import { bathLimits, waxMasses } from '../../server/src/estimates/potting.ts';
import {
  analyse,
  expectFindings,
  findingLines,
  findingOf,
  fixed,
  fixTitles,
  messageOf,
} from '../support/check-fixture.ts';

const bench = (coil: string, { spool = '', after = '', plastic = 'fibre', coils = '' } = {}) => `wire plain-42 {
  gauge 42 AWG
  overall 0.070 mm
  enamel plain
}
${spool}bobbin rod-six {
  core 60.0 x 5.8 mm
  window 11.0 x 5.2 mm
  plastic ${plastic}
}
pickup wren {
  coil main {
    bobbin rod-six
${coil}
    wound clockwise
    packing 0.66
    polarity north-up
    start grey
    finish violet
  }
${coils}  hookup {
    hot violet
    ground grey
  }
${after}}
`;
const found = (text: string) => analyse(text).findings.map(({ code }) => code);

describe('a winding that does not fit', () => {
  // N π D²/4 / (packing · height): 11,500 turns of 0.070 mm at 0.66 in 11 mm build 6.10 mm.
  const overfull = bench('    wire plain-42\n    turns 11_500\n    ^^^^^^^^^^^^ winding/does-not-fit error');

  it('is found at its turns, with build and window', () => {
    assert.match(
      messageOf(expectFindings(overfull), 'winding/does-not-fit'),
      /11.500 turns of 0\.070.mm wire at packing 0\.66 build 6\.10.mm deep, the window of the main coil has 5\.2.mm \(117 ± 5.%\)/,
    );
  });

  it('can be brought down to what the window holds', () => {
    const analysis = expectFindings(overfull);
    assert.deepEqual(fixTitles(analysis, 'winding/does-not-fit'), ['Wind what the window holds, `turns 9_800` *']);
    assert.deepEqual(found(fixed(analysis, 'winding/does-not-fit', 'Wind what the window holds, `turns 9_800`')), []);
  });

  it('that has been counted is wound: the count is the place, and no plan can be changed', () => {
    const analysis = expectFindings(
      bench('    wire plain-42\n    counted 11_500\n    ^^^^^^^^^^^^^^ winding/does-not-fit error'),
    );
    assert.deepEqual(fixTitles(analysis, 'winding/does-not-fit'), []);
  });

  it('that has been counted stays as it is, whatever was planned', () => {
    const text = bench('    wire plain-42\n    turns 9_000\n    counted 11_500');
    assert.deepEqual(findingOf(analyse(text), 'winding/does-not-fit').remedies(), []);
  });

  it('just fits at the turns that fill the window', () => {
    assert.deepEqual(found(bench('    wire plain-42\n    turns 9_800')), []);
  });
});

describe('turns that nobody knows', () => {
  it('ask for a reading with its temperature', () => {
    const analysis = expectFindings(
      bench('    wire plain-42').replace(
        '  coil main {\n',
        '  coil main {\n  ^^^^^^^^^^^ winding/turns-unknown information\n',
      ),
    );
    assert.match(messageOf(analysis, 'winding/turns-unknown'), /`main 4\.02 kohm at 21 degC`/);
  });

  it('follow from a reading, one taken before the work too', () => {
    const readings = (head: string) => `  readings ${head} 2026-10-02 {\n    main 5.92 kohm at 22 degC\n  }\n`;
    assert.deepEqual(found(bench('    wire plain-42', { after: readings('"on the bench"') })), []);
    assert.deepEqual(found(bench('    wire plain-42', { after: readings('found "as received"') })), []);
  });

  it('do not follow from what was read between leads before the work, when two coils may have been joined otherwise', () => {
    const analysis = analyse(`wire plain-42 {
  gauge 42 AWG
}
pickup wren {
  coil slug {
    wire plain-42
    start pink
    finish grey
  }
  coil screw {
    turns 5_000
    start turquoise
    finish violet
  }
  readings found "as received" 2026-10-02 {
    pink to grey 3.92 kohm at 22 degC
  }
}
`);
    assert.match(
      messageOf(analysis, 'winding/turns-unknown'),
      /if it is of this coil alone, name it: `slug 3\.92 kohm`/,
    );
    const apart = fixed(analysis, 'winding/turns-unknown', 'Read before the leads were joined: `readings apart`');
    assert.match(apart, /readings found apart "as received" 2026-10-02/);
    assert.deepEqual(found(apart), []);
  });

  it('are not told beside a line of turns that could not be read', () => {
    assert.deepEqual(found(bench('    wire plain-42\n    turnz 7_700')), ['syntax/unknown-word']);
  });
});

describe('a spool', () => {
  const spool = (left: string) => `spool RYD-W7 {\n  wire plain-42\n  left ${left}\n}\n`;
  // 7,700 turns of 137 to 140 mm are about 1,070 m; 42 AWG with its enamel weighs 0.030 g/m: some 32 g.
  it('that holds too little is found at the line that takes the wire from it', () => {
    const analysis = expectFindings(
      bench('    spool RYD-W7\n    ^^^^^^^^^^^^ winding/spool-too-short warning\n    turns 7_700', {
        spool: spool('20 g'),
      }),
    );
    assert.match(
      messageOf(analysis, 'winding/spool-too-short'),
      /The main coil takes 3\d.g of wire, .* spool RYD-W7 has 20 g left/,
    );
  });

  it('needs a tenth more than the coil holds', () => {
    const of = (left: string) => found(bench('    spool RYD-W7\n    turns 7_700', { spool: spool(left) }));
    assert.deepEqual(of('33 g'), ['winding/spool-too-short']);
    assert.deepEqual(of('36 g'), []);
  });

  it('must serve every coil of the pickup that is wound from it', () => {
    const second = '  coil dummy like main {\n    serves none\n    start pink\n    finish orange\n  }\n';
    const both = (left: string) =>
      found(bench('    spool RYD-W7\n    turns 7_700', { spool: spool(left), coils: second })).filter((code) =>
        code.startsWith('winding/'),
      );
    assert.deepEqual(both('60 g'), ['winding/spool-too-short']);
    assert.deepEqual(both('90 g'), []);
  });

  it('has already given the wire of a coil that was counted, and of a pickup that was made', () => {
    assert.deepEqual(found(bench('    spool RYD-W7\n    counted 7_700', { spool: spool('20 g') })), []);
    const read = '  readings "after winding" 2026-05-14 {\n    main 5.90 kohm at 21 degC\n  }\n';
    assert.deepEqual(found(bench('    spool RYD-W7\n    turns 7_700', { spool: spool('20 g'), after: read })), []);
    assert.deepEqual(
      found(bench('    spool RYD-W7\n    turns 7_700', { spool: spool('20 g'), after: '  made 2026-05-14\n' })),
      [],
    );
  });
});

describe('the wax bath', () => {
  const potting = (bath: string, wax = 'paraffin 80 % beeswax 20 %') =>
    `  potting {\n    wax ${wax}\n${bath ? `    bath ${bath}\n` : ''}    batch 400 g\n  }\n`;
  const pot = (bath: string, plastic = 'fibre', wax?: string) =>
    analyse(bench('    wire plain-42\n    turns 7_700', { after: potting(bath, wax), plastic }));
  const codes = (...of: Parameters<typeof pot>) => pot(...of).findings.map(({ code }) => code);

  it('weighs out the batch by its percentages', () => {
    const { potting: bath } = pot('60 degC').pickups[0]?.pickup ?? {};
    assert.ok(bath);
    assert.deepEqual(
      waxMasses(bath).map(({ ingredient, massKg }) => [ingredient, Number(massKg.value.toFixed(6))]),
      [
        ['paraffin', 0.32],
        ['beeswax', 0.08],
      ],
    );
  });

  it('has a mix of 100 %; the smallest part makes up the sum first', () => {
    const analysis = pot('60 degC', 'fibre', 'paraffin 80 % beeswax 25 %');
    assert.match(messageOf(analysis, 'potting/parts'), /sum to 105.%/);
    assert.deepEqual(fixTitles(analysis, 'potting/parts'), ['`beeswax 20 %` *', '`paraffin 75 %`']);
  });

  it('thirds rounded to a tenth are whole', () => {
    assert.deepEqual(codes('60 degC', 'fibre', 'paraffin 66.7 % beeswax 33.3 %'), []);
    assert.deepEqual(codes('60 degC', 'fibre', 'paraffin 33.3 % beeswax 33.3 % microcrystalline 33.3 %'), []);
  });

  it('ends at 65 degC for paraffin and beeswax, whatever the bobbin', () => {
    assert.deepEqual(codes('65 degC'), []);
    assert.deepEqual(codes('66 degC'), ['potting/too-hot']);
    assert.deepEqual(codes('149 degF'), [], '149 degF are 65 degC');
    assert.deepEqual(codes('338.15 K'), [], '338.15 K are 65 degC');
  });

  it('names the plastic that gives way, and is lowered to 60 degC', () => {
    const analysis = pot('92 degC', 'abs');
    assert.match(
      messageOf(analysis, 'potting/too-hot'),
      /ABS bobbins deflect from 68.°C on, by grade.*ceiling for this mix is 65.°C/,
    );
    assert.deepEqual(fixTitles(analysis, 'potting/too-hot'), ['Lower the bath: `bath 60 degC` *']);
    assert.deepEqual(found(fixed(analysis, 'potting/too-hot', 'Lower the bath: `bath 60 degC`')), []);
  });

  it('is held lower for butyrate', () => {
    assert.deepEqual(codes('60 degC', 'butyrate'), ['potting/too-hot']);
    assert.deepEqual(fixTitles(pot('60 degC', 'butyrate'), 'potting/too-hot'), ['Lower the bath: `bath 55 degC` *']);
  });

  it('far too hot: plain enamel of class 105 and the flash point are named, and fire', () => {
    const analysis = pot('130 degC');
    assert.match(
      messageOf(analysis, 'potting/too-hot'),
      /flash from 140.°C.*plain enamel is of class 105.*never water/,
    );
    const pickup = analysis.pickups[0]?.pickup;
    assert.ok(pickup);
    assert.deepEqual(
      bathLimits(pickup).map(({ what }) => what),
      ['mix', 'enamel', 'flash point'],
    );
  });

  it('of a wax that nobody knows is judged like the usual mix, whatever its name', () => {
    for (const wax of ['candelilla', 'hasOwnProperty', 'constructor'])
      for (const bath of ['38 degC', '90 degC'])
        assert.deepEqual(
          codes(bath, 'fibre', `${wax} 100 %`),
          codes(bath, 'fibre', 'paraffin 100 %'),
          `${wax}, ${bath}`,
        );
  });

  it('too cold to melt the wax is a hint', () => {
    assert.deepEqual(
      findingLines(pot('38 degC')).map((line) => line.replace(/ at .*/, '')),
      ['potting/too-cold hint'],
    );
  });

  it('without a temperature is not judged', () => assert.deepEqual(codes(''), []));
});
