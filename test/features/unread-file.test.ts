import assert from 'node:assert/strict';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';

describe('a file that the host has not read yet', () => {
  const uri = 'file:///shop/wren.pickup';
  const pendingWith = (content: { readonly kind: 'missing' } | undefined) =>
    createAnalyser().analyse(uri, { content: () => content, isInside: () => true }).pending;

  it('is waited for itself, not only what it uses', () => {
    assert.deepEqual(pendingWith(undefined), [uri]);
  });

  it('is not waited for where there is none', () => {
    assert.deepEqual(pendingWith({ kind: 'missing' }), []);
  });
});
