import assert from 'node:assert/strict';
import { expectedAt } from '../../grammar/src/expect.ts';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import type { FileTree } from '../../grammar/src/syntax-tree.ts';
import { languageProblems } from '../support/language-problems.ts';
import { sampleFiles } from '../support/sample-files.ts';
import { BAD_TEXTS, randomEdit, seeded } from './bad-texts.ts';

const SEED = 20261125;

/** Reads, matches, formats, completes; and what holds of every text whatever it is. */
function readEverything(text: string): FileTree {
  const tree = readFileTree(text);
  const mark = text.startsWith('\uFEFF') ? '\uFEFF' : '';
  assert.ok(mark + tree.chunks.map(({ chunk }) => chunk.text).join('') === text, 'the pieces are the text');
  const problems = languageProblems(tree);
  for (const { span, message } of problems) {
    assert.ok(
      0 <= span.start && span.start <= span.end && span.end <= text.length,
      `a place inside the text: ${message}`,
    );
  }
  const formatted = formatFile(tree);
  if (formatted !== undefined)
    assert.ok(formatFile(readFileTree(formatted)) === formatted, 'formatting twice changes nothing');
  for (const { chunk } of tree.chunks.slice(0, 20)) expectedAt(chunk, chunk.text.length >> 1);
  return tree;
}

describe('any text at all', () => {
  const files = sampleFiles().filter(({ path }) => ['bramblewick.pickup', 'parts/stock.pickup'].includes(path));

  for (const { path, text } of files) {
    for (const [name, texts] of Object.entries(BAD_TEXTS)) {
      it(`made out of ${path} by ${name} is read, matched, formatted and completed without an exception (seed ${SEED})`, () => {
        let count = 0;
        for (const { kind, text: bad } of texts(text, SEED)) {
          try {
            readEverything(bad);
          } catch (error) {
            assert.fail(`${kind}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
          }
          count++;
        }
        assert.ok(count >= 15, `${count} texts`);
      });
    }

    it(`edited from ${path} on is read as it would be afresh (seed ${SEED})`, () => {
      const random = seeded(SEED);
      let edited = text;
      let tree = readFileTree(text);
      for (let step = 0; step < 400; step++) {
        edited = step % 50 === 49 ? text : randomEdit(edited, random);
        tree = readFileTree(edited, tree);
        assert.deepEqual(tree, readFileTree(edited));
        assert.equal(new Set(tree.chunks.map(({ chunk }) => chunk)).size, tree.chunks.length);
      }
    });
  }
});
