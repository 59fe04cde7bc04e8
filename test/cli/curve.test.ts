import assert from 'node:assert/strict';
import { cpSync, existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { curveFile } from '../../server/src/model/curve-file.ts';
import { Shell } from './shell.ts';

const RECORDINGS = path.join(import.meta.dirname, '../sound/recordings');

describe('signal and curve', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(RECORDINGS, shell.folder, { recursive: true });
  });
  after(() => shell.remove());

  it('the signal comes with its cautions; its own recording makes a curve of its shape', async () => {
    const played = await shell.run(['signal', '-o', 'sweep.wav', '--seconds', '1.5', '--rate', '44100']);
    assert.deepEqual([played.code, played.stdout], [0, 'sweep.wav\n']);
    assert.match(played.stderr, /20 Hz to 20\.2 kHz in 1\.5 s, -12 dBFS\n.*curve --seconds 1\.5\n/);
    assert.match(played.stderr, /loudspeakers off, headphones off the head.*\n.*Phantom power off/);
    const made = await shell.run(['curve', 'sweep.wav', '-o', 'shape.csv', '--seconds', '1.5']);
    assert.deepEqual([made.code, made.stdout], [0, 'shape.csv\n']);
    assert.match(made.stderr, /the shape only/);
    // Whoever made a curve makes the next recording.
    assert.match(made.stderr, /loudspeakers off, headphones off the head.*\n.*Phantom power off/);
    assert.match(made.stderr, /write into readings.*: sweep hot to ground "shape\.csv" over 10 kohm\n$/);
    const curve = curveFile(readFileSync(shell.path('shape.csv'), 'utf8'));
    assert.ok(curve.kind === 'curve');
    // Twelve decibels below full scale, at every frequency.
    assert.deepEqual([curve.quantity, curve.phase], ['ratio', undefined]);
    for (const magnitude of curve.magnitude)
      assert.ok(Math.abs(20 * Math.log10(magnitude) + 12) < 0.03, `${magnitude}`);
  });

  it('a recording of two channels becomes a file that a spec can name', async () => {
    const { code, stderr } = await shell.run(['curve', 'sense.wav', '-o', 'sweeps/sense.csv', '--seconds', '1.15']);
    assert.equal(code, 0);
    assert.match(stderr, /232 points.*\n.*hum of 49\.98\u202FHz at −60\.0\u202FdBFS/s);
    const curve = curveFile(readFileSync(shell.path('sweeps/sense.csv'), 'utf8'));
    assert.ok(curve.kind === 'curve');
    assert.deepEqual(
      [curve.quantity, curve.hz.length, curve.phase?.length, curve.relativeSd?.length],
      ['ratio', 232, 232, 232],
    );
  });

  it('the reference may be the other channel or a recording made with it', async () => {
    const right = ['curve', 'divider-hum.wav', '-o', 'right.csv', '--seconds', '1.15', '--reference', 'right'];
    assert.match((await shell.run(right)).stderr, /the channels are exchanged/);
    const two = ['--reference', 'exciter-reference.wav', '--seconds', '2.6'];
    const { code } = await shell.run(['curve', 'exciter-pickup.wav', '-o', 'exciter.csv', ...two]);
    assert.equal(code, 0);
    assert.match(
      readFileSync(shell.path('exciter.csv'), 'utf8'),
      /^# made of exciter-pickup\.wav and exciter-reference\.wav\n/,
    );
  });

  it('writes nothing where the recording is useless or unusable', async () => {
    const refused = async (...words: readonly string[]) => {
      const { code, stderr } = await shell.run(['curve', ...words, '-o', 'none.csv']);
      assert.ok(!existsSync(shell.path('none.csv')));
      return [code, stderr] as const;
    };
    // Its sweep takes 1.15 s, and six are looked for.
    const [code, stderr] = await refused('sense.wav');
    assert.equal(code, 1);
    assert.match(stderr, /^sense\.wav: silent: .*another length/);
    shell.write('not.wav', 'RIFF');
    assert.match((await refused('not.wav'))[1], /not\.wav: is no WAV file/);
    assert.match((await refused('missing.wav'))[1], /missing\.wav: no such file/);
    assert.match((await refused('exciter-pickup.wav', '--reference', 'right'))[1], /holds one channel/);
    assert.match((await refused('sense.wav', '--reference', 'exciter-pickup.wav'))[1], /holds two channels already/);
  });
});
