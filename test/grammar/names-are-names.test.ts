import assert from 'node:assert/strict';
import { languageWords } from '../../grammar/src/language-words.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { schemas } from '../../grammar/src/schema/index.ts';
import { UNITS } from '../../grammar/values/unit-table.ts';
import { blockOf } from '../../server/src/model/merged-block.ts';
import { problemsOf } from '../support/language-problems.ts';

const named = [...schemas.values()].filter(({ names }) => names !== undefined);
const { blocks, facts, joining, values, operators } = languageWords();
const words = [...new Set([...blocks, ...facts, ...joining, ...values, ...operators, 'use', 'like', 'reworks'])];
const units = UNITS.flatMap(({ spellings }) => spellings);
const letters = [
  ...'abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZµμΩ',
  'x1',
  'X2',
  'e5',
  'p82',
  'k',
  'R47',
  'NaN',
  'Infinity',
];
const strange = [
  'constructor',
  'prototype',
  'toString',
  'valueOf',
  'hasOwnProperty',
  'one',
  'true',
  'null',
  'undefined',
];
const NAME = /^\p{L}[\p{L}\p{M}\p{N}_-]*$/u;
const all = [...new Set([...words, ...units, ...letters, ...strange])];

/** A block of a kind, inside what holds it where it may not stand alone. */
function spec(kind: (typeof named)[number], name: string): string {
  const holder = [...schemas.values()].find(({ blocks: inner }) => inner.includes(kind.keyword));
  return kind.topLevel
    ? `${kind.keyword} ${name} {\n}\n`
    : `${holder?.keyword} holder {\n${kind.keyword} ${name} {\n}\n}\n`;
}

describe('names', () => {
  for (const kind of named)
    it(`of a ${kind.keyword} may be any word, unit or letter; what is no name is told`, () => {
      for (const name of all) {
        const text = spec(kind, name);
        const told = problemsOf(text);
        const { content } = readFileTree(text).chunks[0]?.chunk ?? {};
        assert.ok(content?.kind === 'block', text);
        const outer = content;
        const chunk = readFileTree(text).chunks[0]?.chunk;
        assert.ok(chunk);
        const read = blockOf(outer, chunk);
        const block = kind.topLevel ? read : read.blocks[0];
        if (NAME.test(name)) {
          assert.deepEqual(told, [], text);
          assert.equal(block?.name, name, text);
        } else assert.notEqual(told.length, 0, text);
      }
    });

  it('of leads may be letters that a size knows too', () => {
    const text = 'pickup p {\n  coil a {\n    tap 4_000 x1\n    start x to y\n    finish e to k\n  }\n}\n';
    assert.deepEqual(problemsOf(text), []);
    assert.deepEqual(problemsOf('bobbin b {\n  core 60 x12 mm\n  window 7 x4.5mm\n}\n'), []);
  });
});
