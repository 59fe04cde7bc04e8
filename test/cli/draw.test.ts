import assert from 'node:assert/strict';
import { cpSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { SaxesParser } from 'saxes';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

function assertXml(text: string): void {
  const parser = new SaxesParser();
  parser.on('error', (error) => assert.fail(error.message));
  parser.write(text).close();
}

describe('draw', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true });
    const hostile = readFileSync(shell.path('hesk-neck.pickup'), 'utf8').replace(
      '"Hesk, neck"',
      '"<script>alert(1)</script>&\\"\u202E\u001b[2J"',
    );
    shell.write('hostile.pickup', hostile);
    shell.write('empty.pickup', '');
  });
  after(() => shell.remove());

  it('writes the wiring as SVG to standard output', async () => {
    const { code, stdout, stderr } = await shell.run(['draw', 'hesk-neck.pickup']);
    assert.deepEqual([code, stderr], [0, '']);
    assert.match(stdout, /^<svg /);
    assertXml(stdout);
  });

  it('writes a file once, and again only with --force', async () => {
    assert.deepEqual(await shell.run(['draw', 'hesk-neck.pickup', '-o', 'out/hesk.svg']), {
      code: 0,
      stdout: 'out/hesk.svg\n',
      stderr: '',
    });
    const { code, stderr } = await shell.run(['draw', 'hesk-neck.pickup', '-o', 'out/hesk.svg']);
    assert.equal(code, 2);
    assert.match(stderr, /hesk\.svg: is already there; --force replaces it\n$/);
    assert.equal((await shell.run(['draw', 'hesk-neck.pickup', '-o', 'out/hesk.svg', '--force'])).code, 0);
    assert.deepEqual(readdirSync(shell.path('out')), ['hesk.svg']);
  });

  it('gives the same bytes each time', async () => {
    const once = await shell.run(['draw', 'hesk-neck.pickup']);
    assert.equal((await shell.run(['draw', 'hesk-neck.pickup'])).stdout, once.stdout);
  });

  it('makes a PNG where the name asks for one', async () => {
    assert.equal((await shell.run(['draw', 'hesk-neck.pickup', '-o', 'hesk.png'])).code, 0);
    // PNG (ISO/IEC 15948), 5.2: the signature.
    assert.deepEqual([...readFileSync(shell.path('hesk.png')).subarray(0, 8)], [137, 80, 78, 71, 13, 10, 26, 10]);
  });

  it('lets markup, quotes, bidirectional marks and escape sequences of a title come out harmless', async () => {
    const { code, stdout } = await shell.run(['draw', 'hostile.pickup']);
    assert.equal(code, 0);
    assertXml(stdout);
    assert.doesNotMatch(stdout, /<script/);
    assert.doesNotMatch(stdout, /(?![\n\t])\p{Cc}|\u202E/u);
  });

  it('writes the response of a pickup, of a position with its pots, and of two states overlaid', async () => {
    const pickup = await shell.run(['draw', 'hesk-neck.pickup', '--view', 'response']);
    const open = await shell.run(['draw', 'larkspit.pickup', '--view', 'response', '--position', '2']);
    const shut = await shell.run(['draw', 'larkspit.pickup', '--view', 'response', '--position', '2', '--tone', '0']);
    const two = await shell.run([
      'draw',
      'hesk-neck.pickup',
      '--view',
      'response',
      '--compare',
      'withen-bridge.pickup',
    ]);
    for (const { code, stdout, stderr } of [pickup, open, shut, two]) {
      assert.deepEqual([code, stderr], [0, '']);
      assertXml(stdout);
    }
    assert.notEqual(open.stdout, shut.stdout);
    assert.match(two.stdout, /withen-bridge\.pickup/);
  });

  it('writes a response with another cable; other views have none to change', async () => {
    const words = ['draw', '--view', 'response', '--cable', '6 m of 100 pF/m'];
    for (const more of [['hesk-neck.pickup'], ['larkspit.pickup', '--position', '2']]) {
      const { code, stdout, stderr } = await shell.run([...words, ...more]);
      assert.deepEqual([code, stderr], [0, '']);
      assert.match(stdout, /600\u202FpF of cable/);
    }
    const { code, stderr } = await shell.run(['draw', 'hesk-neck.pickup', '--cable', '600pF']);
    assert.deepEqual([code, stderr], [2, 'pickup-spec: --cable belongs to --view response and before-after\n']);
  });

  it('writes two sweeps of a pickup beside each other, and says where there are none', async () => {
    const { code, stdout, stderr } = await shell.run(['draw', 'yarrow-bridge.pickup', '--view', 'before-after']);
    assert.deepEqual([code, stderr], [0, '']);
    assertXml(stdout);
    assert.match(stdout, /as wound.*after potting/s);
    const none = await shell.run(['draw', 'hesk-neck.pickup', '--view', 'before-after']);
    assert.deepEqual(
      [none.code, none.stderr],
      [2, 'pickup-spec: hesk-neck.pickup: no pickup was swept twice between hot and ground\n'],
    );
  });

  it('writes the schematic of an instrument, the live position emphasised', async () => {
    const first = await shell.run(['draw', 'larkspit.pickup', '--view', 'schematic']);
    const live = await shell.run(['draw', 'larkspit.pickup', '--view', 'schematic', '--position', '2']);
    for (const { code, stdout, stderr } of [first, live]) {
      assert.deepEqual([code, stderr], [0, '']);
      assertXml(stdout);
    }
    assert.notEqual(first.stdout, live.stdout);
    assert.match(
      (await shell.run(['draw', 'hesk-neck.pickup', '--view', 'schematic'])).stderr,
      /no instrument to draw/,
    );
  });

  it('writes all positions of an instrument, the live one emphasised', async () => {
    const all = await shell.run(['draw', 'larkspit.pickup', '--view', 'positions']);
    const live = await shell.run(['draw', 'larkspit.pickup', '--view', 'positions', '--position', '2']);
    for (const { code, stdout, stderr } of [all, live]) {
      assert.deepEqual([code, stderr], [0, '']);
      assertXml(stdout);
    }
    assert.notEqual(all.stdout, live.stdout);
    assert.match(
      (await shell.run(['draw', 'hesk-neck.pickup', '--view', 'positions'])).stderr,
      /no instrument to draw/,
    );
  });

  it('writes the switches of an instrument lug by lug, where its wiring is written', async () => {
    const { code, stdout, stderr } = await shell.run([
      'draw',
      'yarrowby.pickup',
      '--view',
      'switch',
      '--position',
      '4',
      '--instrument',
      'yarrowby',
    ]);
    assert.deepEqual([code, stderr], [0, '']);
    assertXml(stdout);
    assert.match(
      (await shell.run(['draw', 'quorl.pickup', '--view', 'switch'])).stderr,
      /no wiring that is known to the last lug/,
    );
  });

  it('refuses what does not go together, and positions that there are not', async () => {
    const wrong = await shell.run(['draw', 'larkspit.pickup', '--position', '2']);
    assert.match(wrong.stderr, /--position belongs to --view schematic, response, positions and switch\n$/);
    for (const view of ['schematic', 'response', 'positions']) {
      const none = await shell.run(['draw', 'larkspit.pickup', '--view', view, '--position', '9']);
      assert.match(none.stderr, /has no position 9, only 1, 2, 3, 4, 5\n$/, view);
    }
  });

  it('shows the response of a pickup that was reworked over that of the state before', async () => {
    const { code, stdout } = await shell.run(['draw', 'pipkin-neck.pickup', '--view', 'response']);
    assert.equal(code, 0);
    assert.match(stdout, /Pipkin, neck: before and now/);
    assert.match(stdout, /pipkin-heavier/);
  });

  it('asks which pickup is meant where there are several', async () => {
    const { code, stderr } = await shell.run(['draw', 'larkspit.pickup']);
    assert.equal(code, 2);
    assert.match(stderr, /--pickup NAME says which: larkspit-middle, larkspit-bridge\n$/);
    // Of one pickup's states the newest is meant.
    assert.equal((await shell.run(['draw', 'tansy-bridge.pickup'])).code, 0);
    assert.equal((await shell.run(['draw', 'tansy-bridge.pickup', '--pickup', 'tansy-before'])).code, 0);
    assert.match(
      (await shell.run(['draw', 'tansy-bridge.pickup', '--pickup', 'tansy-befor'])).stderr,
      /did you mean tansy-before\?/,
    );
    assert.match((await shell.run(['draw', 'empty.pickup'])).stderr, /empty\.pickup holds no pickup to draw/);
  });
});
