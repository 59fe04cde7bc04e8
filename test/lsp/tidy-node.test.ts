import assert from 'node:assert/strict';
import { cachedDataVersionTag } from 'node:v8';
import { tidy } from '../../server/src/lsp/tidy-node.ts';

describe('tidying', () => {
  it('leaves the engine as it was: compiled code is still taken for its own', () => {
    tidy();
    const before = cachedDataVersionTag();
    tidy();
    tidy();
    assert.equal(cachedDataVersionTag(), before);
    assert.equal(Reflect.get(globalThis, 'gc'), undefined);
  });
});
