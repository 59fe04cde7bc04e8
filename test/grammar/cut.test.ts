import assert from 'node:assert/strict';
import { cut } from '../../grammar/src/cut.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import type { FileTree } from '../../grammar/src/syntax-tree.ts';
import { chance } from '../support/chance.ts';

/** Written one behind the other, these are the pieces that the text is cut into. */
function isCutInto(...pieces: readonly string[]): void {
  const text = pieces.join('');
  const starts = cut(text);
  assert.deepEqual(
    starts.map((start, index) => text.slice(start, starts[index + 1])),
    pieces,
  );
}

describe('cutting a file into its pieces', () => {
  it('puts comments and empty lines before what they stand over, a comment behind a brace with its block', () => {
    isCutInto('# shop\n\nwire a {\n} # done\n', '\n# the other\nwire b {\n}\n', '# end\n');
    isCutInto('wire a {\n}\n', '  ');
    isCutInto('// shop\nwire a {\n} // done\n', '// the other\nwire b {\n}');
  });

  it('goes by braces on one line as it does on many', () => {
    isCutInto('wire a { gauge 42 AWG } ', 'wire b { gauge 43 AWG } ', 'use "a"\n', 'wire c { }\n');
    isCutInto('wire a {\n} } }\n', 'wire b {\n}\n');
    isCutInto('wire a { note "} wire b {" }\n', 'wire c {\n}\n');
  });

  it('ends `use` with its line, but not inside a block', () => {
    isCutInto('use "a.pickup"\n', 'use "b.pickup"\n', 'stray\n');
    isCutInto('pickup p {\n  use "a.pickup"\n  strings 6\n}\n', 'stray\n');
    isCutInto('pickup p {\n', 'use "a.pickup"\n', 'wire a {\n}\n');
  });

  it('knows every line end', () => {
    for (const end of ['\n', '\r\n', '\r'])
      isCutInto(`wire a {${end}}${end}`, `wire b {${end}}${end}`, `use "a"${end}`, `use "b"${end}`);
    isCutInto('wire a {\r}\r', '\r\nwire b {\r}\r\n', '\n# end');
  });

  it('lets a block that a forgotten brace left open end where one begins that it cannot hold', () => {
    isCutInto('pickup p {\n  coil a {\n    turns 5_000\n', 'wire w {\n}\n', 'stray\n');
    isCutInto('pickup p {\n  coil a {\n  coil b {\n  }\n}\n', 'stray\n');
    isCutInto('pickup p {\n  thing a {\n  coil b {\n  }\n}\n}\n', 'stray\n');
  });

  it('takes a word of a block at the margin for one, an indented one only with its brace', () => {
    isCutInto('wire a\n', 'wire b\n', 'wire c {\n}\n');
    isCutInto('gauge 42 AWG\n  wire b\n');
    isCutInto('gauge 42 AWG\n', '  wire b {\n  }\n');
    isCutInto('spool s {\n  wire a; thing {\n  }\n}\n', 'stray\n');
    isCutInto('spool s {\n', '  wire a {\n  }\n', '}\n', 'stray\n');
  });

  it('opens a block whose brace is missing, where deeper lines follow and the outer block can hold it', () => {
    isCutInto('pickup p {\n  coil a\n    turns 5_000\n  }\n}\n', 'stray\n');
    isCutInto('pickup p {\n  note "x"\n    strings 6\n}\n', 'stray\n');
    isCutInto('pickup p {\n  coil a\n  strings 6\n}\n', 'stray\n');
    isCutInto('wire w {\n  coil a\n    turns 5_000\n}\n', 'stray\n');
    isCutInto('stray\n  coil a\n    turns 5_000\n}\n', 'stray\n');
    isCutInto('coil a\n  turns 5_000\n', 'wire b\n');
  });

  it('names a block by the first word behind the last brace or semicolon, or of the line above its brace', () => {
    isCutInto('pickup p { strings 6; coil a {\n  coil b {\n  }\n}\n', 'stray\n');
    isCutInto('pickup p { coil a { turns 5 } coil b {\n  coil c {\n  }\n}\n', 'stray\n');
    isCutInto('pickup p { } ', 'pickup q { coil "a" b {\n  coil c {\n  }\n}\n', 'stray\n');
    isCutInto('wire w\n{\n  coil a\n    turns 5_000\n}\n', 'stray\n');
    isCutInto('wire w {\n}\n', '{\n  coil a\n    turns 5_000\n  }\n}\n', 'stray\n');
  });

  it('skips every kind of space at the begin of a line', () => {
    for (const space of [' ', '\t', '\v', '\f', '\u00a0', '\u3000'])
      isCutInto(`pickup p {\n  coil a {\n${space}coil b {\n  }\n}\n`, 'stray\n');
  });

  it('begins anywhere, and stops at a piece that is known', () => {
    const text = 'wire a {\n}\nwire b {\n}\nwire c {\n}\n';
    const [, b = 0, c = 0] = cut(text);
    assert.deepEqual(cut(text, b), [b, c]);
    assert.deepEqual(
      cut(text, 0, (start) => start === b),
      [0, b],
    );
    assert.deepEqual(cut(''), [0]);
    assert.deepEqual(cut('  \n# only this'), [0]);
  });
});

const LINES = [
  'wire a {\n',
  '  gauge 42 AWG\n',
  '}\n',
  'wire b { gauge 43 AWG } wire c {\n',
  'use "a"\n',
  'pickup p {\n  coil a {\n  }\n',
  '  hookup {\r\n',
  '# a comment\n',
  '"open {\n',
  'bobbin x\n',
  '\n',
  '{',
  '}',
] as const;

/** A line more, a line less, a letter less, a letter changed, a piece twice, all of it moved. */
function edited(text: string, { whole, pick }: ReturnType<typeof chance>): string {
  const at = whole(text.length + 1);
  const line = text.lastIndexOf('\n', at) + 1;
  const next = text.indexOf('\n', at) + 1 || text.length;
  switch (whole(7)) {
    case 0:
      return text.slice(0, line) + text.slice(next);
    case 1:
      return text.slice(0, at) + text.slice(at + 1);
    case 2:
      return text.slice(0, next) + text.slice(line);
    case 3:
      return text.slice(0, at) + pick(['x', '}', ' ', '\n']) + text.slice(at + 1);
    case 4:
      return text.startsWith('\uFEFF') ? text.slice(1) : `\uFEFF${text}`;
    default:
      return text.slice(0, line) + pick(LINES) + text.slice(line);
  }
}

const countsOf = (all: readonly string[]): ReadonlyMap<string, number> =>
  all.reduce((counts, each) => counts.set(each, (counts.get(each) ?? 0) + 1), new Map<string, number>());

const textsOf = ({ chunks }: FileTree): readonly string[] => chunks.map(({ chunk }) => chunk.text);

describe('reading a file after each of 3,000 edits', () => {
  it('cuts it as afresh, and keeps every piece that stands in it still, each once and in order (seed 7)', () => {
    const random = chance(7);
    let text = 'wire a {\n  gauge 42 AWG\n}\n'.repeat(3);
    let tree = readFileTree(text);
    for (let step = 0; step < 3000; step++) {
      const before = tree;
      text = text.length > 900 ? text.slice(0, 200) : edited(text, random);
      tree = readFileTree(text, before);
      const mark = text.startsWith('\uFEFF') ? 1 : 0;
      assert.deepEqual(
        tree.chunks.map(({ offset }) => offset),
        cut(text, mark),
        JSON.stringify([before.text, text]),
      );
      assert.equal('\uFEFF'.repeat(mark) + textsOf(tree).join(''), text);
      const places = tree.chunks.map(({ chunk }) => before.chunks.findIndex((old) => old.chunk === chunk));
      const kept = places.filter((place) => place >= 0);
      const [was, is] = [countsOf(textsOf(before)), countsOf(textsOf(tree))];
      const still = [...is].reduce((sum, [piece, count]) => sum + Math.min(count, was.get(piece) ?? 0), 0);
      assert.equal(kept.length, still, JSON.stringify([before.text, text]));
      assert.equal(new Set(kept).size, kept.length);
      for (const piece of is.keys()) {
        const order = places.filter((place, index) => place >= 0 && tree.chunks[index]?.chunk.text === piece);
        assert.deepEqual(
          order,
          [...order].sort((a, b) => a - b),
        );
      }
    }
  });
});

/** How often a character is looked at while that is done. */
function looksDuring(run: () => void): number {
  const { charCodeAt } = String.prototype;
  let looks = 0;
  String.prototype.charCodeAt = function (at) {
    looks++;
    return charCodeAt.call(this, at);
  };
  try {
    run();
  } finally {
    String.prototype.charCodeAt = charCodeAt;
  }
  return looks;
}

describe('reading a long file again', () => {
  const text = Array.from({ length: 300 }, (_, index) => `wire w${index} {\n  gauge 42 AWG\n}\n`).join('');
  const tree = readFileTree(text);

  it('looks at what lies near the edit, wherever that is, and compares the rest', () => {
    const afresh = looksDuring(() => readFileTree(text));
    for (const name of ['w0', 'w1', 'w150', 'w298', 'w299'])
      for (const other of ['x', name.replace('w', 'y'), 'a-longer-name']) {
        const edited = text.replace(`wire ${name} {`, `wire ${other} {`);
        const looks = looksDuring(() => readFileTree(edited, tree));
        assert.ok(looks < afresh / 20, `${name} as ${other}: ${looks} of ${afresh}`);
      }
  });
});
