import assert from 'node:assert/strict';
import { explanationOf } from '../../server/src/checks/explanation.ts';
import { codes } from '../../server/src/checks/pages.ts';
import { commands } from '../../server/src/cli/commands.ts';
import { noAnalyser } from './no-analyser.ts';
import { Shell } from './shell.ts';

describe('explain', () => {
  const shell = new Shell(commands, noAnalyser);
  after(() => shell.remove());

  it('lists every code with its first sentence', async () => {
    const { code, stdout } = await shell.run(['explain']);
    assert.equal(code, 0);
    assert.equal(stdout.trimEnd().split('\n').length, codes.length);
    assert.match(stdout, /^phase\/coils-cancel +Error\. .+\.$/m);
  });
  it('prints the page of a code', async () => {
    assert.deepEqual(await shell.run(['explain', 'circuit/open']), {
      code: 0,
      stdout: explanationOf('circuit/open'),
      stderr: '',
    });
  });
  it('names the nearest code', async () => {
    for (const written of ['phase/coil-cancels', 'coils-cancel']) {
      const { code, stderr } = await shell.run(['explain', written]);
      assert.equal(code, 2);
      assert.match(stderr, /did you mean phase\/coils-cancel\?/);
    }
    assert.match((await shell.run(['explain', '__proto__'])).stderr, /pickup-spec explain lists all/);
  });
});
