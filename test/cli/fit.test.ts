import assert from 'node:assert/strict';
import { cpSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');
const SWEEPS = path.join(import.meta.dirname, '../physics/sweeps/curves');

const spec = (lines: string, bench = '') => `bench {
  meter accuracy 0.3 %
  ${bench}
}

pickup heron "Heron, bridge" {
  coil main {
    start black
    finish white
  }
  hookup {
    hot white
    ground black
  }
  readings "as found" 2026-09-28 {
    ${lines}
  }
}
`;

const plainSpaces = (text: string) => text.replaceAll('\u202F', ' ');

describe('fit', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
    cpSync(SWEEPS, path.join(shell.folder, 'curves'), { recursive: true });
  });
  after(() => shell.remove());

  const told = async (lines: string, bench?: string, edit = (text: string) => text) => {
    shell.write('heron.pickup', edit(spec(lines, bench)));
    const { code, stdout } = await shell.run(['fit', 'heron.pickup']);
    assert.equal(code, 0);
    return plainSpaces(stdout);
  };

  it('tells what was measured beside what is computed, and what the wax did', async () => {
    const stdout = plainSpaces((await shell.run(['fit', 'yarrow-bridge.pickup'])).stdout);
    assert.match(stdout, /inductance +2\.526 ± 0\.009 H +computed 2\.46 ± 0\.09 H, 0\.\d deviations apart/);
    assert.match(stdout, /The circuit holds: 0\.06 % is left/);
    // By the wax: 117 pF less 74 pF, known better than either because one set-up served both.
    assert.match(
      stdout,
      /from sweeps\/yarrow-wound\.csv to sweeps\/yarrow-potted\.csv\n +inductance +too small to tell\n +capacitance +\+43\.\d+ ± 0\.\d+ pF/,
    );
    assert.match(stdout, /Capacitance has risen by 43\.\d+ ± 0\.\d+ pF, as wax between the turns/);
    assert.doesNotMatch(stdout, /loudspeakers/, 'no further sweep is proposed');
  });

  it('tells what a divider cannot, why, and what would', async () => {
    const stdout = await told(
      'hot to ground 5.874 kohm\n    sweep hot to ground "curves/d-47k.csv" through 47 kohm',
      'recorder input 1 Mohm with 150 pF ± 30 pF',
    );
    assert.match(
      stdout,
      /Capacitance stays computed \(\d+ ± \d+ pF\): through 47 kohm the recorder's own 150 ± 30 pF are in it\./,
    );
    assert.match(stdout, /next: Sweep over 10 kohm, or the recorder alone once/);
  });

  it('takes the recorder out once it was swept alone', async () => {
    const stdout = await told(
      'hot to ground 6.984 kohm\n    sweep hot to ground "curves/c-pickup.csv" through 100 kohm',
      'recorder alone "curves/c-interface.csv" through 100 kohm',
    );
    assert.match(stdout, /capacitance +111\.\d+ ± 0\.\d+ pF/);
    assert.doesNotMatch(stdout, /stays computed/);
  });

  it('uses neither inductance nor capacitance of one exciter, and both of two', async () => {
    const bare = 'sweep hot to ground "curves/e-bare.csv" excited over 1 kohm';
    const one = await told(`hot to ground 6.114 kohm\n    ${bare}`);
    assert.match(one, /Inductance stays computed .*an exciter alone/);
    assert.match(one, /next: .* with 1 nF across/);
    const two = await told(
      `hot to ground 6.114 kohm\n    ${bare}\n    sweep hot to ground "curves/e-bare-1n.csv" excited over 1 kohm with 1 nF`,
    );
    assert.match(two, /inductance +2\.3\d+ ± 0\.0\d+ H/);
    assert.doesNotMatch(two, /Inductance stays computed/);
  });

  it('says which sweep is looked at by itself beside others, and why', async () => {
    const whole = 'sweep hot to ground "curves/t-screw.csv" through 100 kohm';
    const excited = 'sweep white to black "curves/e-bare.csv" excited over 1 kohm';
    const byExciter = /none by an exciter is fitted/;
    assert.match(await told(`${whole}\n    ${excited}`), byExciter);
    assert.doesNotMatch(await told(excited), byExciter);
    const tapped = (text: string) => text.replace('finish white', 'finish white\n    tap 4_000 turns orange');
    const part = 'sweep orange to black "curves/s-10k.csv" over 10 kohm';
    const byTap = /none of a tapped coil is fitted/;
    assert.match(await told(`${whole}\n    ${part}`, undefined, tapped), byTap);
    assert.doesNotMatch(await told(part, undefined, tapped), byTap);
  });

  it('tells a broken coil, another resistor, and what is no coil', async () => {
    assert.match(
      await told('sweep hot to ground "curves/f-open.csv" through 100 kohm'),
      /Open: only \d+ ± 80 pF lie there/,
    );
    const other = await told('hot to ground 7.707 kohm\n    sweep hot to ground "curves/d-100k.csv" through 1 Mohm');
    assert.match(other, /as stated the sweep makes [\d.]+ kΩ, and a meter read 7\.7\d* kΩ/);
  });

  it('says what to take care of where it proposes another sweep', async () => {
    const { stdout } = await shell.run(['fit', 'mistakes/sweep-too-weak.pickup']);
    assert.match(
      stdout,
      /next: Sweep over 10 kohm[\s\S]*\n\nBefore the test signal plays: loudspeakers off[^\n]*\nLine level only/,
    );
  });

  it('is left out of the report where that is asked for', async () => {
    const report = async (...more: readonly string[]) =>
      plainSpaces((await shell.run(['report', 'yarrow-bridge.pickup', ...more])).stdout);
    assert.match(await report(), /inductance +2\.526 ± 0\.009 H +reading/);
    assert.match(await report('--without', 'sweeps'), /inductance +2\.46 ± 0\.09 H +computed/);
    const { code, stderr } = await shell.run(['report', 'yarrow-bridge.pickup', '--without', 'wax']);
    assert.deepEqual([code, stderr], [2, 'pickup-spec: --without wax: only sweeps can be left out\n']);
  });

  it('as JSON keeps to the published schema', async () => {
    for (const args of [['yarrow-bridge.pickup'], ['heron.pickup'], ['hesk-neck.pickup', '--pickup', 'hesk-neck']]) {
      const { stdout } = await shell.run(['fit', ...args, '--format', 'json']);
      validate('fit-1', stdout);
    }
    const { stdout } = await shell.run(['fit', 'hesk-neck.pickup']);
    assert.equal(stdout, 'hesk-neck.pickup names no sweep that can be read\n');
  });
});
