import assert from 'node:assert/strict';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { type BlockKeyword, language } from '../../grammar/src/schema/index.ts';
import type { Shape } from '../../grammar/src/schema/shape.ts';
import { type AnyBlock, blockOf } from '../../server/src/model/merged-block.ts';

/** A block of this kind that holds the lines, read without what is around it. */
export function blockWith(keyword: BlockKeyword, ...lines: readonly string[]): AnyBlock {
  const name = language[keyword].names === undefined ? '' : ' some-name';
  const text = `${keyword}${name} {\n${lines.map((line) => `  ${line}\n`).join('')}}`;
  const chunk = readFileTree(text).chunks[0]?.chunk;
  assert.ok(chunk?.content?.kind === 'block');
  return blockOf(chunk.content, chunk);
}

/** One line as its shape captured it. */
export function lineOf(keyword: BlockKeyword, line: string): { readonly shape: Shape; readonly value: unknown } {
  const { facts, schema, problems } = blockWith(keyword, line);
  assert.deepEqual(problems, []);
  const found = Object.entries(schema.facts).flatMap(([field, { shape }]) =>
    (facts[field] ?? []).map(({ value }) => ({ shape, value })),
  );
  assert.equal(found.length, 1);
  return found[0] ?? assert.fail(line);
}
