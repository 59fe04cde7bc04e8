/** What is read and solved at most: at the limit nothing is said, one beyond it is told with what is left out. */
import assert from 'node:assert/strict';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { instrumentPastLimit, pickupPastLimit } from '../../server/src/analysis/limits.ts';
import { MOST_BYTES } from '../../server/src/lsp/text-limits.ts';
import { tooLargeDiagnostic } from '../../server/src/lsp/too-large.ts';
import type { Instrument, Selection } from '../../server/src/model/instrument.ts';
import { MOST_STATES } from '../../server/src/physics/switching/rig.ts';
import { analyse, EXAMPLE, hostOf } from '../support/check-fixture.ts';
import { analysedSample } from '../support/sample-files.ts';

const PICKUP = `pickup wren {
  coil main {
    turns 7_700
    start grey
    finish violet
  }
  hookup {
    hot violet
    ground grey
  }
}
`;
const many = (count: number, of: (index: number) => string) =>
  Array.from({ length: count }, (_, index) => of(index)).join('');
const told = (text: string) => {
  const found = analyse(text).findings.filter(({ code }) => code === 'analysis/incomplete');
  return found.map(
    ({ message, subject }) => `${subject.pickup ?? subject.instrument}: ${message.split(': ')[1]?.split('.')[0]}`,
  );
};
const instrument = (controls: number, selector: string) =>
  `${PICKUP}instrument juniper {
  pickup bridge wren
  controls {
${many(controls, () => '    volume 500 kohm audio\n')}  }
  selector {
${selector}  }
}
`;

describe('at most so many', () => {
  it('coils and lines of readings of a pickup', () => {
    const coils = (count: number) => `pickup row {\n${many(count, (index) => `  coil c${index} {\n  }\n`)}}\n`;
    assert.deepEqual(told(coils(48)), []);
    assert.deepEqual(told(coils(49)), ['row: 49 coils, more than the 48 that are solved']);
    // The blocks count together.
    const read = (...counts: readonly number[]) =>
      PICKUP.replace(
        /}\n$/,
        `${counts.map((count) => `  readings {\n${many(count, () => '    main 7.1 kohm\n')}  }\n`).join('')}}\n`,
      );
    // Two thousand readings are not solved for this.
    const past = (text: string) => {
      const { model } = createAnalyser().declared(EXAMPLE, hostOf({ 'example.pickup': text }));
      return model.pickups.map(pickupPastLimit);
    };
    assert.deepEqual(past(read(1000, 1000)), [undefined]);
    assert.deepEqual(past(read(1000, 1001)), ['2001 lines of readings, more than the 2000 that are solved']);
  });

  it('positions, controls and parts of an instrument', () => {
    const positions = (count: number) => many(count, (index) => `    ${index + 1} "x" bridge\n`);
    const parts = (count: number) => `    1 "x" ${Array(count).fill('bridge').join(' series ')}\n    2 "y" bridge\n`;
    assert.deepEqual(told(instrument(1, positions(200))), []);
    assert.deepEqual(told(instrument(1, positions(201))), [
      'juniper: 201 positions, more than the 200 that are solved',
    ]);
    assert.deepEqual(told(instrument(100, positions(1))), []);
    assert.deepEqual(told(instrument(101, positions(1))), ['juniper: 101 controls, more than the 100 that are solved']);
    assert.deepEqual(told(instrument(1, parts(200))), []);
    assert.deepEqual(told(instrument(1, parts(201))), [
      'juniper: 201 parts in one position, more than the 200 that are solved',
    ]);
  });

  it('lugs and terminals of an instrument together, and what its switches can stand in', () => {
    const wired = analysedSample('pennywither.pickup').model.instruments[0];
    const [part] = wired?.switches ?? [];
    const [line] = wired?.wiring?.lines ?? [];
    assert.ok(wired?.wiring && part?.part && line);
    const { lugs, detents } = part.part;
    const past = (switches: number, lines: number) =>
      instrumentPastLimit({
        ...wired,
        switches: Array(switches).fill({ ...part, part: { ...part.part, detents: detents.slice(0, 1) } }),
        wiring: { ...wired.wiring, lines: Array(lines).fill({ ...line, terminals: line.terminals.slice(0, 1) }) },
      } as Instrument);
    const room = 250 - lugs.length;
    assert.equal(past(1, room), undefined);
    assert.equal(past(1, room + 1), '251 lugs and terminals, more than the 250 that are solved');
    assert.equal(past(0, 251), '251 lugs and terminals, more than the 250 that are solved');
    const standing = (...places: readonly number[]) =>
      instrumentPastLimit({
        ...wired,
        wiring: undefined,
        switches: places.map((count) => ({
          ...part,
          part: { ...part.part, lugs: [], detents: Array(count).fill(detents[0]) },
        })),
      } as Instrument);
    assert.equal(standing(MOST_STATES), undefined);
    assert.equal(standing(MOST_STATES, 1), undefined);
    assert.match(standing(MOST_STATES / 2 + 1, 2) ?? '', new RegExp(`^${MOST_STATES + 2} states of its switches`));
  });

  it('parentheses and words in a position', () => {
    const deep = (count: number, open: string, close: string) =>
      instrument(1, `    1 "x" ${open.repeat(count)}bridge${close.repeat(count)}\n`);
    for (const [open, close] of [
      ['(', ')'],
      ['reversed ', ''],
    ] as const) {
      assert.deepEqual(told(deep(32, open, close)), [], open);
      assert.equal(told(deep(33, open, close)).length, 1, open);
    }
    // Each kind counts toward the other.
    const mixed = (words: number, parentheses: number) =>
      instrument(
        1,
        `    1 "x" ${'('.repeat(parentheses)}${'reversed '.repeat(words)}bridge${')'.repeat(parentheses)}\n`,
      );
    assert.deepEqual(told(mixed(16, 16)), []);
    assert.equal(told(mixed(17, 16)).length, 1);
    const around = instrument(1, `    1 "x" ${'reversed '.repeat(17)}${'('.repeat(16)}bridge${')'.repeat(16)}\n`);
    assert.equal(told(around).length, 1);
  });

  it('letters of a document', () => {
    const of = (length: number) =>
      tooLargeDiagnostic(TextDocument.create('file:///a.pickup', 'pickup', 1, '#'.repeat(length)));
    assert.deepEqual(of(MOST_BYTES), []);
    const [found, ...more] = of(MOST_BYTES + 1);
    assert.deepEqual(
      [found?.code, found?.message, found?.range, more],
      [
        'file/too-large',
        'This text has 5 MB; above 4 MB nothing is checked.',
        { start: { line: 0, character: 0 }, end: { line: 0, character: 1 } },
        [],
      ],
    );
  });
});

describe('a position', () => {
  const selectionOf = (text: string) => {
    const analysis = analyse(
      instrument(1, `    1 "x" ${text}\n`).replace(
        'pickup bridge wren',
        'pickup bridge wren\n  pickup neck wren\n  pickup middle wren',
      ),
    );
    const show = (node: Selection): string => {
      if ('slot' in node) return node.slot.name;
      if (node.kind === 'nets') return 'nets';
      return `${node.kind}(${(node.kind === 'reversed' ? [node.of] : node.of).map(show).join(' ')})`;
    };
    const selection = analysis.model.instruments[0]?.positions[0]?.selection;
    return selection && show(selection);
  };

  it('binds reversed tightest, then series, then parallel; parentheses group', () => {
    assert.equal(selectionOf('bridge'), 'bridge');
    assert.equal(selectionOf('bridge parallel neck series middle'), 'parallel(bridge series(neck middle))');
    assert.equal(selectionOf('bridge series neck parallel middle'), 'parallel(series(bridge neck) middle)');
    assert.equal(selectionOf('(bridge parallel neck) series middle'), 'series(parallel(bridge neck) middle)');
    assert.equal(selectionOf('bridge parallel neck parallel middle'), 'parallel(bridge neck middle)');
    assert.equal(selectionOf('reversed bridge series neck'), 'series(reversed(bridge) neck)');
    assert.equal(selectionOf('reversed (bridge series neck)'), 'reversed(series(bridge neck))');
    assert.equal(selectionOf('reversed reversed bridge'), 'reversed(reversed(bridge))');
  });

  it('has a place for each of its parts', () => {
    const written = 'reversed (bridge.main through 10 kohm series neck) parallel middle';
    const analysis = analyse(
      instrument(1, `    1 "x" ${written}\n`).replace(
        'pickup bridge wren',
        'pickup bridge wren\n  pickup neck wren\n  pickup middle wren',
      ),
    );
    const places = (node: Selection): readonly string[] => {
      const at = analysis.locate(node.place);
      const inner = 'slot' in node || node.kind === 'nets' ? [] : node.kind === 'reversed' ? [node.of] : node.of;
      return [at ? analysis.text.slice(at.start, at.end) : 'nowhere', ...inner.flatMap(places)];
    };
    const selection = analysis.model.instruments[0]?.positions[0]?.selection;
    assert.deepEqual(selection && places(selection), [
      written,
      'reversed (bridge.main through 10 kohm series neck)',
      '(bridge.main through 10 kohm series neck)',
      'bridge.main through 10 kohm',
      'neck',
      'middle',
    ]);
    const [three] = analyse(
      instrument(
        1,
        '    1 "x" (bridge series bridge series bridge)\n    2 "y" bridge parallel bridge parallel bridge\n',
      ),
    ).model.instruments;
    assert.deepEqual(
      three?.positions.map(({ selection: { place } = {} }) => place && place.span.end - place.span.start),
      ['(bridge series bridge series bridge)'.length, 'bridge parallel bridge parallel bridge'.length],
    );
  });

  it('half written says what is missing', () => {
    const wanted = (text: string) => {
      const analysis = analyse(instrument(1, `    1 "x" ${text}\n    2 "y" bridge\n`));
      const [finding] = analysis.findings;
      const at = finding && analysis.locate(finding.place);
      return `${at && analysis.text.slice(at.start, at.end)}: ${finding?.message}`;
    };
    for (const [text, words] of [
      ['bridge series', /a pickup or one of its coils/],
      ['bridge parallel series bridge', /a pickup or one of its coils/],
      ['series', /a pickup or one of its coils/],
      ['reversed', /a pickup or one of its coils/],
      ['bridge through', /resistance/],
      ['bridge bridge', /`through`.*`series`.*`parallel`|`parallel`.*`series`|fits/],
      ['(bridge', /^\(bridge.*: .*parenthes|^\(.*`\)`/],
      ['(bridge bridge)', /^bridge: .*`\)`/],
    ] as const)
      assert.match(wanted(text), words, text);
  });
});
