import assert from 'node:assert/strict';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { readEverything } from '../support/any-text.ts';
import { BAD_TEXTS, type BadText, randomEdit } from '../support/bad-texts.ts';
import { uniform } from '../support/chance.ts';
import { sampleFiles } from '../support/sample-files.ts';
import { thorough } from '../support/thorough.ts';

const SEED = 20261125;

/** Every third; all with THOROUGH. */
function* fewer(texts: Iterable<BadText>): Generator<BadText> {
  let count = 0;
  for (const each of texts) if (count++ % Math.max(1, Math.round(3 / thorough(1))) === 0) yield each;
}

describe('any text at all', () => {
  const files = sampleFiles().filter(({ path }) => ['bramblewick.pickup', 'parts/stock.pickup'].includes(path));

  for (const { path, text } of files) {
    for (const [name, texts] of Object.entries(BAD_TEXTS)) {
      it(`made out of ${path} by ${name} is read, matched, formatted and completed without an exception (seed ${SEED})`, () => {
        const good = readFileTree(text);
        let count = 0;
        for (const { kind, text: bad } of fewer(texts(text, SEED))) {
          try {
            readEverything(bad, good);
          } catch (error) {
            assert.fail(`${kind}: ${error instanceof Error ? (error.stack ?? error.message) : error}`);
          }
          count++;
        }
        assert.ok(count >= 5, `${count} texts`);
      });
    }

    it(`edited from ${path} on is read as it would be afresh (seed ${SEED})`, () => {
      const random = uniform(SEED);
      let edited = text;
      let tree = readFileTree(text);
      for (let step = 0; step < thorough(150); step++) {
        edited = step % 50 === 49 ? text : randomEdit(edited, random);
        tree = readFileTree(edited, tree);
        assert.deepEqual(tree, readFileTree(edited));
        assert.equal(new Set(tree.chunks.map(({ chunk }) => chunk)).size, tree.chunks.length);
      }
    });
  }
});
