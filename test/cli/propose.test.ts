import assert from 'node:assert/strict';
import { cpSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { applyEdits } from '../support/text-edits.ts';
import { Shell } from './shell.ts';
import { editsIn, validate } from './validate.ts';

const ROOT = path.join(import.meta.dirname, '../..');
const SAMPLE = 'knapweed-neck.pickup';

describe('propose', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(path.join(ROOT, 'samples'), shell.folder, { recursive: true });
    cpSync(path.join(ROOT, 'test/cases'), path.join(shell.folder, 'cases'), { recursive: true });
  });
  after(() => shell.remove());

  it('tells what to wind, what it reaches with which odds, and what to write', async () => {
    const { code, stdout } = await shell.run(['propose', SAMPLE]);
    assert.equal(code, 0);
    assert.match(
      stdout,
      /^pickup knapweed-neck: free are turns and wire of main\n\n {2}build 1, odds [a-z ]*\d+ in 100\n/,
    );
    // The wire of that spool has 6.93 ohm/m: 8.6 kohm are 1,241 m, and by hand 11 g a hundred metres less in enamel, 28 g.
    assert.match(
      stdout,
      /main: \d \d{3} turns of poly-43 \(43 AWG\) from spool RYD-W9 on rod-six\n {6}1 2\d\d m of wire, 31 g with 10 % spare/,
    );
    assert.match(stdout, /resistance of 8\.6 kohm ± 0\.4 kohm +8\.\d+ ± 0\.0\d+ kΩ +reached\n/);
    assert.match(stdout, /\n {7}\+ {5}spool RYD-W9\n {7}\+ {5}turns \d_\d{3}\n/);
    assert.match(stdout, /\nmind\n {2}Guard the spindle/);
  });

  it('as JSON keeps to the published schema, and a build written into the file reaches the target', async () => {
    const { stdout } = await shell.run(['propose', SAMPLE, '--format', 'json']);
    const [pickup] = validate('propose-1', stdout).pickups;
    const [build] = pickup?.builds ?? [];
    assert.ok(build);
    assert.deepEqual(
      build.reaches.map(({ of, verdict }) => [of, verdict]),
      [
        ['resistance', 'reached'],
        ['resonance', 'reached'],
      ],
    );
    const text = readFileSync(shell.path(SAMPLE), 'utf8');
    shell.write('wound.pickup', applyEdits(text, editsIn(text, build.edits)));
    const checked = await shell.run(['check', 'wound.pickup', '--format', 'json']);
    assert.deepEqual(validate('check-1', checked.stdout).files[0]?.findings, []);
    assert.deepEqual(await shell.run(['propose', 'wound.pickup']), {
      code: 0,
      stdout:
        'pickup knapweed-neck leaves nothing out of a coil that is still to be wound: take the turns, the wire or the bobbin out of it\n',
      stderr: '',
    });
  });

  it('says what is in the way: the window, and the wire that would fit; the spool', async () => {
    // By hand, beside the spec: 42 AWG fills the window to 118 %, 43 AWG takes 8,820 turns and some 30 g of a spool with 9 g.
    const { code, stdout } = await shell.run(['propose', 'cases/target-only.pickup']);
    assert.equal(code, 1);
    assert.match(
      stdout,
      /The window: 10 6\d0 turns of w42 \(42 AWG\) on rods would reach it and fill 118 % of it, which asks for one \d\.\d mm deep\./,
    );
    assert.match(stdout, /Another wire than stated would: 8 8[12]0 turns of w43 \(43 AWG\) on rods, 31 g to buy\./);
    assert.match(stdout, /The wire: 8 8[12]0 turns of w43 \(43 AWG\) from spool reel-2 on rods would reach it/);
  });

  it('says why there is nothing to propose', async () => {
    const { stdout } = await shell.run(['propose', 'hesk-neck.pickup']);
    assert.match(stdout, /^pickup hesk-neck states no target/);
    const knapweed = readFileSync(shell.path(SAMPLE), 'utf8');
    shell.write('made.pickup', `${knapweed.replace(/^(pickup .*\{\n)/m, '$1  made 2026-11-02\n')}pickup other {\n}\n`);
    assert.match(
      (await shell.run(['propose', 'made.pickup'])).stdout,
      /^pickup knapweed-neck has been made: .* take its `made` line out\n$/,
    );
    assert.match((await shell.run(['propose', 'shop.pickup'])).stdout, /holds no pickup with something to propose/);
  });
});
