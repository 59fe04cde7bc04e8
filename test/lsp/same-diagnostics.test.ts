import assert from 'node:assert/strict';
import type { Diagnostic } from 'vscode-languageserver';
import { sayTheSame } from '../../server/src/lsp/same-diagnostics.ts';

const at = (line: number) => ({ start: { line, character: 0 }, end: { line, character: 5 } });
const found = (more: Partial<Diagnostic> = {}): Diagnostic => ({
  range: at(3),
  message: 'Open coil.',
  code: 'a',
  ...more,
});
const related = (line: number) => [{ message: 'here', location: { uri: 'file:///a', range: at(line) } }];

describe('what was told before', () => {
  it('is the same where it says the same of the same places', () => {
    assert.ok(sayTheSame([], []));
    assert.ok(sayTheSame([found({ relatedInformation: related(1) })], [found({ relatedInformation: related(1) })]));
  });

  for (const [what, other] of [
    ['another place', [found({ range: at(4) })]],
    ['another message', [found({ message: 'Shorted coil.' })]],
    ['something more', [found({ tags: [1] })]],
    ['another place beside it', [found({ relatedInformation: related(2) })]],
    ['one more finding', [found(), found()]],
    ['none', []],
  ] as const)
    it(`is another with ${what}`, () => {
      assert.ok(!sayTheSame([found({ relatedInformation: related(1) })], other));
      assert.ok(!sayTheSame([found()], other));
      assert.ok(!sayTheSame(other, [found()]));
    });
});
