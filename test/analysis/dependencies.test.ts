/**
 * What is made again when something changes, and what stays the same object: one analyser over a shop of several files, as a server has
 * it, in which one text after the other is changed.
 */
import assert from 'node:assert/strict';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import type { Analysis } from '../../server/src/analysis/analysis-types.ts';
import { resolveUse, treeReader } from '../../server/src/analysis/use-graph.ts';
import { benchRoomC } from '../../server/src/model/bench.ts';
import { FOLDER, hostOf } from '../support/check-fixture.ts';
import { single } from '../support/shop.ts';

type Files = Readonly<Record<string, string>>;

const BENCH = `bench {
  room 20 degC
  meter accuracy 0.5 %
}
`;
const WIRE = 'wire plain-42 {\n  gauge 42 AWG\n  overall 0.070 mm\n}\n';
const BOBBIN = 'bobbin six {\n  core 63.0 x 5.6 mm\n  window 11.0 x 5.2 mm\n}\n';

const made = (name: string, inside = '') =>
  single(name, { built: '    bobbin six\n    wire plain-42\n    packing 0.66\n', inside });
const INSTRUMENT = `instrument juniper {
  pickup neck wren at 160 mm
  pickup bridge heron at 42 mm
  selector {
    1 "neck" neck
    2 "bridge" bridge
  }
}
`;

/** Main file, bench and parts. */
const SHOP: Files = {
  'main.pickup': `use "parts.pickup"\nuse "bench.pickup"\n${made('wren')}${made('heron')}${INSTRUMENT}`,
  'parts.pickup': WIRE + BOBBIN,
  'bench.pickup': BENCH,
};

/** The main file after each change of the shop, by one analyser. */
function inTurn(...changes: readonly Files[]): readonly Analysis[] {
  const analyser = createAnalyser();
  let files = SHOP;
  return changes.map((change) => {
    files = { ...files, ...change };
    return analyser.analyse(`${FOLDER}main.pickup`, hostOf(files));
  });
}

const main = (change: (text: string) => string): Files => ({ 'main.pickup': change(SHOP['main.pickup'] ?? '') });
const codes = ({ findings }: Analysis) => findings.map(({ code }) => code);
const ohm = (analysis: Analysis, index: number) => analysis.pickups[index]?.quick.resistance20COhm?.value;

describe('a changed bench', () => {
  const reading = (kohm: number) =>
    main((text) =>
      text.replace(made('wren'), made('wren', `  readings "handed over" 2026-10-02 {\n    main ${kohm} kohm\n  }\n`)),
    );
  const meter = (percent: number) => ({ 'bench.pickup': BENCH.replace('0.5 %', `${percent} %`) });
  const room = (celsius: number) => ({ 'bench.pickup': BENCH.replace('20 degC', `${celsius} degC`) });

  it('is noticed by a pickup whose own text did not change', () => {
    const [cold, warm] = inTurn(reading(6.5), room(40));
    assert.ok(cold && warm);
    assert.equal(cold.model.pickups[0], warm.model.pickups[0]);
    // Copper has 0.393 % more a kelvin: the same reading, taken 20 K warmer, is 1 / 1.0786 of it at 20 °C.
    assert.ok(Math.abs((ohm(warm, 0) ?? 0) / (ohm(cold, 0) ?? 0) - 1 / 1.0786) < 0.0005);
  });

  it('is noticed by the findings of an instrument, and taken back with the bench', () => {
    const handed = `  controls {\n    volume 500 kohm audio\n  }\n  readings "handed over" 2026-10-09 {\n    position 1 6.7 kohm\n  }\n`;
    const text = made('wren', '  readings "wound" 2026-10-02 {\n    main 6.0 kohm at 20 degC\n  }\n');
    const files = main((whole) => whole.replace(made('wren'), text).replace('  selector {', `${handed}  selector {`));
    const [exact, rough, again] = inTurn(files, meter(10), meter(0.5));
    assert.ok(exact && rough && again);
    assert.deepEqual([exact, rough, again].map(codes), [['reading/unlikely'], [], ['reading/unlikely']]);
    assert.equal(exact.model.instruments[0], rough.model.instruments[0]);
  });

  it('is the first of the file and all it uses, nearest first', () => {
    const own = BENCH.replace('20 degC', '30 degC');
    const [theirs, ours, none] = inTurn(
      {},
      main((text) => text + own),
      {
        ...main((text) => text),
        'bench.pickup': '',
      },
    );
    assert.deepEqual(
      [theirs, ours, none].map((each) => each?.bench && Math.round(benchRoomC(each.bench))),
      [20, 30, undefined],
    );
  });
});

describe('what did not change', () => {
  const [wren, heron, juniper] = ['wren', 'heron', 'juniper'];
  const analysesOf = (analysis: Analysis) =>
    new Map<string, unknown>([
      ...analysis.pickups.map((each) => [each.pickup.name, each] as const),
      ...analysis.instruments.map((each) => [each.instrument.name, each] as const),
    ]);
  /** The names of what is analysed as the same object before and after a change. */
  const kept = (change: Files): readonly string[] => {
    const [before, afterwards] = inTurn({}, change).map(analysesOf);
    return [wren, heron, juniper].filter((name) => before?.get(name) === afterwards?.get(name));
  };

  it('is the same object after an edit elsewhere', () => {
    assert.deepEqual(kept(main((text) => `# a remark\n${text}`)), [wren, heron, juniper]);
    assert.deepEqual(kept(main((text) => `${text}# and one more\n`)), [wren, heron, juniper]);
    assert.deepEqual(kept({ 'parts.pickup': `wire other {\n  gauge 43 AWG\n}\n${WIRE}${BOBBIN}` }), [
      wren,
      heron,
      juniper,
    ]);
    assert.deepEqual(kept(main((text) => text.replace('1 "neck"', '1 "front"'))), [wren, heron]);
  });

  it('goes with what it rests on: its own text, a part, a pickup that is fitted', () => {
    const turns = (text: string) => text.replace(made('heron'), made('heron').replace('7_700', '7_701'));
    assert.deepEqual(kept(main(turns)), [wren]);
    assert.deepEqual(kept({ 'parts.pickup': WIRE.replace('0.070', '0.071') + BOBBIN }), []);
    assert.deepEqual(kept({ 'bench.pickup': BENCH.replace('room 20', 'room 21') }), []);
  });

  describe('stays the same object while a file that it uses only looks otherwise', () => {
    const spool = 'spool open-3 {\n  wire plain-42\n  note "third shelf"\n}\n';
    const parts = `${WIRE}${spool}${BOBBIN}`;
    const onSpool = main((text) => text.replaceAll('    wire plain-42\n', '    spool open-3\n'));
    /** One text of a shared file after the other, each analysed by itself first, as in an editor where somebody types in it. */
    const analyses = (file: string, ...texts: readonly string[]) => {
      const analyser = createAnalyser();
      return texts.map((text) => {
        const host = hostOf({ ...SHOP, 'parts.pickup': parts, ...onSpool, [file]: text });
        analyser.analyse(FOLDER + file, host);
        return analyser.analyse(`${FOLDER}main.pickup`, host);
      });
    };
    /** What is told of the wire, in the words that stand at its place. */
    const wireLine = (analysis: Analysis, text: string): string | undefined => {
      const place = analysis.pickups[0]?.pickup.coils[0]?.wire?.overallDiameter?.place;
      const at = place && analysis.locate(place);
      return at?.uri === `${FOLDER}parts.pickup` ? text.slice(at.start, at.end) : undefined;
    };
    const overall = 'overall 0.070 mm';
    const typed = (letters: string) => Array.from(letters, (_, index) => letters.slice(0, index + 1));

    for (const [what, ...texts] of [
      ['a space in a line', parts.replace(overall, `${overall} `), parts.replace(overall, `${overall}  `)],
      [
        'spaces before and inside',
        `  ${parts.replace('  overall', '     overall').replace('wire plain', 'wire   plain')}`,
      ],
      ['empty lines', parts.replace('  overall', '\n\n  overall'), parts],
      ['a remark typed behind a line', ...typed('# of').map((each) => parts.replace(overall, `${overall} ${each}`))],
      ['a remark on top, and in front of the part that is named', `# x\n${parts.replace('spool', '# y\nspool')}`],
      ['a remark instead of another', parts.replace('wire', '# one\nwire'), parts.replace('wire', '# other\nwire')],
    ] as const)
      it(what, () => {
        const [before, ...after] = analyses('parts.pickup', parts, ...texts);
        assert.ok(before && after.length === texts.length);
        for (const [index, analysis] of after.entries()) {
          for (const name of [wren, heron, juniper])
            assert.equal(analysesOf(analysis).get(name), analysesOf(before).get(name), name);
          assert.equal(wireLine(analysis, texts[index] ?? ''), overall);
        }
      });

    it('a remark in the bench', () => {
      const [before, after] = analyses('bench.pickup', BENCH, BENCH.replace('{', '{ # by the window'));
      assert.ok(before && after);
      assert.equal(after.bench, before.bench);
      assert.equal(after.pickups[0], before.pickups[0]);
    });

    for (const [what, text] of [
      ['another value', parts.replace('0.070', '0.071')],
      ['a line that is no remark any more', parts.replace('  overall', '  # overall')],
      ['two lines made one', parts.replace('42 AWG\n', '42 AWG ')],
    ] as const)
      it(`and no longer with ${what}`, () => {
        const [, moved, other] = analyses('parts.pickup', parts, parts.replace(overall, `${overall} # x`), text);
        assert.ok(moved && other);
        assert.notEqual(other.pickups[0], moved.pickups[0]);
      });
  });

  it('is remembered by value, too: loads of a cable, pots turned', () => {
    const [analysis] = inTurn({});
    const [pickup, instrument] = [analysis?.pickups[0], analysis?.instruments[0]];
    assert.ok(pickup && instrument);
    assert.equal(pickup.estimates(1e-9), pickup.estimates(1e-9));
    assert.notEqual(pickup.estimates(1e-9).resonanceHz?.value, pickup.estimates(0.3e-9).resonanceHz?.value);
    assert.equal(instrument.positions(), instrument.positions());
  });
});

describe('a name', () => {
  const spool = (name: string) => `spool ${name} {\n  wire plain-42\n}\n`;

  it('that is declared later, renamed or gone is looked up again', () => {
    const more = main((text) => text + spool('late').replace('plain-42', 'plain-43'));
    const declared = { 'parts.pickup': WIRE + WIRE.replace('42', '43') + BOBBIN };
    const files = inTurn(more, declared, { 'parts.pickup': SHOP['parts.pickup'] ?? '' });
    assert.deepEqual(files.map(codes), [['name/unknown'], [], ['name/unknown']]);
  });

  it('that nobody declares may be the nearest of all that the file sees', () => {
    const [analysis] = inTurn(main((text) => text + spool('s').replace('plain-42', 'plian-42')));
    const [finding] = analysis?.findings ?? [];
    assert.equal(finding?.code, 'name/unknown');
    assert.deepEqual(
      finding.remedies([]).map(({ title }) => title),
      ['Change to `plain-42`'],
    );
  });

  it('stands for what the nearest file declares, and for the first of two alike', () => {
    const far = WIRE.replace('0.070', '0.075');
    const gaugeOf = ([analysis]: readonly Analysis[]) =>
      analysis?.model.pickups[0]?.coils[0]?.wire?.overallDiameter?.value.si.toFixed(7);
    assert.equal(gaugeOf(inTurn({ 'bench.pickup': `${BENCH}${far}` })), '0.0000700');
    assert.equal(gaugeOf(inTurn(main((text) => text + far))), '0.0000750');
    assert.equal(gaugeOf(inTurn({ 'parts.pickup': WIRE + far + BOBBIN })), '0.0000700');
  });

  it('is told as used twice in the file that comes second, whichever file declares it first', () => {
    const [twice] = inTurn(main((text) => text + WIRE));
    assert.deepEqual(twice && codes(twice), ['name/duplicate']);
    const [here] = inTurn(main((text) => `${text}${spool('s')}${spool('s')}`));
    const text = here?.text ?? '';
    assert.deepEqual(
      here?.findings.map(({ code, place, related }) => [
        code,
        here.locate(place)?.start,
        related.map((each) => here.locate(each.place)?.start),
      ]),
      [['name/duplicate', text.lastIndexOf('spool s'), [text.indexOf('spool s')]]],
    );
  });

  it('is not called unknown while a file is missing that may declare it', () => {
    const analyser = createAnalyser();
    const files: Record<string, string> = { ...SHOP };
    const told = () => codes(analyser.analyse(`${FOLDER}main.pickup`, hostOf(files)));
    delete files['parts.pickup'];
    assert.deepEqual(told(), ['use/missing']);
    files['parts.pickup'] = '';
    assert.ok(told().every((code) => code === 'name/unknown'));
    files['parts.pickup'] = SHOP['parts.pickup'] ?? '';
    assert.deepEqual(told(), []);
  });
});

describe('files that use one another', () => {
  const graph = (uses: Readonly<Record<string, readonly string[]>>) =>
    createAnalyser().analyse(
      `${FOLDER}a.pickup`,
      hostOf(
        Object.fromEntries(
          Object.entries(uses).map(([name, used]) => [
            `${name}.pickup`,
            used.map((each) => `use "${each}.pickup"\n`).join(''),
          ]),
        ),
      ),
    );
  const names = (analysis: Analysis) => analysis.uris.map((uri) => uri.slice(FOLDER.length, -'.pickup'.length));

  it('are read once each, the nearest first', () => {
    assert.deepEqual(names(graph({ a: ['b', 'c'], b: ['d'], c: ['e', 'd'], d: [], e: ['b'] })), [
      'a',
      'b',
      'c',
      'd',
      'e',
    ]);
  });

  it('in a circle are told where the circle passes the file itself', () => {
    assert.deepEqual(codes(graph({ a: ['b'], b: ['c'], c: ['a'] })), ['use/cycle']);
    assert.deepEqual(codes(graph({ a: ['a'] })), ['use/cycle']);
    assert.match(graph({ a: ['a'] }).findings[0]?.message ?? '', /This file uses itself/);
    assert.match(graph({ a: ['b'], b: ['a'] }).findings[0]?.message ?? '', /b\.pickup uses this file/);
    assert.deepEqual(codes(graph({ a: ['b'], b: ['c'], c: ['b'] })), []);
  });

  it('that are missing, outside or cannot be read are told as that', () => {
    const told = (written: string) => {
      const host = {
        ...hostOf({ 'a.pickup': `use "${written}"\n`, 'parts.pickup': '' }),
        siblings: () => [`${FOLDER}parts.pickup`],
      };
      const { content } = host;
      return createAnalyser().analyse(`${FOLDER}a.pickup`, {
        ...host,
        content: (uri) =>
          uri.endsWith('locked.pickup') ? { kind: 'unreadable', reason: 'no right to' } : content(uri),
      });
    };
    for (const [written, code, words] of [
      ['part.pickup', 'use/missing', /There is no file part\.pickup/],
      ['locked.pickup', 'use/missing', /locked\.pickup cannot be read \(no right to\)/],
      ['../../out.pickup', 'use/outside', /leaves the workspace/],
      ['/etc/out.pickup', 'use/outside', /leaves the workspace/],
      ['http://x/y.pickup', 'use/outside', /leaves the workspace/],
      ['a\\\\b.pickup', 'use/outside', /leaves the workspace/],
      ['', 'use/outside', /leaves the workspace/],
    ] as const) {
      const [finding, ...more] = told(written).findings;
      assert.equal(finding?.code, code, written);
      assert.match(finding.message, words);
      assert.deepEqual(more, []);
    }
    const nearest = told('part.pickup');
    const [finding] = nearest.findings;
    assert.deepEqual(finding && nearest.verifiedFixes(finding).map(({ title, preferred }) => [title, preferred]), [
      ['Change to "parts.pickup"', true],
    ]);
  });

  it('lie where their path leads from the file that names it', () => {
    const from = 'file:///shop/jobs/heron.pickup';
    for (const [path, to] of [
      ['parts.pickup', 'file:///shop/jobs/parts.pickup'],
      ['../parts.pickup', 'file:///shop/parts.pickup'],
      ['./more/../parts.pickup', 'file:///shop/jobs/parts.pickup'],
      ['the parts #1?.pickup', 'file:///shop/jobs/the%20parts%20%231%3F.pickup'],
      ['50%.pickup', 'file:///shop/jobs/50%25.pickup'],
      ['/parts.pickup', undefined],
      ['c:parts.pickup', undefined],
      ['', undefined],
    ] as const)
      assert.equal(resolveUse(from, path), to, path);
  });

  it('are waited for themselves where they are not read yet', () => {
    const pendingWith = (content: { readonly kind: 'missing' } | undefined) =>
      createAnalyser().analyse(`${FOLDER}a.pickup`, { content: () => content, isInside: () => true }).pending;
    assert.deepEqual(pendingWith(undefined), [`${FOLDER}a.pickup`]);
    assert.deepEqual(pendingWith({ kind: 'missing' }), []);
  });

  it('that are not read yet are waited for, and nothing that hangs on them is told', () => {
    const files = hostOf({ 'a.pickup': 'use "b.pickup"\nspool s {\n  wire later\n}\n' });
    const host = { ...files, content: (uri: string) => (uri.endsWith('b.pickup') ? undefined : files.content(uri)) };
    const { pending, findings } = createAnalyser().analyse(`${FOLDER}a.pickup`, host);
    assert.deepEqual(pending, [`${FOLDER}b.pickup`]);
    assert.deepEqual(findings, []);
  });
});

describe('the trees of files', () => {
  it('are kept for as many files as were asked for last', () => {
    const { read, forget } = treeReader(2);
    const [a, b] = [read('a', 'wire a {\n}\n'), read('b', '')];
    assert.equal(read('a', 'wire a {\n}\n'), a);
    read('c', '');
    assert.equal(read('a', 'wire a {\n}\n'), a);
    assert.notEqual(read('b', ''), b);
    assert.equal(read('b', 'wire x {\n}\n').text, 'wire x {\n}\n');
    forget('a');
    assert.notEqual(read('a', 'wire a {\n}\n'), a);
  });
});
