import assert from 'node:assert/strict';
import { readFileTree, readingFileTree } from '../../grammar/src/read-file.ts';
import { firstForm } from '../../grammar/src/same-but-for-spaces.ts';
import type { Chunk } from '../../grammar/src/syntax-tree.ts';
import { applyFix, problemsOf } from '../support/language-problems.ts';
import { readMarks, writeMarks } from '../support/marked-text.ts';

/** The findings are those marked, no more, at their places. */
function findings(marked: string): void {
  const { text } = readMarks(marked);
  assert.equal(writeMarks(text, problemsOf(text)), marked);
}

const chunksOf = (text: string): readonly Chunk[] => readFileTree(text).chunks.map(({ chunk }) => chunk);

/** What each piece of a file is. */
const outline = (text: string): readonly string[] =>
  chunksOf(text).map(({ content }) => {
    if (content?.kind !== 'block') return content?.kind ?? 'nothing';
    return [content.keyword.text, ...content.head.map((item) => item.text)].join(' ');
  });

describe('reading a file', () => {
  it('cuts it into its top-level pieces, comments with what follows them', () => {
    const text = '# shop\nuse "a.pickup"\n\n# wires\nwire a {\n} # done\nwire b {\n}\n# end\n';
    assert.deepEqual(outline(text), ['use', 'wire a', 'wire b', 'nothing']);
    assert.deepEqual(
      chunksOf(text).map((chunk) => chunk.comments.map((comment) => comment.text)),
      [['# shop'], ['# wires', '# done'], [], ['# end']],
    );
  });

  it('reads blocks that share a line', () => {
    assert.deepEqual(outline('wire a { gauge 42 AWG } wire b { gauge 43 AWG; overall 0.06 mm }'), ['wire a', 'wire b']);
    assert.deepEqual(problemsOf('wire a { gauge 42 AWG } wire b { gauge 43 AWG; overall 0.06 mm }'), []);
  });

  it('lets a block word at a line start that the open block cannot hold begin a new block', () => {
    const text = 'bobbin own-six {\n  core 60.0 x 5.8 mm\n\nwire after-it {\n  gauge 42 AWG\n}\n';
    assert.deepEqual(outline(text), ['bobbin own-six', 'wire after-it']);
    findings(`bobbin own-six {
^^^^^^^^^^^^^^^^ syntax/unclosed
  core 60.0 x 5.8 mm

wire after-it {
  gauge 42 AWG
}
`);
    assert.equal(
      applyFix(text, problemsOf(text)[0]),
      'bobbin own-six {\n  core 60.0 x 5.8 mm\n}\n\nwire after-it {\n  gauge 42 AWG\n}\n',
    );
  });

  it('closes an inner block in the same way, so that the rest of the pickup is still read', () => {
    findings(`pickup p {
  coil a {
  ^^^^^^^^ syntax/unclosed
    turns 5_000
  coil b {
    turns 5_000
  }
  hookup {
    hot grey
  }
}
wire w {
}
`);
  });

  it('does not take a fact for a block: a wire in a spool, a magnet in a pickup', () => {
    assert.deepEqual(outline('spool s {\n  wire a\n}\npickup p {\n  magnet m north toward a\n  coil a {\n  }\n}'), [
      'spool s',
      'pickup p',
    ]);
  });

  it('marks a missing opening brace, and still reads the block', () => {
    findings(`wire a
^^^^^^ syntax/incomplete
  gauge 42 AWG
}
wire b
^^^^^^ syntax/incomplete
`);
    assert.equal(applyFix('wire b\n', problemsOf('wire b\n')[0]), 'wire b {\n}\n');
    findings(`wire c
{
^ syntax/unexpected
  gauge 42 AWG
}`);
    assert.equal(applyFix('wire c\n{\n}', problemsOf('wire c\n{\n}')[0]), 'wire c {\n}');
  });

  it('marks an inner block without its opening brace once, whether its facts follow or not', () => {
    findings(`pickup p {
  coil screw
  ^^^^^^^^^^ syntax/incomplete
    turns 5_000
  }
  hookup {
    hot a
  }
}
pickup q {
  coil slug   # half typed
  ^^^^^^^^^ syntax/incomplete
  hookup {
    hot a
  }
}
wire w {
}
`);
  });

  it('marks braces that close nothing once for a run of them, and what stands outside of blocks', () => {
    findings(`wire a {
}}}}
 ^ syntax/unexpected
gauge 42 AWG
^^^^^ syntax/unexpected
`);
  });

  it('marks blocks that may not stand where they do, and names of blocks that are mistyped', () => {
    findings(`coil a {
^^^^ syntax/unexpected
}
pikcup p {
^^^^^^ syntax/unknown-word
  coil a {
  }
}
pickup q {
  selector {
  ^^^^^^^^ syntax/unexpected
  }
}
`);
    assert.equal(applyFix('pikcup p {\n}', problemsOf('pikcup p {\n}')[0]), 'pickup p {\n}');
  });

  it('ends a text without its closing quote at the line end', () => {
    const text = 'pickup p {\n  note "open # no comment  \n  strings 6\n}';
    findings(`pickup p {
  note "open # no comment
       ^^^^^^^^^^^^^^^^^^ syntax/unclosed
  strings 6
}`);
    assert.equal(applyFix(text, problemsOf(text)[0]), 'pickup p {\n  note "open # no comment"\n  strings 6\n}');
    assert.deepEqual(problemsOf(String.raw`pickup p { note "a \" quote and a \\" }`), []);
  });

  it('lets a line go on in a parenthesis, behind a comma and behind series, parallel, reversed, but not into what follows', () => {
    assert.deepEqual(
      problemsOf(`instrument i {
  strings 6 spread 52 mm at bridge,
    35 mm at nut
  selector {
    1 "a" (a series
      b) parallel   # a comment between
      reversed
      c
  }
}`),
      [],
    );
    findings(`instrument i {
  selector {
    1 "a" (a series b
          ^ syntax/unclosed
    2 "b" a parallel
    ^^^^^^^^^^^^^^^^ syntax/incomplete
    3 "c" c
  }
}`);
  });

  it('marks numbers that are not written as numbers are', () => {
    findings(`bobbin b {
  core 60,0 x 5.8 mm
       ^^^^ syntax/number
  poles 6 spread .5 mm
                 ^^ syntax/number
  window 7. x 1.2.3 mm
         ^^ syntax/number
              ^^^^^ syntax/number
}
pickup p {
  made 2026-2-3
       ^^^^^^^^ syntax/number
  coil c {
    turns 5,000
          ^^^^^ syntax/number
    counted 5__000
            ^^^^^^ syntax/number
  }
}`);
    const fixes = (line: string, choice = 0) => {
      const text = `pickup p {\n  ${line}\n}`;
      return applyFix(text, problemsOf(text)[0], choice).split('\n')[1]?.trim();
    };
    assert.equal(fixes('strings 60,0'), 'strings 60');
    assert.equal(fixes('strings 5,000'), 'strings 5_000');
    assert.equal(fixes('strings 5,000', 1), 'strings 5');
    assert.equal(fixes('made 2026-2-3'), 'made 2026-02-03');
  });

  it('tells digits without end as one number that is too large', () => {
    findings(`pickup p {
  strings ${'9'.repeat(400)}
          ${'^'.repeat(400)} syntax/number
}`);
  });

  it('reads every kind of line end and skips a byte order mark', () => {
    const lines = ['wire a {', '  gauge 42 AWG # c', '}', ''];
    for (const end of ['\n', '\r\n', '\r']) {
      const text = `\uFEFF${lines.join(end)}`;
      assert.deepEqual(problemsOf(text), []);
      const [placed] = readFileTree(text).chunks;
      assert.equal(placed?.offset, 1);
      assert.equal(placed.chunk.comments[0]?.text, '# c');
    }
  });

  it('reads names of any script and refuses control characters, lone surrogates and marks alone', () => {
    assert.deepEqual(problemsOf('wire дрот-42_é {\n}\nspool 线𝒜 {\n  wire дрот-42_é\n}'), []);
    findings('wire a {\n  gauge 42 \u0000\u0007AWG\n           ^^ syntax/unexpected\n}');
    findings('wire a {\n  gauge 42 AWG \uD83D\n               ^ syntax/unexpected\n}');
  });

  it('refuses to go deeper than any spec needs, with one finding', () => {
    for (const depth of [40, 10_000, 100_000]) {
      const balanced = problemsOf(`${'{'.repeat(depth)}${'}'.repeat(depth)}`);
      assert.deepEqual([...new Set(balanced.map(({ code }) => code))].sort(), [
        'analysis/incomplete',
        'syntax/unexpected',
      ]);
      assert.ok(balanced.length <= 40);
      assert.ok(problemsOf('pickup p {'.repeat(depth)).length > 0);
    }
  });

  it('always has a piece, even of an empty file', () => {
    assert.deepEqual(outline(''), ['nothing']);
  });
});

describe('reading a file again', () => {
  const text = '# a\nwire a {\n  gauge 42 AWG\n}\nwire b {\n  gauge 43 AWG\n}\nwire a {\n  gauge 42 AWG\n}\n';

  it('keeps the piece objects whose text is unchanged, also when they move', () => {
    const before = readFileTree(text);
    const after = readFileTree(text.replace('43', '44'), before);
    assert.equal(after.chunks[0]?.chunk, before.chunks[0]?.chunk);
    assert.notEqual(after.chunks[1]?.chunk, before.chunks[1]?.chunk);
    assert.equal(after.chunks[2]?.chunk, before.chunks[2]?.chunk);
    const moved = readFileTree(`use "x"\n${text}`, before);
    assert.equal(moved.chunks[2]?.chunk, before.chunks[1]?.chunk);
  });

  it('uses each old object once, so that equal blocks stay apart', () => {
    const block = 'wire a {\n}\n';
    const before = readFileTree(block.repeat(2));
    const after = readFileTree(block.repeat(3), before);
    assert.equal(new Set(after.chunks.map(({ chunk }) => chunk)).size, 3);
    assert.equal(after.chunks[0]?.chunk, before.chunks[0]?.chunk);
    assert.equal(after.chunks[1]?.chunk, before.chunks[1]?.chunk);
  });

  it('uses none twice, where one that stands behind is written in front as well', () => {
    const [a, b] = ['wire a {\n}\n', 'wire b {\n}\n'];
    const after = readFileTree(b + a + b, readFileTree(a + b));
    assert.equal(new Set(after.chunks.map(({ chunk }) => chunk)).size, 3);
  });

  it('takes equal blocks that are left out, or come, for those that stood there', () => {
    for (const [was, is] of [
      ['aaa', 'a'],
      ['aaab', 'ab'],
      ['baaa', 'ba'],
      ['ab', 'aaab'],
      ['abab', 'ab'],
      ['a', 'aa'],
      ['aba', 'aa'],
    ] as const) {
      const written = (names: string) => [...names].map((name) => `wire ${name} {\n}\n`).join('');
      const [before, text] = [written(was), written(is)];
      const after = readFileTree(text, readFileTree(before));
      assert.deepEqual(after, readFileTree(text), `${was} to ${is}`);
      assert.equal(new Set(after.chunks.map(({ chunk }) => chunk)).size, is.length);
    }
  });

  it('knows the first form of a piece in which spaces came; of more pieces than there were, of none', () => {
    const before = readFileTree(text);
    const spaced = readFileTree(text.replace('gauge 43', 'gauge  43'), before).chunks[1]?.chunk;
    assert.ok(spaced);
    assert.equal(firstForm(spaced), before.chunks[1]?.chunk);
    const two = 'wire b {\n  gauge  43 AWG\n}\nwire c {\n}\n';
    const parted = readFileTree(text.replace('wire b {\n  gauge 43 AWG\n}\n', two), before).chunks[1]?.chunk;
    assert.ok(parted);
    assert.equal(firstForm(parted), parted);
  });

  it('tells of a text that is new after 2,048 characters, then after each 16,384, and never of all of it', () => {
    const piece = `wire w {\n  note "${'x'.repeat(1024 - 21)}"\n}\n`;
    assert.equal(piece.length, 1024);
    const told = (text: string, previous?: string) =>
      [...readingFileTree(text, previous === undefined ? undefined : readFileTree(previous))].map(
        (part) => part?.text.length,
      );
    const lengths = (pieces: number) => told(piece.repeat(pieces)).flatMap((length) => length ?? []);
    assert.deepEqual(lengths(2), []);
    assert.deepEqual(lengths(3), [2048]);
    assert.deepEqual(lengths(40), [2048, 2048 + 16_384, 2048 + 2 * 16_384]);
    assert.deepEqual(lengths(18), [2048]);
    // Behind what is read stands what stood there: it is not for anybody to go on from.
    const changed = `wire v {\n}\n${piece.repeat(4)}`;
    assert.deepEqual(
      told(`${changed}${piece}`, piece).flatMap((length) => length ?? []),
      [],
    );
  });

  it('goes on where it was left, with what was read', () => {
    const long = Array.from({ length: 2000 }, (_, index) => `wire w${index} {\n  gauge 42 AWG\n}\n`).join('');
    const parts = [...readingFileTree(long)].flatMap((part) => part ?? []);
    assert.ok(parts.length >= 3);
    for (const part of parts) {
      assert.ok(long.startsWith(part.text));
      const whole = readFileTree(long, part);
      assert.deepEqual(whole, readFileTree(long));
      // Where the last piece ends rests on the line behind it.
      for (const [index, { chunk }] of part.chunks.slice(0, -1).entries())
        assert.equal(whole.chunks[index]?.chunk, chunk);
    }
  });

  it('gives back the same tree for the same text', () => {
    const tree = readFileTree(text);
    assert.equal(readFileTree(text, tree), tree);
  });
});
