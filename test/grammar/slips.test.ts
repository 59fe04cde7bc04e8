/**
 * Slips of the pen in the example line of every fact of the schema, a class of slips at a time: what is typed is never silently
 * another value, one slip is one finding, and what a fix offers is what was meant, or is said to be one of several readings.
 */
import assert from 'node:assert/strict';
import { lineMeaning } from '../../grammar/src/line-meaning.ts';
import { matchBlock } from '../../grammar/src/match.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import type { BlockSchema } from '../../grammar/src/schema/block-schema.ts';
import { schemas } from '../../grammar/src/schema/index.ts';
import type { SyntaxProblem } from '../../grammar/src/syntax-problem.ts';
import type { BlockNode } from '../../grammar/src/syntax-tree.ts';
import { unitOf } from '../../grammar/values/unit-table.ts';
import { applyFix, problemsOf } from '../support/language-problems.ts';

interface Line {
  readonly schema: BlockSchema;
  readonly text: string;
}

const LINES: readonly Line[] = [...schemas.values()].flatMap((schema) =>
  Object.values(schema.facts).map(({ example }) => ({ schema, text: example })),
);

/** A line inside its block, at a head that the block may have. */
function specOf({ schema, text }: Line): string {
  const head = (schema.example.split('\n')[0] ?? '').replace(/\s*\{.*$/, '').replace(/ (?:like|reworks) .*$/, '');
  const inner = `${head} {\n${text}\n}`;
  const holder = [...schemas.values()].find(({ blocks }) => blocks.includes(schema.keyword));
  const outer = holder?.example
    .split('\n')[0]
    ?.replace(/\s*\{.*$/, '')
    .replace(/ (?:like|reworks) .*$/, '');
  return schema.topLevel ? inner : `${outer} {\n${inner}\n}`;
}

/** What the line says, by field; `undefined` where it could not be read. */
function meaningOf(line: Line): string | undefined {
  const { content } = readFileTree(specOf(line)).chunks[0]?.chunk ?? {};
  assert.ok(content?.kind === 'block');
  const block = line.schema.topLevel ? content : content.body.find((child) => child.kind === 'block');
  assert.ok(block?.kind === 'block');
  const match = matchBlock as (node: BlockNode, schema: BlockSchema) => unknown;
  const matched = match(block, line.schema) as { readonly facts: Facts };
  const said = Object.entries(matched.facts).flatMap(([field, facts]) =>
    facts.map(({ value }) => {
      const shape = line.schema.facts[field]?.shape;
      return shape ? JSON.stringify([field, lineMeaning(shape, value)]) : '';
    }),
  );
  return said[0];
}

type Facts = Readonly<Record<string, readonly { readonly value: unknown }[]>>;

/** The line after the first fix, the second, … */
const fixedLines = (line: Line, problem: SyntaxProblem): readonly Line[] => {
  const spec = specOf(line);
  const begin = spec.indexOf(line.text);
  const behind = spec.length - begin - line.text.length;
  return (problem.fixes ?? []).map((_, choice) => {
    const text = applyFix(spec, problem, choice);
    return { ...line, text: text.slice(begin, text.length - behind) };
  });
};

interface Class {
  readonly name: string;
  /** The line with the slip in each of its places. */
  readonly slips: (text: string) => readonly string[];
  /** The slip is in a number or its unit: no name can take it. */
  readonly numbers?: true;
  /** Some fix of each slip must lead back to what was meant. */
  readonly mended?: true;
  /** More than one reading may be offered; the others then differ. */
  readonly readings?: number;
}

/** Every match replaced, one at a time; what stands in quotes is left alone. */
const each = (pattern: RegExp, by: (match: RegExpMatchArray) => string | undefined) => (text: string) =>
  [...text.matchAll(pattern)].flatMap((match) => {
    const before = text.slice(0, match.index);
    const put = by(match);
    return put === undefined || put === match[0] || (before.split('"').length - 1) % 2 === 1
      ? []
      : [before + put + text.slice(before.length + match[0].length)];
  });

const isUnit = (word: string) => unitOf(word) !== undefined;
const UNIT_BEHIND = /(\d[\d_.]*) ([A-Za-z%/]+)(?![\w-])/g;

const CLASSES: readonly Class[] = [
  {
    name: 'a comma for the decimal point',
    numbers: true,
    slips: each(/(\d+)\.(\d+)/g, (m) => `${m[1]},${m[2]}`),
    mended: true,
    readings: 2,
  },
  {
    name: 'a point between thousands',
    numbers: true,
    slips: each(/(\d)_(\d{3})/g, (m) => `${m[1]}.${m[2]}`),
    mended: true,
    readings: 2,
  },
  {
    name: 'a comma between thousands',
    numbers: true,
    slips: each(/(\d)_(\d{3})/g, (m) => `${m[1]},${m[2]}`),
    mended: true,
    readings: 2,
  },
  {
    name: 'a space between thousands',
    numbers: true,
    slips: each(/(\d)_(\d{3})/g, (m) => `${m[1]} ${m[2]}`),
    mended: true,
  },
  {
    name: 'no unit',
    numbers: true,
    mended: true,
    slips: each(UNIT_BEHIND, (m) => (isUnit(m[2] ?? '') && m[2] !== 'turns' ? (m[1] ?? '') : undefined)),
  },
  {
    name: 'a unit of something else',
    numbers: true,
    slips: each(UNIT_BEHIND, (m) =>
      isUnit(m[2] ?? '') && m[2] !== 'turns'
        ? `${m[1]} ${unitOf(m[2] ?? '')?.dimension === 'frequency' ? 'mm' : 'kHz'}`
        : undefined,
    ),
  },
  {
    name: 'the unit before its number',
    numbers: true,
    slips: each(UNIT_BEHIND, (m) => (isUnit(m[2] ?? '') && m[2] !== 'turns' ? `${m[2]} ${m[1]}` : undefined)),
  },
  {
    name: 'a unit in capitals',
    numbers: true,
    slips: each(UNIT_BEHIND, (m) =>
      isUnit(m[2] ?? '') && /^[a-z]{2,}$/.test(m[2] ?? '') ? `${m[1]} ${m[2]?.toUpperCase()}` : undefined,
    ),
  },
  {
    name: 'a capital letter',
    slips: each(/(?<![\w.-])[a-z][a-z-]+/g, (m) => m[0].charAt(0).toUpperCase() + m[0].slice(1)),
  },
  { name: 'a letter left out', slips: each(/(?<![\w.-])([a-z]{2})([a-z])([a-z-]{3,})/g, (m) => `${m[1]}${m[3]}`) },
  {
    name: 'two letters exchanged',
    slips: each(/(?<![\w.-])([a-z]{2})([a-z])([a-z])([a-z-]{2,})/g, (m) => `${m[1]}${m[3]}${m[2]}${m[4]}`),
  },
  { name: 'an s too many', slips: each(/(?<![\w.-])[a-z]{3,}(?![\w./-])/g, (m) => `${m[0]}s`) },
  {
    name: 'a colon behind the word',
    slips: (text) => (/^[a-z]+ /.test(text) ? [text.replace(' ', ': ')] : []),
    mended: true,
  },
  {
    name: 'an equals sign behind the word',
    slips: (text) => (/^[a-z]+ /.test(text) ? [text.replace(' ', ' = ')] : []),
    mended: true,
  },
  { name: 'a word left out', slips: each(/(?<![\w.-])(?:to|at|with|toward|for|from) /g, () => '') },
  { name: 'a comment of another language', slips: (text) => [`${text} // as measured`], mended: true },
  { name: 'a star for the x of a size', numbers: true, slips: each(/(?<=\d) x (?=\d)/g, () => '*'), mended: true },
];

/** Of these the likely unit is another, which the finding says. */
const GUESSED = ['input 1', 'recorder input 1 with 150 pF ± 30 pF'];

const figures = (text: string) => text.replace(/\D/g, '');

describe('slips of the pen in every line of the language', () => {
  it('start from lines that are right', () => {
    for (const line of LINES) {
      assert.deepEqual(problemsOf(specOf(line)), [], specOf(line));
      assert.notEqual(meaningOf(line), undefined, specOf(line));
    }
  });

  for (const { name, slips, mended, readings = 1, numbers } of CLASSES)
    describe(name, () => {
      const cases = LINES.flatMap((line) => slips(line.text).map((text) => ({ right: line, line: { ...line, text } })));

      it('occurs', () => assert.ok(cases.length > 0));

      it('is never silently another value, and one finding', () => {
        for (const { right, line } of cases) {
          const problems = problemsOf(specOf(line));
          const meaning = meaningOf(line);
          const isSame = meaning === undefined || meaning === meaningOf(right);
          // Without a finding only a name, a label or a note may be another: that there is no such thing the model knows.
          const isOtherName = problems.length === 0 && !numbers && figures(line.text) === figures(right.text);
          assert.ok(isSame || isOtherName, `${right.text} > ${line.text}: ${meaning}`);
          assert.ok(problems.length <= 1, `${line.text}: ${problems.map(({ message }) => message).join(' | ')}`);
        }
      });

      it('is mended to what was meant, and figures stay', () => {
        for (const { right, line } of cases) {
          const [problem] = problemsOf(specOf(line));
          if (!problem) continue;
          const fixed = fixedLines(line, problem);
          for (const { text, schema } of fixed) {
            assert.ok(
              problemsOf(specOf({ text, schema })).every(({ message }) => message !== problem.message),
              `${line.text} > ${text}`,
            );
            if (fixed.length === 1) assert.equal(figures(text), figures(line.text), `${line.text} > ${text}`);
          }
          const meant = fixed.filter((each) => meaningOf(each) === meaningOf(right));
          if (mended && !GUESSED.includes(line.text))
            assert.ok(meant.length > 0, `${line.text} > ${fixed.map(({ text }) => text).join(' | ')}`);
          assert.ok(fixed.length <= Math.max(2, readings), line.text);
        }
      });
    });

  describe('a value without the word of its fact', () => {
    /** The rest of each line behind its first word, in blocks in which every line begins with one. */
    const cases = LINES.flatMap((right) => {
      const isWorded = Object.values(right.schema.facts).every(({ word }) => word !== undefined);
      const [, rest] = /^[a-z-]+ (.+)$/s.exec(right.text) ?? [];
      return rest === undefined || !isWorded ? [] : [{ right, line: { ...right, text: rest } }];
    });

    it('is one finding, and the word is offered before it wherever the value is none that any name could be', () => {
      let offered = 0;
      for (const { right, line } of cases) {
        const [first = ''] = /^[^ ]+/.exec(line.text) ?? [];
        const { shape } = Object.values(line.schema.facts).find(({ example }) => example === right.text) ?? {};
        // A number, or one of the words of its own that the fact has.
        const isPlain = /^[\d.]/.test(first) || new RegExp(`"words?":[^\\]]*"${first}"`).test(JSON.stringify(shape));
        const problems = problemsOf(specOf(line));
        if (problems.length === 0) continue;
        assert.equal(problems.length, 1, `${line.text}: ${problems.map(({ message }) => message).join(' | ')}`);
        const [problem] = problems;
        const fixed = problem ? fixedLines(line, problem) : [];
        const isMended = fixed.some((each) => meaningOf(each) === meaningOf(right));
        if (isMended) offered += 1;
        else if (isPlain) assert.fail(`${line.schema.keyword}: ${line.text}`);
        for (const each of fixed) assert.equal(figures(each.text), figures(line.text));
      }
      assert.ok(offered > 40, `${offered} of ${cases.length}`);
    });

    it('is offered in the way that the language writes it', () => {
      const magnet = { schema: schemas.get('magnet') ?? assert.fail(), text: 'alnico 5' };
      const [problem] = problemsOf(specOf(magnet));
      assert.ok(problem);
      assert.deepEqual(
        fixedLines(magnet, problem).map(({ text }) => text),
        ['material alnico-5'],
      );
      const wire = { schema: schemas.get('wire') ?? assert.fail(), text: '0.07 mm' };
      const [either] = problemsOf(specOf(wire));
      assert.ok(either);
      assert.deepEqual(
        fixedLines(wire, either).map(({ text }) => text),
        ['diameter 0.07 mm', 'overall 0.07 mm'],
      );
    });
  });
});
