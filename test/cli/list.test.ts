import assert from 'node:assert/strict';
import { cpSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('list', () => {
  let shell: Shell;
  before(() => {
    shell = new Shell(commands);
    cpSync(SAMPLES, shell.folder, { recursive: true, filter: (file) => !file.endsWith('mistakes') });
  });
  after(() => shell.remove());

  const serials = async (...where: readonly string[]): Promise<readonly (string | undefined)[]> => {
    const words = where.flatMap((filter) => ['--where', filter]);
    const { code, stdout, stderr } = await shell.run(['list', '--format', 'json', ...words]);
    assert.deepEqual([code, stderr], [0, '']);
    return validate('list-1', stdout).pickups.map(({ serial }) => serial);
  };

  const cases: readonly (readonly [where: readonly string[], serials: readonly string[]])[] = [
    [['serial RYD-014'], ['RYD-014']],
    [['serial RYD-02*'], ['RYD-021', 'RYD-024', 'RYD-026', 'RYD-027', 'RYD-028']],
    [['spool RYD-W9'], ['RYD-030', 'RYD-033', 'RYD-081', 'RYD-084', 'RYD-061', 'RYD-087']],
    [['magnet alnico-2'], ['RYD-048', 'RYD-035', 'RYD-083', 'RYD-085', 'RYD-061', 'RYD-088']],
    [['magnet odd-bar'], ['RYD-021']],
    [['instrument teasel'], ['RYD-014', 'RYD-019']],
    [['photo *cover still off*'], ['RYD-014']],
    [['photo photos/before-joints.jpg'], ['RYD-014']],
    [['made 2026-06'], ['RYD-030', 'RYD-031', 'RYD-040', 'RYD-041']],
    [['made 2026-08-21 to 2026-09'], ['RYD-035', 'RYD-034', 'RYD-055', 'RYD-056']],
    [['for *juniper*'], ['RYD-019']],
    [['resistance 10.5 to 14 kohm'], ['RYD-021', 'RYD-033', 'RYD-081', 'RYD-084', 'RYD-087']],
    [['resistance 10500 ohm to 14 kohm'], ['RYD-021', 'RYD-033', 'RYD-081', 'RYD-084', 'RYD-087']],
    [['turns 9_000 to 10_000'], ['RYD-031', 'RYD-040', 'RYD-041']],
    [
      ['spool RYD-W7', 'position bridge'],
      ['RYD-019', 'RYD-056'],
    ],
    [['finding hum/partly-cancelled', 'made 2026-04'], ['RYD-021']],
    [['design differs'], ['RYD-014']],
    [['needs retest', 'made 2026-07'], ['RYD-046']],
    [['needs sweep', 'made 2026-10-01 to 2026-10-05'], []],
    [
      ['needs sweep', 'made 2026-04'],
      ['RYD-019', 'RYD-021'],
    ],
    [['serial nothing'], []],
  ];
  for (const [where, expected] of cases) {
    it(`${where.join(' and ')}: ${expected.join(', ') || 'none'}`, async () => {
      assert.deepEqual(await serials(...where), expected);
    });
  }

  it('without a filter lists every pickup of the folder, oldest first', async () => {
    const all = await serials();
    assert.equal(all.length, 29);
    assert.deepEqual(all.flatMap((serial) => serial ?? []).slice(0, 3), ['RYD-051', 'RYD-014', 'RYD-019']);
  });

  it('as text gives the reasons that were asked for', async () => {
    const { stdout } = await shell.run(['list', '--where', 'design differs', '--where', 'serial RYD-014']);
    assert.match(
      stdout,
      /^serial +pickup +made +resistance +turns +magnet +instrument +file\nRYD-014 +hesk-neck +2026-03-11 +8\.\d+ ± 0\.\d+ kΩ +5040 \+ 5050 +alnico-5 +teasel +hesk-neck\.pickup\n {4}coil screw: 5\s050 turns planned, 5\s040 counted\n$/,
    );
    assert.equal((await shell.run(['list', '--where', 'serial nothing'])).stdout, 'no pickup fits\n');
  });

  it('says why a pickup needs a sweep', async () => {
    const { stdout } = await shell.run(['list', '--where', 'needs sweep', '--where', 'serial RYD-021']);
    assert.match(
      stdout,
      /\n {4}never swept between hot and ground\n\n[\s\S]*headphones off the head[\s\S]*Phantom power off/,
    );
    const yarrow = readFileSync(path.join(SAMPLES, 'yarrow-bridge.pickup'), 'utf8');
    shell.write('yarrow-bridge.pickup', yarrow.replace(/.*yarrow-potted.*\n/, ''));
    const potted = await shell.run(['list', '--where', 'needs sweep', '--where', 'serial RYD-052']);
    shell.write('yarrow-bridge.pickup', yarrow);
    assert.match(potted.stdout, /\n {4}not swept since it was potted\n\nBefore the test signal/);
    assert.deepEqual(await serials('needs sweep', 'serial RYD-052'), []);
  });

  it('a pickup that was reworked is listed in its newest state, and on demand with those before it', async () => {
    const words = ['list', '--where', 'serial RYD-061'];
    assert.match(
      (await shell.run(words)).stdout,
      /^serial .*\nRYD-061 +pipkin-neck +2026-10-19 .* 5020 \+ 6100 +alnico-2 +- +pipkin-neck\.pickup\n$/,
    );
    assert.match(
      (await shell.run([...words, '--life'])).stdout,
      /\n +was pipkin-heavier +2026-09-15 .* 5020 \+ 6100 +alnico-5\n +was pipkin-made +2024-05-14 .* 5020 \+ 5030 +alnico-5\n$/,
    );
    const [pickup] = validate('list-1', (await shell.run([...words, '--format', 'json'])).stdout).pickups;
    assert.deepEqual(
      pickup?.life.map(({ name }) => name),
      ['pipkin-heavier', 'pipkin-made'],
    );
  });

  const wrong: readonly (readonly [where: string, says: RegExp])[] = [
    ['resistence 7 to 8 kohm', /did you mean resistance\?/],
    ['resistance 7 to 8', /write it like "resistance 7 to 8 kohm"/],
    ['resistance 7 to 8 mm', /write it like/],
    ['made yesterday', /write it like "made 2026-05 to 2026-07"/],
    ['needs soldering', /write it like "needs retest"/],
    ['', /begins with one of serial, name/],
    ['__proto__ x', /begins with one of/],
  ];
  for (const [where, says] of wrong) {
    it(`refuses "${where}" in one line`, async () => {
      const { code, stdout, stderr } = await shell.run(['list', '--where', where]);
      assert.deepEqual([code, stdout], [2, '']);
      assert.match(stderr, says);
    });
  }
});
