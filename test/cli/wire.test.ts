import assert from 'node:assert/strict';
import { cpSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

/** What the lines of a wiring join, in no order. */
const netsIn = (text: string): readonly string[] =>
  [...text.matchAll(/^ +(hot|link|ground) ([a-z]+\..*)$/gm)]
    .map(([, kind = '', terminals = '']) => [kind, ...terminals.split(' ').sort()].join(' '))
    .sort();

describe('wire', () => {
  let shell: Shell;
  let planned = '';
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
    const text = readFileSync(shell.path('yarrowby.pickup'), 'utf8');
    planned = text.replace(/\n {2}wiring \{[^}]*\}\n/, '\n').replace(/^# expect:.*\n/gm, '');
    assert.notEqual(planned, text);
    shell.write('planned.pickup', planned);
  });
  after(() => shell.remove());

  it('plans what to solder for five positions with splits; written down, every position is right and nothing is found', async () => {
    const { code, stdout } = await shell.run(['wire', 'planned.pickup']);
    assert.equal(code, 0);
    assert.match(stdout, /^instrument yarrowby\n {2}19 wires, and none has fewer\n/);
    assert.match(stdout, /Solder and iron burn/);
    const block = /wiring \{\n[^}]*\}/.exec(stdout)?.[0];
    assert.ok(block);
    // Of all with so few wires the one that was wired by hand: commons on hot and ground, jumpers from lug to neighbour, a pole for each pickup.
    assert.deepEqual(netsIn(block), netsIn(readFileSync(shell.path('yarrowby.pickup'), 'utf8')));
    shell.write('soldered.pickup', planned.replace('  selector {', `  ${block}\n\n  selector {`));
    assert.equal((await shell.run(['switch', 'soldered.pickup'])).code, 0);
    const checked = await shell.run(['check', 'soldered.pickup']);
    assert.deepEqual([checked.code, /warning|error\[/.test(checked.stdout)], [0, false], checked.stdout);
  });

  it('takes the smallest switch of the shelf that does it, where the instrument names none', async () => {
    shell.write('bare.pickup', planned.replace(/^ {2}switch lever .*\n/m, ''));
    const { code, stdout } = await shell.run(['wire', 'bare.pickup']);
    assert.equal(code, 0);
    assert.match(
      stdout,
      /on lever-two-bridging, the smallest of the shelf that does it\n {2}14 wires, and none has fewer/,
    );
  });

  it('proves that a switch cannot, names the positions that clash, and what can', async () => {
    shell.write('small.pickup', planned.replace(/^( {2}switch lever) .*$/m, '$1 lever-two-five'));
    const { code, stdout } = await shell.run(['wire', 'small.pickup']);
    assert.equal(code, 1);
    assert.match(stdout, /no wiring does it: it cannot do positions \d, \d and \d together/);
    assert.match(stdout, /from the shelf lever-two-bridging does it with 14 wires/);
    validate('wire-1', (await shell.run(['wire', 'small.pickup', '--format', 'json'])).stdout);
  }).timeout(300_000);

  it('as JSON keeps to the published schema', async () => {
    for (const file of ['planned.pickup', 'quorl.pickup', 'hesk-neck.pickup'])
      validate('wire-1', (await shell.run(['wire', file, '--format', 'json'])).stdout);
  });
});
