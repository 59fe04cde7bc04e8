import assert from 'node:assert/strict';
import { cpSync, existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { samplesOf } from '../sound/spectrum.ts';
import { Shell } from './shell.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('listen', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
  });
  after(() => shell.remove());

  it('writes 48 kHz, 16 bit, one channel, and says what the model leaves out', async () => {
    const { code, stdout, stderr } = await shell.run([
      'listen',
      'hesk-neck.pickup',
      '-o',
      'hesk.wav',
      '--seconds',
      '1',
    ]);
    assert.deepEqual([code, stdout], [0, 'hesk.wav\n']);
    assert.match(stderr, /Left out: where the pickup sits along the string/);
    const { samples, sampleRate } = samplesOf(readFileSync(shell.path('hesk.wav')));
    assert.deepEqual([samples.length, sampleRate], [48_000, 48_000]);
    assert.ok(Math.max(...samples) > 3000);
  });

  it('the same spec gives the same bytes, another tone setting others', async () => {
    const bytes = async (tone: string) => {
      const words = ['-o', 'tone.wav', '--position', '2', '--tone', tone, '--seconds', '1', '--force'];
      assert.equal((await shell.run(['listen', 'larkspit.pickup', ...words])).code, 0);
      return readFileSync(shell.path('tone.wav'));
    };
    const open = await bytes('10');
    assert.deepEqual(await bytes('10'), open);
    assert.notDeepEqual(await bytes('0'), open);
  }).timeout(300_000);

  it('of a position that is turned down says so, and writes silence, not its strays made loud', async () => {
    const words = ['-o', 'down.wav', '--position', '2', '--volume', '0', '--seconds', '1'];
    const { code, stderr } = await shell.run(['listen', 'larkspit.pickup', ...words]);
    assert.equal(code, 0);
    assert.match(stderr, /position 2: volume 0, tone 10: silent\n/);
    assert.ok(samplesOf(readFileSync(shell.path('down.wav'))).samples.every((sample) => sample === 0));
  });

  it('of a position that is wired silent is silence, too', async () => {
    const words = ['-o', 'wired.wav', '--position', '5', '--seconds', '1'];
    const { code, stderr } = await shell.run(['listen', 'mistakes/switch-position-differs-joint.pickup', ...words]);
    assert.equal(code, 0);
    assert.match(stderr, /position 5: volume 10, tone 10: silent\n/);
    assert.ok(samplesOf(readFileSync(shell.path('wired.wav'))).samples.every((sample) => sample === 0));
  });

  it('lets two states be heard one after the other', async () => {
    const words = ['-o', 'both.wav', '--pickup', 'tansy-bridge', '--seconds', '1', '--compare', 'tansy-bridge.pickup'];
    const { code, stderr } = await shell.run(['listen', 'tansy-bridge.pickup', ...words]);
    assert.equal(code, 0);
    assert.match(stderr, /^first .*\nthen /);
    assert.equal(samplesOf(readFileSync(shell.path('both.wav'))).samples.length, 2 * 48_000 + 0.4 * 48_000);
  });

  it('a pickup that was reworked is heard as it was, then as it is', async () => {
    const words = ['-o', 'reworked.wav', '--pickup', 'pipkin-heavier', '--seconds', '1'];
    const { code, stderr } = await shell.run(['listen', 'pipkin-neck.pickup', ...words]);
    assert.equal(code, 0);
    assert.match(stderr, /^first pipkin-made: Pipkin, neck, as made, .*\nthen Pipkin, neck, heavier slug coil, /);
    assert.equal(samplesOf(readFileSync(shell.path('reworked.wav'))).samples.length, 2 * 48_000 + 0.4 * 48_000);
  });

  it('refuses in one line what cannot be played', async () => {
    const refused = async (...words: string[]) => {
      const { code, stdout, stderr } = await shell.run(['listen', ...words]);
      assert.deepEqual([code, stdout], [2, '']);
      assert.equal(stderr.split('\n').length, 2);
      return stderr;
    };
    shell.write('pickups.pickup', 'pickup a {\n}\npickup b {\n}\n');
    assert.match(await refused('hesk-neck.pickup'), /listen needs a file to write: -o FILE\.wav/);
    assert.match(
      await refused('hesk-neck.pickup', '-o', 'x.wav', '--string', 'H9'),
      /--string H9: a note from A0 to E6/,
    );
    assert.match(
      await refused('larkspit.pickup', '-o', 'x.wav', '--position', '9'),
      /has no position 9, only 1, 2, 3, 4, 5/,
    );
    assert.match(await refused('pickups.pickup', '-o', 'x.wav'), /holds several pickups; --pickup NAME says which/);
    assert.match(await refused('parts/stock.pickup', '-o', 'x.wav'), /holds no pickup to play through/);
    assert.equal(existsSync(shell.path('x.wav')), false);
    await shell.run(['listen', 'hesk-neck.pickup', '-o', 'once.wav', '--seconds', '1']);
    assert.match(await refused('hesk-neck.pickup', '-o', 'once.wav', '--seconds', '1'), /once\.wav: is already there/);
  });
});
