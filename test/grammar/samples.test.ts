import assert from 'node:assert/strict';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { expectedOf } from '../support/expect-lines.ts';
import { languageProblems, problemsOf } from '../support/language-problems.ts';
import { sampleFiles } from '../support/sample-files.ts';
import { thorough } from '../support/thorough.ts';

/** Codes that the language layer itself raises, of all that a file expects. */
const LANGUAGE_CODE = /^(syntax|unit|value)\//;

/** Characters from one beginning to the next: with THOROUGH=5 each of them. */
const STEP = Math.max(1, Math.round(5 / thorough(1)));

describe('the sample files', () => {
  for (const { path, text } of sampleFiles()) {
    const expected = expectedOf(text).findings.filter(
      ({ code }) => LANGUAGE_CODE.test(code) || path === 'mistakes/name-duplicate-fact.pickup',
    );
    const what = expected.map(({ code }) => code).join(', ') || 'no problem';
    it(`${path} raises ${what}`, () => {
      const places = problemsOf(text).map(
        ({ code, span }) => `${code} at ${text.slice(span.start, span.end).split('\n')[0]}`,
      );
      assert.deepEqual(
        places,
        expected.map(({ code, place }) => `${code} at ${place.text}`),
      );
    });

    it(`${path}: beginnings of it can be read, and edits of it give what a fresh reading gives`, () => {
      let tree = readFileTree('');
      for (let end = 0; end <= text.length; end += STEP) {
        tree = readFileTree(text.slice(0, end), tree);
        const pieces = tree.chunks.map(({ chunk }) => chunk.text).join('');
        assert.equal(pieces, text.slice(0, end));
        // Some in full: reading all of them anew is quadratic work.
        if (end % (101 * STEP) < STEP) assert.deepEqual(tree, readFileTree(text.slice(0, end)));
      }
      tree = readFileTree(text, tree);
      assert.deepEqual(languageProblems(tree), problemsOf(text));
    });
  }
});
