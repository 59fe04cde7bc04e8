import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { generatedFiles } from '../scripts/generated-files.ts';
import { problemsOf } from '../support/language-problems.ts';

describe('generated files', () => {
  for (const { path, text } of generatedFiles()) {
    it(`${path} is what its sources make of it; run npm run generate`, () => {
      assert.equal(readFileSync(path, 'utf8'), text);
    });
  }
});

describe('the language reference', () => {
  const reference = readFileSync('grammar/language-reference.md', 'utf8');
  const examples = [...reference.matchAll(/^```pickup\n(.*?)^```/gms)].map((match) => match[1] ?? '');

  it('has an example for every block and one of a whole spec', () => assert.ok(examples.length >= 15));

  for (const example of examples) {
    const isInner = /^(?:coil|hookup|readings|potting|target) /.test(example);
    const isControl = /^(?:controls|wiring|selector) /.test(example);
    it(`shows \`${example.split('\n')[0]}\` as it can be written`, () => {
      const text = isInner ? `pickup p {\n${example}}` : isControl ? `instrument i {\n${example}}` : example;
      assert.deepEqual(problemsOf(text), []);
    });
  }
});
