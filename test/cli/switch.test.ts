import assert from 'node:assert/strict';
import { cpSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('switch', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
  });
  after(() => shell.remove());

  it('tells of each state what is closed, heard and left silent', async () => {
    const { code, stdout } = await shell.run(['switch', 'pennywither.pickup']);
    assert.equal(code, 0);
    const rows = stdout.split('\n').map((line) => line.trim().split(/ {2,}/));
    assert.deepEqual(rows[6], [
      'ways down, pull down',
      'ways.a0–ways.a2',
      '3',
      'bridge',
      '10.73 ± 0.07\u202fkΩ',
      'open on ground: neck.screw and neck.slug',
    ]);
    assert.deepEqual(rows[5]?.slice(3).toSpliced(1, 1), [
      'neck screw ∥ bridge slug',
      'shorted on hot: neck.slug; shorted on ground: bridge.screw',
    ]);
    assert.match(stdout, /Between up and middle, middle and down of ways: hot is held\./);
    assert.match(stdout, /Nothing is soldered to pull\.a1 and pull\.b1\./);
  });

  it('ends with 1 where a position does something else than it says', async () => {
    const { code, stdout } = await shell.run(['switch', 'mistakes/switch-position-differs-joint.pickup']);
    assert.equal(code, 1);
    assert.match(stdout, /lever 5 .* silent, not neck /);
  });

  it('as JSON keeps to the published schema', async () => {
    for (const file of ['yarrowby.pickup', 'pennywither.pickup', 'mistakes/switch-opens-hot.pickup']) {
      const { stdout } = await shell.run(['switch', file, '--format', 'json']);
      validate('switch-1', stdout);
    }
  });

  it('says what it needs where no wiring is written', async () => {
    const { code, stderr } = await shell.run(['switch', 'quorl.pickup']);
    assert.equal(code, 2);
    assert.match(stderr, /quorl\.pickup: no instrument with a wiring/);
  });
});
