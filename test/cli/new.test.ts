import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { formatFile } from '../../grammar/src/format.ts';
import { readFileTree } from '../../grammar/src/read-file.ts';
import { commands } from '../../server/src/cli/commands.ts';
import { Shell } from './shell.ts';

describe('new', () => {
  let shell: Shell;
  beforeEach(() => {
    shell = new Shell(commands);
  });
  afterEach(() => shell.remove());

  it('writes parts, a bench, a pickup and an instrument in the one layout', async () => {
    const { code, stdout } = await shell.run(['new', 'shop']);
    assert.equal(code, 0);
    const files = stdout.trimEnd().split('\n');
    assert.deepEqual(files, [
      'shop/shop.pickup',
      'shop/parts/stock.pickup',
      'shop/parts/switches.pickup',
      'shop/first-bridge.pickup',
      'shop/first-guitar.pickup',
    ]);
    for (const file of files) {
      const text = readFileSync(shell.path(file), 'utf8');
      assert.equal(formatFile(readFileTree(text)), text);
    }
  });

  it('writes the switches of the samples, which are those of any shop', async () => {
    await shell.run(['new', 'shop']);
    const sample = readFileSync(new URL('../../samples/parts/switches.pickup', import.meta.url), 'utf8');
    const written = readFileSync(shell.path('shop/parts/switches.pickup'), 'utf8');
    assert.equal(written, sample.replace('\n# expect: clean\n', ''));
    assert.equal([...written.matchAll(/^switch /gm)].length, 8);
  });

  it('writes a shop that is clean', async () => {
    await shell.run(['new', 'shop']);
    assert.deepEqual(await shell.run(['check', 'shop']), {
      code: 0,
      stdout: 'nothing found in 5 files\n',
      stderr: '',
    });
  });

  it('writes nothing at all where one of its files is already there', async () => {
    shell.write('shop/first-guitar.pickup', 'mine');
    const { code, stdout, stderr } = await shell.run(['new', 'shop']);
    assert.deepEqual([code, stdout], [2, '']);
    assert.match(stderr, /shop\/first-guitar\.pickup: is already there; nothing was written/);
    assert.equal(readFileSync(shell.path('shop/first-guitar.pickup'), 'utf8'), 'mine');
    assert.throws(() => readFileSync(shell.path('shop/shop.pickup')), /ENOENT/);
  });

  it('asks on a terminal what was not given, and writes one spec that is clean', async () => {
    const answers = ['Wren', '2', 'neck', '', 'no', '43'];
    const { code, stdout, stderr } = await shell.run(['new', '.', '--what', 'pickup', '--strings', '7'], { answers });
    assert.deepEqual([code, stdout], [0, 'wren.pickup\n']);
    assert.deepEqual(stderr.match(/[^:]+(?=: )/g)?.[0], 'Title [My first pickup]');
    assert.doesNotMatch(stderr, /Strings/);
    assert.equal((await shell.run(['check', 'wren.pickup'])).code, 0);
  });

  it('asks nothing in a pipe: what is not given is the usual', async () => {
    const { code, stdout, stderr } = await shell.run(['new', 'shop', '--what', 'instrument', '--title', 'Teasel']);
    assert.deepEqual([code, stdout, stderr], [0, 'shop/teasel.pickup\n', '']);
    assert.match(readFileSync(shell.path('shop/teasel.pickup'), 'utf8'), /^instrument teasel "Teasel" \{$/m);
    assert.equal((await shell.run(['check', 'shop/teasel.pickup'])).code, 0);
  });

  const MEASURED = ['pole: slug', 'magnet: alnico-3', 'wire: 0.058 mm', 'core: 61x6,2', 'window: 7 x 4.6', 'poles: 6'];

  it('takes what was measured at the bench, in options or on a terminal', async () => {
    const all = [...MEASURED, 'spread: 49.2', 'poleSize: 4.8 x 12', 'bar: 62 x 12.6 x 3.1'];
    const options = all.flatMap((each) => ['--measured', each]);
    assert.equal((await shell.run(['new', '.', '--what', 'pickup', '--title', 'Wren', ...options])).code, 0);
    const text = readFileSync(shell.path('wren.pickup'), 'utf8');
    for (const line of [
      '# As measured on the bench.',
      '  diameter 0.058 mm',
      '  core 61 x 6.2 mm',
      '  window 7 x 4.6 mm',
      '  poles 6 spread 49.2 mm',
      '  pole slug steel 4.8 x 12 mm',
      '  material alnico-3',
      '  size 62 x 12.6 x 3.1 mm',
    ])
      assert.ok(text.split('\n').includes(line), line);
    assert.equal((await shell.run(['check', 'wren.pickup'])).code, 0);
    const answers = ['yes', ...all.map((each) => each.replace(/^\w+: /, ''))];
    const given = ['--what', 'pickup', '--title', 'Tern', '--strings', '6', '--coils', '1', '--position', 'bridge'];
    const asked = await shell.run(['new', '.', ...given, '--leads', 'grey violet'], { answers });
    assert.equal(asked.code, 0, asked.stderr);
    assert.doesNotMatch(asked.stderr, /Wire, AWG/);
    assert.equal(
      readFileSync(shell.path('tern.pickup'), 'utf8').replace(/tern/gi, 'wren'),
      text.replace(/wren/gi, 'wren'),
    );
  });

  for (const [words, told] of [
    [['--strings', '9'], /--strings 9: one of 4, 5, 6, 7, 8/],
    [['--leads', 'grey grey'], /Each lead has a name of its own/],
    [['--position', 'neck, bridge'], /a pickup sits at one/],
    [['--measured', 'core: 60'], /core 60: Core of the bobbin, length x width in mm/],
    [['--measured', 'pole: blade'], /pole blade: one of rod, slug, screw/],
    [['--measured', 'colour: red'], /begins with one of pole, magnet, wire, core/],
    [['--turns', '1.5'], /--turns 1\.5: a whole number is needed/],
  ] as const)
    it(`says what is wrong with ${words.join(' ')}, and writes nothing`, async () => {
      const { code, stdout, stderr } = await shell.run(['new', '.', '--what', 'pickup', ...words]);
      assert.deepEqual([code, stdout], [2, '']);
      assert.match(stderr, told);
    });
});
