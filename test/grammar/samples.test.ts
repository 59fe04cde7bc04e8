import assert from 'node:assert/strict';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { languageProblems, problemsOf } from '../support/language-problems.ts';
import { sampleFiles } from '../support/sample-files.ts';

/** Codes that the first line of a mistake expects and that the language layer itself raises. */
const LANGUAGE_CODE = /expect: ((?:syntax|unit|value)\/[a-z-]+) at `([^`]*)`/;

describe('the sample files', () => {
  for (const { path, text } of sampleFiles()) {
    const [, code, line] = LANGUAGE_CODE.exec(text) ?? [];
    const isDuplicateFact = path === 'mistakes/name-duplicate-fact.pickup';
    it(`${path} ${code === undefined && !isDuplicateFact ? 'reads without a problem' : `raises ${code ?? 'name/duplicate'} alone`}`, () => {
      const problems = problemsOf(text);
      const expected = code ?? (isDuplicateFact ? 'name/duplicate' : undefined);
      assert.deepEqual(
        problems.map((problem) => problem.code),
        expected === undefined ? [] : [expected],
      );
      const start = problems[0]?.span.start;
      if (line === undefined || start === undefined) return;
      const lineBegin = text.lastIndexOf('\n', start - 1) + 1;
      assert.equal(text.slice(lineBegin).split('\n')[0]?.trim(), line);
    });

    it(`${path}: every beginning of it can be read, and edits of it give what a fresh reading gives`, () => {
      let tree = readFileTree('');
      for (let end = 0; end <= text.length; end += 1) {
        tree = readFileTree(text.slice(0, end), tree);
        const pieces = tree.chunks.map(({ chunk }) => chunk.text).join('');
        assert.equal(pieces, text.slice(0, end));
        // Each hundredth beginning in full: reading all of them anew is quadratic work.
        if (end % 101 === 0) assert.deepEqual(tree, readFileTree(text.slice(0, end)));
      }
      assert.deepEqual(languageProblems(tree), problemsOf(text));
    });
  }
});
