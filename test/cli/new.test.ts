import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';

describe('new', () => {
  let shell: Shell;
  beforeEach(() => {
    shell = new Shell(commands, createAnalyser());
  });
  afterEach(() => shell.remove());

  it('writes parts, a bench, a pickup and an instrument in the one layout', async () => {
    const { code, stdout } = await shell.run(['new', 'shop']);
    assert.equal(code, 0);
    const files = stdout.trimEnd().split('\n');
    assert.deepEqual(files, [
      'shop/shop.pickup',
      'shop/parts/stock.pickup',
      'shop/first-bridge.pickup',
      'shop/first-guitar.pickup',
    ]);
    for (const file of files) {
      const text = readFileSync(shell.path(file), 'utf8');
      assert.equal(formatFile(readFileTree(text)), text);
    }
  });

  it('writes a shop that is clean', async () => {
    await shell.run(['new', 'shop']);
    assert.deepEqual(await shell.run(['check', 'shop']), {
      code: 0,
      stdout: 'nothing found in 4 files\n',
      stderr: '',
    });
  });

  it('writes nothing at all where one of its files is already there', async () => {
    shell.write('shop/first-guitar.pickup', 'mine');
    const { code, stdout, stderr } = await shell.run(['new', 'shop']);
    assert.deepEqual([code, stdout], [2, '']);
    assert.match(stderr, /shop\/first-guitar\.pickup: is already there; nothing was written/);
    assert.equal(readFileSync(shell.path('shop/first-guitar.pickup'), 'utf8'), 'mine');
    assert.throws(() => readFileSync(shell.path('shop/shop.pickup')), /ENOENT/);
  });
});
