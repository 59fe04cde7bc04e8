import assert from 'node:assert/strict';
import { matchBlock } from '../../grammar/src/match.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { language } from '../../grammar/src/schema/index.ts';
import type { BlockNode } from '../../grammar/src/syntax-tree.ts';
import { applyFix, problemsOf } from '../support/language-problems.ts';
import { readMarks, writeMarks } from '../support/marked-text.ts';

/** The findings are those marked, no more, at their places. */
function findings(marked: string): void {
  const { text } = readMarks(marked);
  assert.equal(writeMarks(text, problemsOf(text)), marked);
}

const blockOf = (text: string): BlockNode => {
  const content = readFileTree(text).chunks[0]?.chunk.content;
  assert.ok(content?.kind === 'block');
  return content;
};

const coilFacts = (line: string) => matchBlock(blockOf(`coil a {\n  ${line}\n}`), language.coil).facts;
const wireFacts = (line: string) => matchBlock(blockOf(`wire a {\n  ${line}\n}`), language.wire).facts;
const controlFacts = (line: string) => matchBlock(blockOf(`controls {\n  ${line}\n}`), language.controls).facts;
const bobbinFacts = (line: string) => matchBlock(blockOf(`bobbin a {\n  ${line}\n}`), language.bobbin).facts;

describe('facts by their shapes', () => {
  it('marks a unit that is missing, of another dimension, unknown or misspelt', () => {
    findings(`wire a {
  gauge 42 mm
           ^^ unit/wrong
  overall 0.07
          ^^^^ unit/missing
}
spool b {
  wire a
  left 310 Grams
           ^^^^^ unit/wrong
  note "x"
  measures 5.52 kohm
                ^^^^ unit/wrong
}
instrument c {
  scale 648 paces
            ^^^^^ unit/wrong
  input 1Megohm
         ^^^^^^ unit/wrong
}`);
  });

  it('offers the likely unit, and the only one there is', () => {
    const text = 'wire a {\n  gauge 42 mm\n  overall 0.07\n}';
    const [wrong, missing] = problemsOf(text);
    assert.equal(applyFix(text, wrong), text.replace('42 mm', '42 AWG'));
    assert.equal(applyFix(text, missing), text.replace('0.07', '0.07 mm'));
    assert.equal(missing?.message, 'A length needs its unit: `0.07 mm` is the likely one.');
    const spelled = 'instrument c {\n  input 1 MOHM\n}';
    assert.equal(applyFix(spelled, problemsOf(spelled)[0]), spelled.replace('MOHM', 'Mohm'));
    const counted = 'pickup p {\n  strings 6 mm\n}';
    assert.equal(applyFix(counted, problemsOf(counted)[0]), counted.replace(' mm', ''));
  });

  it('marks values out of range, and guesses at a shifted point', () => {
    findings(`pickup p {
  strings 0
          ^ value/range
  made 2026-02-30
       ^^^^^^^^^^ value/range
  coil a {
    turns 4900.5
          ^^^^^^ value/range
    packing 6.6
            ^^^ value/range
    serves strings 0 to 3
                   ^ value/range
  }
  potting {
    wax paraffin 130 % beeswax 20 %
                 ^^^ value/range
    soak -5 min
         ^^ value/range
  }
}
bobbin b {
  core 0 x 5.2 mm
       ^ value/range
}
instrument i {
  controls {
    volume 0 ohm
           ^ value/range
  }
}`);
    const [packing] = problemsOf('pickup p {\n  coil a {\n    packing 6.6\n  }\n}');
    assert.equal(packing?.message, '6.6 cannot be: the value lies above 0 and below 0.907.');
    assert.equal(packing?.action, 'Look whether 0.66 was meant.');
    const [room] = problemsOf('bench {\n  room -300 degC\n}');
    assert.equal(room?.message, 'Nothing is colder than -273.15 degC.');
    const [left] = problemsOf('spool s {\n  left 5 g ± 2k\n}');
    assert.equal(left?.message, 'The uncertainty takes a unit of mass, or `%`.');
    const [made] = problemsOf('pickup p {\n  made 2026-02-30\n}');
    assert.equal(made?.message, 'February 2026 has 28 days.');
    assert.deepEqual(problemsOf('pickup p {\n  made 2024-02-29\n}'), []);
  });

  it('marks where a line stops short, and what does not fit', () => {
    findings(`pickup p {
  magnet bar-5 north toward
  ^^^^^^^^^^^^^^^^^^^^^^^^^ syntax/incomplete
  coils 18.5 mm
  ^^^^^^^^^^^^^ syntax/incomplete
  coil a {
    wound anticlockwise
          ^^^^^^^^^^^^^ syntax/unknown-word
    start to
    ^^^^^^^^ syntax/incomplete
    tap 4_000 turns orange grey
                           ^^^^ syntax/unexpected
  }
  readings {
    hot two ground 7 kohm
        ^^^ syntax/unknown-word
    kick hot to slug. approach positive
                ^^^^^ syntax/incomplete
  }
  note unquoted
       ^^^^^^^^ syntax/unexpected
}
bobbin b {
  window 11.0 x x 5.2 mm
                ^ syntax/unexpected
  core 58 mm
  ^^^^^^^^^^ syntax/incomplete
}`);
    const text = 'pickup p {\n  note unquoted\n}';
    assert.equal(applyFix(text, problemsOf(text)[0]), 'pickup p {\n  note "unquoted"\n}');
  });

  it('says what is missing in words', () => {
    const messageOf = (line: string) => problemsOf(`pickup p {\n  ${line}\n}`)[0]?.message;
    assert.equal(
      messageOf('magnet bar-5 north toward'),
      '`magnet bar-5 north toward` stops short: the name of a coil is missing.',
    );
    assert.equal(messageOf('coils 18.5 mm'), '`coils 18.5 mm` stops short: `apart` is missing.');
    assert.equal(messageOf('shield'), '`shield` stops short: the name of a lead is missing.');
  });

  it('names the word that a mistyped one is nearest to, or the block that a word belongs to', () => {
    const text = 'pickup p {\n  coil a {\n    turnz 7_700\n    mains 50 Hz\n  }\n}';
    const [turnz, mains] = problemsOf(text);
    assert.equal(turnz?.code, 'syntax/unknown-word');
    assert.equal(applyFix(text, turnz), text.replace('turnz', 'turns'));
    assert.equal(mains?.message, '`mains` is no fact of a `coil`: it belongs in `bench`.');
  });

  it('counts a line that it could not read as stated, so that nothing is said to be missing', () => {
    const read = (line: string) => matchBlock(blockOf(`coil a {\n  ${line}\n}`), language.coil);
    assert.deepEqual(read('turnz many').broken, ['turns']);
    // What is plainly meant is read, beside its finding.
    assert.equal(read('turnz 7_700').facts.turns[0]?.value.value.value, 7700);
    assert.deepEqual(read('turns many').broken, ['turns']);
    assert.deepEqual(read('turns many').facts.turns, []);
    assert.deepEqual(read('turns 7_700').broken, []);
  });

  it('marks a single fact that is stated twice, also by an alternative; the first counts', () => {
    findings(`wire a {
  gauge 42 AWG
  gauge 43 AWG
  ^^^^^^^^^^^^ name/duplicate
  diameter 0.0635 mm
  ^^^^^^^^^^^^^^^^^^ name/duplicate
}`);
    const text = 'wire a {\n  gauge 42 AWG # first\n  gauge 43 AWG\n}\n';
    const [problem] = problemsOf(text);
    assert.deepEqual(
      problem?.related?.map(({ span }) => text.slice(span.start, span.end)),
      ['gauge 42 AWG'],
    );
    assert.equal(applyFix(text, problem, 0), 'wire a {\n  gauge 42 AWG # first\n}\n');
    assert.equal(applyFix(text, problem, 1), 'wire a {\n   # first\n  gauge 43 AWG\n}\n');
    assert.equal(wireFacts('gauge 42 AWG\n  gauge 43 AWG').gauge[0]?.value.value.value, 42);
  });

  it('lets facts that repeat stand several times', () => {
    assert.deepEqual(
      problemsOf('pickup p {\n  note "a"\n  note "b"\n  coil c {\n    tap 1 a\n    tap 2 b\n  }\n}'),
      [],
    );
  });

  it('reads IEC 60062 codes as resistance and capacitance (4k7: 4.7 kohm, 22n: 22 nF, p82: 0.82 pF)', () => {
    const volume = (code: string) => {
      const read = controlFacts(`volume ${code}`).volume[0]?.value;
      return read?.option === 'volume' ? read.value.value.value : undefined;
    };
    const capacitor = (code: string) => {
      const read = controlFacts(`bleed ${code}`).bleed[0]?.value;
      return read?.option === 'bleed' ? read.value.capacitor.value : undefined;
    };
    const brief = (read: { value: number; unit: string | undefined; code: boolean } | undefined) =>
      read && [read.value, read.unit, read.code];
    assert.deepEqual(brief(volume('4k7')), [4.7, 'k', true]);
    assert.deepEqual(brief(volume('500k')), [500, 'k', true]);
    assert.deepEqual(brief(volume('2M2')), [2.2, 'M', true]);
    assert.deepEqual(brief(volume('1M0')), [1, 'M', true]);
    assert.deepEqual(brief(volume('4R7')), [4.7, 'R', true]);
    assert.deepEqual(brief(capacitor('22n')), [22, 'n', true]);
    assert.deepEqual(brief(capacitor('1u5')), [1.5, 'u', true]);
    assert.deepEqual(brief(capacitor('1µ5')), [1.5, 'u', true]);
    assert.deepEqual(brief(capacitor('p82')), [0.82, 'p', true]);
    assert.deepEqual(brief(volume('250kohm')), [250, 'kohm', false]);
    findings(`controls {
^^^^^^^^ syntax/unexpected
  volume 22n
         ^^^ unit/wrong
}`);
  });

  it('reads a unit that looks like a code as what it is where a length or a temperature stands', () => {
    assert.deepEqual(wireFacts('overall 5m').overallDiameter[0]?.value.value.unit, 'm');
    const room = matchBlock(blockOf('bench {\n  room 294K\n}'), language.bench).facts.room[0];
    assert.deepEqual([room?.value.value.value, room?.value.value.unit], [294, 'K']);
  });

  it('keeps number, unit, uncertainty, decimals and text as written', () => {
    const read = (line: string) => wireFacts(`overall ${line}`).overallDiameter[0]?.value.value;
    assert.deepEqual(read('0.070mm  ±  5 %'), {
      dimension: 'length',
      value: 0.07,
      unit: 'mm',
      code: false,
      uncertainty: { value: 5, unit: '%' },
      text: '0.070mm ± 5 %',
      decimals: 3,
    });
    assert.deepEqual(read('0.07 +- 0.002 mm')?.uncertainty, { value: 0.002, unit: undefined });
    assert.equal(read('0.07 +- 0.002 mm')?.unit, 'mm');
    assert.deepEqual(read('0.07 mm ± 2 um')?.uncertainty, { value: 2, unit: 'um' });
    assert.deepEqual(coilFacts('turns 8_200 ± 20').turns[0]?.value.value.uncertainty, { value: 20, unit: undefined });
  });

  it('lets the unit at the end of a size serve every part that has none', () => {
    for (const written of ['58.0 x 5.2 mm', '58.0x5.2mm', '58.0 × 5.2 mm']) {
      const core = bobbinFacts(`core ${written}`).core[0]?.value.size;
      assert.deepEqual([core?.length.value.value, core?.length.value.unit], [58, 'mm']);
      assert.deepEqual([core?.width.value.value, core?.width.value.unit], [5.2, 'mm']);
    }
    const mixed = bobbinFacts('core 2.3 in x 5.2 mm').core[0]?.value.size;
    assert.deepEqual([mixed?.length.value.unit, mixed?.width.value.unit], ['in', 'mm']);
    assert.equal(mixed?.length.value.text, '2.3 in');
  });

  it('prefers a word of the language to a name, and still lets words be names', () => {
    const start = coilFacts('start to pink').start[0]?.value;
    assert.equal(start?.option, 'soldered');
    assert.ok(start.option === 'soldered');
    assert.equal(start.value.lead, undefined);
    assert.equal(start.value.onto.value.text, 'pink');
    assert.deepEqual(problemsOf('pickup p {\n  coil coil {\n    start wire to coil\n  }\n}'), []);
    assert.deepEqual(
      problemsOf('pickup p {\n  readings {\n    position to ground 5 kohm\n    kick 3 kohm\n  }\n}'),
      [],
    );
  });

  it('binds reversed and through tighter than series, and series tighter than parallel', () => {
    const block = blockOf('selector {\n  1 a parallel reversed b series (c parallel d.e through 4k7), on purpose\n}');
    const [position] = matchBlock(block, language.selector).facts.position;
    const draw = (node: NonNullable<typeof position>['value']['selection']['value']): string => {
      if (node.kind === 'part') return node.path.text + (node.through ? ` through ${node.through.value.text}` : '');
      if (node.kind === 'reversed') return `reversed(${draw(node.of)})`;
      return `${node.kind}(${node.of.map(draw).join(', ')})`;
    };
    assert.ok(position);
    const { selection, onPurpose } = position.value;
    assert.equal(draw(selection.value), 'parallel(a, series(reversed(b), parallel(c, d.e through 4k7)))');
    assert.ok(onPurpose);
  });

  it('reads a thousand parentheses, or as many words reversed, as one finding', () => {
    for (const part of [`${'('.repeat(1000)}a${')'.repeat(1000)}`, `${'reversed '.repeat(1000)}a`]) {
      const problems = problemsOf(`instrument i {\n  selector {\n    1 ${part}\n  }\n}`);
      assert.deepEqual(
        problems.map(({ code }) => code),
        ['analysis/incomplete'],
      );
    }
  });

  it('takes names such as __proto__ for what they are', () => {
    findings(`wire __proto__ {
     ^^^^^^^^^ syntax/unexpected
  gauge 42 AWG
}
constructor prototype {
^^^^^^^^^^^ syntax/unknown-word
  toString 3
}
wire hasOwnProperty {
  __proto__ 1
  ^^^^^^^^^ syntax/unknown-word
  valueOf 2
  ^^^^^^^ syntax/unknown-word
}`);
    const head = matchBlock(blockOf('wire constructor {\n}'), language.wire).head;
    assert.equal(head?.name.value, 'constructor');
  });

  it('yields plain data that does not depend on where the block stands', () => {
    const text = 'wire a {\n  gauge 42 AWG\n  overall 0.07 mm ± 5 %\n}\n';
    const alone = matchBlock(blockOf(text), language.wire);
    const second = readFileTree(`# before\nspool s {\n}\n${text}`).chunks[1]?.chunk.content;
    assert.ok(second?.kind === 'block');
    assert.equal(JSON.stringify(matchBlock(second, language.wire)), JSON.stringify(alone));
  });
});
