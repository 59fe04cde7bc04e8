import assert from 'node:assert/strict';
import { matchBlock } from '../../grammar/src/match.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { schemas } from '../../grammar/src/schema/index.ts';
import type { BlockNode } from '../../grammar/src/syntax-tree.ts';
import { problemsOf } from '../support/language-problems.ts';

/** The block's text where it may stand. */
const inPlace = (keyword: string, block: string): string => {
  if (schemas.get(keyword)?.topLevel) return block;
  const holder = [...schemas.values()].find((schema) => schema.blocks.includes(keyword));
  return `${holder?.keyword} holder {\n${block}\n}`;
};

const blockNamed = (block: BlockNode | undefined, keyword: string): BlockNode | undefined => {
  if (!block || block.keyword.text === keyword) return block;
  return block.body.filter((child) => child.kind === 'block').find((child) => child.keyword.text === keyword);
};

describe('the language as data', () => {
  for (const [keyword, schema] of schemas) {
    describe(keyword, () => {
      it('is called by its keyword', () => assert.equal(schema.keyword, keyword));

      it('has an example that reads without a problem', () => {
        assert.deepEqual(problemsOf(inPlace(keyword, schema.example)), []);
      });

      it('holds only blocks that exist, and stands somewhere', () => {
        for (const inner of schema.blocks) assert.ok(schemas.has(inner), inner);
        const isHeld = [...schemas.values()].some((other) => other.blocks.includes(keyword));
        assert.ok(schema.topLevel || isHeld);
      });

      it('gives each word to one fact, and alternatives are facts that do not repeat', () => {
        const words = Object.values(schema.facts).map(({ word }) => word);
        assert.equal(new Set(words).size, words.length);
        for (const { insteadOf = [], word } of Object.values(schema.facts)) {
          for (const other of insteadOf) {
            const alternative = Object.values(schema.facts).find((fact) => fact.word === other);
            assert.equal(alternative?.repeats, false);
            assert.ok(alternative?.insteadOf?.includes(word ?? ''), `${word} and ${other} stand instead of each other`);
          }
        }
      });

      for (const [field, fact] of Object.entries(schema.facts)) {
        it(`reads \`${fact.example}\` into ${field}`, () => {
          const head = schema.names === undefined ? '' : ' some-name';
          const text = inPlace(keyword, `${keyword}${head} {\n  ${fact.example}\n}`);
          const content = readFileTree(text).chunks[0]?.chunk.content;
          const block = blockNamed(content?.kind === 'block' ? content : undefined, keyword);
          assert.ok(block);
          const { facts, problems }: { facts: object; problems: readonly unknown[] } = matchBlock(block, schema);
          assert.deepEqual(problems, []);
          const stated = Object.entries(facts).filter(([, lines]: [string, readonly unknown[]]) => lines.length > 0);
          assert.deepEqual(
            stated.map(([name]) => name),
            [field],
          );
        });
      }
    });
  }
});
