import assert from 'node:assert/strict';
import { cpSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

/** Clockwise, north-up; red on the finish reads positive on approach: violet is the finish. */
const DRAWER = `pickup heron {
  conductors violet pink
  coil main {
    wound clockwise
    polarity north-up
  }
  readings "on the bench" 2026-08-02 {
    violet to pink 6.02 kohm
    kick violet to pink approach positive
  }
}
`;

describe('identify', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
    shell.write('drawer.pickup', DRAWER);
  });
  after(() => shell.remove());

  it('tells start and finish where they are proven, with the lines to write', async () => {
    const { code, stdout } = await shell.run(['identify', 'drawer.pickup']);
    assert.equal(code, 0);
    assert.match(stdout, /^pickup heron:\n {2}main: start pink, finish violet\n/);
    assert.match(stdout, /\n {4}start to pink\n {4}finish to violet\n/);
  });

  it('tells a pair without its order where nobody saw the wind', async () => {
    const { stdout } = await shell.run(['identify', 'foundling.pickup']);
    assert.match(stdout, /screw: violet and pink; which of them is the start is not proven/);
    assert.match(stdout, /tells most next: the winding direction of the screw coil/);
    assert.match(
      stdout,
      /Choose violet as the start of the screw coil, then wound clockwise and grey as the start of the slug coil/,
    );
  });

  it('as JSON keeps to the published schema', async () => {
    for (const file of ['foundling.pickup', 'drawer.pickup', 'hesk-neck.pickup']) {
      const { stdout } = await shell.run(['identify', file, '--format', 'json']);
      validate('identify-1', stdout);
    }
  });

  it('of a pickup with stated leads has nothing to find', async () => {
    const { stdout } = await shell.run(['identify', 'hesk-neck.pickup']);
    assert.equal(stdout, 'pickup hesk-neck: no lead is unknown\n');
  });

  it('names the nearest pickup', async () => {
    const { code, stderr } = await shell.run(['identify', 'drawer.pickup', '--pickup', 'herron']);
    assert.equal(code, 2);
    assert.match(stderr, /has no pickup herron: did you mean heron\?/);
  });
});
