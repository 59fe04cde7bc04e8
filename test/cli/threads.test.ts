import assert from 'node:assert/strict';
import { cpSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createAnalyser } from '../../server/src/analysis/analysis.ts';
import { type CheckSettings, checkTask } from '../../server/src/cli/check-file.ts';
import { specFiles } from '../../server/src/cli/files.ts';
import { manyThreads, oneThread, type Threads } from '../../server/src/cli/threads.ts';
import { bundled, COMMAND_LINE } from '../support/bundled.ts';
import { SAMPLES } from '../support/sample-files.ts';
import { single } from '../support/shop.ts';

describe('threads', () => {
  let folder = '';
  let program = '';
  before(async () => {
    folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'pickup-threads-')));
    program = await bundled(COMMAND_LINE);
    cpSync(SAMPLES, path.join(folder, 'samples'), { recursive: true });
    for (let number = 10; number < 50; number += 1)
      writeFileSync(path.join(folder, `p${number}.pickup`), single(`p${number}`).replace('ground grey', 'ground gray'));
  });
  after(() => rmSync(folder, { recursive: true, force: true }));

  it('find the same as one alone, in the same order', async () => {
    const { files } = specFiles(['.'], folder);
    const chosen = [...files.filter((file) => !file.includes('mistakes')), path.join(folder, 'gone.pickup')];
    assert.ok(chosen.length > 48, `${chosen.length} files are enough for three threads`);
    const settings: CheckSettings = {
      cwd: folder,
      root: '.',
      format: 'json',
      isTerminal: false,
      environment: {},
      columns: undefined,
    };
    const toCheck = chosen.map((file) => ({ file, isPlanned: false }));
    const told = async (threads: Threads) => {
      const found: unknown[] = [];
      for await (const each of threads.each(checkTask, settings, toCheck)) found.push(each);
      return found;
    };
    const alone = await told(oneThread(createAnalyser()));
    assert.deepEqual(await told(manyThreads(program, createAnalyser(), 3)), alone);
    assert.equal(alone.length, chosen.length);
    assert.deepEqual(alone.at(-1), { ok: false, problem: 'gone.pickup: no such file or folder' });
  });
});
