import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { compiledFile, loadProgram } from '../../server/src/lsp/compiled-code.ts';

describe('code compiled when the program was built', () => {
  let folder = '';
  let program = '';
  const write = (word: string): void =>
    writeFileSync(program, `globalThis.said = require('node:path').basename(__filename) + ${JSON.stringify(word)};`);
  const said = (): unknown => Reflect.get(globalThis, 'said');
  before(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'compiled-'));
    program = path.join(folder, 'program.cjs');
    write(' first');
    const loaded = loadProgram(program);
    assert.equal(loaded.isCompiled, false);
    loaded.run();
    writeFileSync(compiledFile(program), loaded.compiled());
  });
  after(() => {
    rmSync(folder, { recursive: true, force: true });
    Reflect.deleteProperty(globalThis, 'said');
  });

  const runs = (): string => {
    const loaded = loadProgram(program);
    loaded.run();
    return `${said()}${loaded.isCompiled ? ', compiled' : ''}`;
  };

  it('runs as its text says', () => {
    write(' first');
    assert.equal(runs(), 'program.cjs first, compiled');
  });

  it('is passed over where the text is another, of the same length even', () => {
    write(' later');
    assert.equal(runs(), 'program.cjs later');
  });

  it('is passed over where it is damaged, empty or of another engine', () => {
    write(' first');
    const good = readFileSync(compiledFile(program));
    const damaged = Buffer.from(good);
    damaged.fill(7, 32, 96);
    const foreign = Buffer.from(good);
    foreign.fill(7, 0, 32);
    for (const stored of [damaged, foreign, Buffer.alloc(0), good.subarray(0, 40)]) {
      writeFileSync(compiledFile(program), stored);
      assert.equal(runs(), 'program.cjs first');
    }
  });
});
