import assert from 'node:assert/strict';
import fc from 'fast-check';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { schemas } from '../../grammar/src/schema/index.ts';
import { problemsOf } from '../support/language-problems.ts';
import { sampleFiles } from '../support/sample-files.ts';

const format = (text: string): string | undefined => formatFile(readFileTree(text));

/** Everything but white space, one entry a line that says something; sizes and units as the formatter spaces them. */
const essence = (text: string): string => text.replace(/[\s;]+/g, '');

describe('the formatter', () => {
  it('indents by two, puts one space between items, one fact on a line, and aligns nothing', () => {
    assert.equal(
      format(`wire a { gauge 42AWG; overall 0.07mm±5% }
spool   b    {   # the shelf
wire    a         # aligned
      left 310   g
}`),
      `wire a {
  gauge 42 AWG
  overall 0.07 mm ± 5 %
}
spool b { # the shelf
  wire a # aligned
  left 310 g
}
`,
    );
  });

  it('keeps comments where they stand: before, behind and at the end', () => {
    assert.equal(
      format('#a\n\n\n#b\nwire w { #c\n#d\ngauge 42 AWG #e\n\n\n\n#f\n} #g\n#h'),
      '#a\n\n#b\nwire w { #c\n  #d\n  gauge 42 AWG #e\n\n  #f\n} #g\n#h\n',
    );
  });

  it('keeps at most one empty line in a row, and none inside a brace', () => {
    assert.equal(
      format('\n\nwire a {\n\n\n  gauge 42 AWG\n\n\n\n  note "x"\n\n}\n\n\n\nwire b {\n}\n\n\n'),
      'wire a {\n  gauge 42 AWG\n\n  note "x"\n}\n\nwire b {\n}\n',
    );
  });

  it('keeps the line breaks of a line that goes on', () => {
    assert.equal(
      format('instrument i {\nselector {\n1 "a" ( a series\nb ) parallel # why\n# more\nc , on purpose\n}\n}'),
      `instrument i {
  selector {
    1 "a" (a series
      b) parallel # why
      # more
      c, on purpose
  }
}
`,
    );
  });

  it('keeps what is one label: 24b is a serial number, 24 b would be none', () => {
    assert.equal(format('pickup p {\n  serial   24b\n}'), 'pickup p {\n  serial 24b\n}\n');
  });

  it("keeps the file's kind of line end and its byte order mark", () => {
    assert.equal(format('\uFEFFwire a {\r\ngauge 42 AWG\r\n}'), '\uFEFFwire a {\r\n  gauge 42 AWG\r\n}\r\n');
    assert.equal(format('wire a {\rgauge 42 AWG\r}'), 'wire a {\r  gauge 42 AWG\r}\r');
  });

  it('leaves a file with syntax errors alone, and formats one whose values are wrong', () => {
    for (const text of [
      'wire a {',
      'wire a',
      'core 60,0 x 5 mm',
      'bobbin b {\n core 60,0 x 5 mm\n}',
      'pickup p { note "x }',
    ]) {
      assert.equal(format(text), undefined, text);
    }
    assert.equal(format('wire a {\ngauge 42 mm\n}'), 'wire a {\n  gauge 42 mm\n}\n');
  });

  it('leaves a word that is read as a unit, because it stands at its number, where it stands', () => {
    const text = 'instrument i {\n  controls {\n    tone 250main audio with 47 nF\n  }\n}\n';
    assert.equal(format(text), text);
    assert.equal(format(text.replace('main audio', 'main  audio')), text);
  });

  it('makes nothing of nothing', () => {
    assert.equal(format(''), '');
    assert.equal(format('\n \n'), '');
  });

  for (const { path, text } of sampleFiles()) {
    const formatted = format(text);
    if (formatted === undefined) {
      it(`refuses samples/${path}, which has a syntax error`, () => {
        assert.ok(problemsOf(text).some(({ code }) => code.startsWith('syntax/')));
      });
      continue;
    }
    it(`changes white space of samples/${path} only, and nothing the second time`, () => {
      assert.equal(essence(formatted), essence(text));
      assert.equal(format(formatted), formatted);
      assert.deepEqual(
        problemsOf(formatted).map(({ code, message }) => [code, message]),
        problemsOf(text).map(({ code, message }) => [code, message]),
      );
    });
  }

  it('changes white space only, and nothing the second time, of any specs', () => {
    fc.assert(
      fc.property(specs, (text) => {
        const formatted = format(text);
        assert.ok(formatted !== undefined);
        assert.equal(essence(formatted), essence(text));
        assert.equal(format(formatted), formatted);
        assert.doesNotMatch(formatted, /[ \t]$|\n\n\n/m);
      }),
      { seed: 20261125, numRuns: 400 },
    );
  });
});

/** White space and comments as careless writers leave them. */
const breaks = fc.constantFrom(
  '\n',
  '\n\n',
  '\n\n\n\n',
  '\n# a comment\n',
  '\n   #   another  \n\n# third\n',
  ' # behind\n',
);
const spaces = fc.constantFrom('', ' ', '  ', '\t', '      ');

const factsOf = (keyword: string): fc.Arbitrary<string> =>
  fc.constantFrom(...Object.values(schemas.get(keyword)?.facts ?? {}).map(({ example }) => example));

/** Facts of a block, each on a line of its own or behind a `;`, and the blocks that it may hold. */
const bodyOf = (keyword: string, depth: number): fc.Arbitrary<string> => {
  const inner = schemas.get(keyword)?.blocks ?? [];
  const line: fc.Arbitrary<string> =
    inner.length > 0 && depth < 2
      ? fc.oneof(
          factsOf(keyword),
          fc.constantFrom(...inner).chain((kind) => blockOf(kind, depth + 1)),
        )
      : factsOf(keyword);
  return fc
    .array(
      fc.tuple(spaces, line, fc.oneof({ weight: 4, arbitrary: breaks }, { weight: 1, arbitrary: fc.constant('; ') })),
      { maxLength: 6 },
    )
    .map((lines) => lines.map((parts) => parts.join('')).join(''));
};

const blockOf = (keyword: string, depth = 0): fc.Arbitrary<string> =>
  fc
    .tuple(spaces, bodyOf(keyword, depth), breaks)
    .map(
      ([space, body, end]) =>
        `${keyword}${schemas.get(keyword)?.names === undefined ? '' : ' some-name'} ${space}{\n${body}${end}${space}}`,
    );

const topLevel = [...schemas.values()].filter((schema) => schema.topLevel).map(({ keyword }) => keyword);

const specs: fc.Arbitrary<string> = fc
  .array(
    fc.tuple(
      fc.oneof(
        fc.constant('use   "parts/stock.pickup"'),
        fc.constantFrom(...topLevel).chain((keyword) => blockOf(keyword)),
      ),
      breaks,
    ),
    {
      maxLength: 4,
    },
  )
  .map((pieces) => pieces.map((parts) => parts.join('')).join(''));
