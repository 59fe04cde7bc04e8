import assert from 'node:assert/strict';
import { CancellationTokenSource } from 'vscode-languageserver';
import { inSlices } from '../../server/src/lsp/in-slices.ts';

describe('work in slices', () => {
  it('gives what the work comes to', async () => {
    function* work(): Generator<void, number, void> {
      for (let step = 0; step < 100; step++) yield;
      return 7;
    }
    assert.equal(await inSlices(work(), new CancellationTokenSource().token), 7);
  });

  it('lets others come in between, and is left where one of them calls it off', async () => {
    const source = new CancellationTokenSource();
    function* endless(): Generator<void, never, void> {
      for (;;) yield;
    }
    setTimeout(() => source.cancel(), 0);
    assert.equal(await inSlices(endless(), source.token), undefined);
  });
});
