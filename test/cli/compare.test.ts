import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { PATH_ONLY, Shell } from './shell.ts';
import { validate } from './validate.ts';

const SAMPLES = path.join(import.meta.dirname, '../../samples');

describe('compare', () => {
  let shell: Shell;
  let hesk = '';
  const git = (...words: readonly string[]): void => {
    const identity = ['-c', 'user.name=Ruddle Yard', '-c', 'user.email=bench@ruddle-yard.invalid'];
    execFileSync('git', [...identity, ...words], { cwd: shell.folder, stdio: 'ignore', env: PATH_ONLY });
  };
  before(() => {
    shell = new Shell(commands);
    for (const part of ['shop.pickup', 'parts', 'hesk-neck.pickup', 'tansy-bridge.pickup']) {
      cpSync(path.join(SAMPLES, part), shell.path(part), { recursive: true });
    }
    hesk = readFileSync(shell.path('hesk-neck.pickup'), 'utf8');
    git('init', '--quiet');
    git('add', '.');
    git('commit', '--quiet', '-m', 'As wound');
  });
  after(() => shell.remove());
  afterEach(() => shell.write('hesk-neck.pickup', hesk));

  const json = async (...words: readonly string[]) =>
    validate('compare-1', (await shell.run(['compare', ...words, '--format', 'json'])).stdout);

  it('of a file with its last commit finds what was changed and what that changes', async () => {
    shell.write(
      'hesk-neck.pickup',
      hesk.replace('counted 5_040', 'counted 4_000').replace('screw 4.05 kohm', 'screw 3.16 kohm'),
    );
    const data = await json('HEAD:hesk-neck.pickup', 'hesk-neck.pickup');
    assert.deepEqual(data.facts[0], {
      path: ['pickup hesk-neck', 'coil screw'],
      kind: 'fact changed',
      before: 'counted 5_040',
      after: 'counted 4_000',
    });
    const turns = data.numbers.find(({ key, path: at }) => key === 'turns' && at[1] === 'coil screw');
    assert.deepEqual([turns?.before?.value, turns?.after?.value, turns?.difference?.value], [5040, 4000, -1040]);
    assert.ok(data.findings.come.some(({ code }) => code === 'hum/partly-cancelled'));
    assert.equal(data.same, false);
  });

  it('as text shows facts, numbers and findings', async () => {
    shell.write(
      'hesk-neck.pickup',
      hesk.replace('counted 5_040', 'counted 4_000').replace('screw 4.05 kohm', 'screw 3.16 kohm'),
    );
    const { code, stdout } = await shell.run(['compare', 'HEAD:hesk-neck.pickup', 'hesk-neck.pickup']);
    assert.equal(code, 0);
    assert.match(
      stdout,
      /^HEAD:hesk-neck\.pickup → hesk-neck\.pickup\n\nfacts\n {2}pickup hesk-neck \/ coil screw\n {4}- counted 5_040\n {4}\+ counted 4_000\n/,
    );
    assert.match(stdout, /\n {4}turns +5 040 turns +→ +4 000 turns +\(\u221221\u202F%\)\n/);
    assert.match(stdout, /\nfindings\n(.*\n)* {2}new {3}information hum\/partly-cancelled: /);
  });

  it('finds nothing where only order, layout and comments differ', async () => {
    const moved = hesk
      .replace('  serial RYD-014\n', '')
      .replace('  position neck\n', '  position neck\n\n  serial RYD-014\n');
    shell.write('hesk-neck.pickup', `# Another first line.\n${moved.replaceAll('5_050', '5050')}\n\n`);
    const { code, stdout } = await shell.run(['compare', '--exit-code', 'HEAD:hesk-neck.pickup', 'hesk-neck.pickup']);
    assert.deepEqual([code, stdout], [0, 'HEAD:hesk-neck.pickup → hesk-neck.pickup: no change of meaning\n']);
  });

  it('--exit-code is 1 where there is a difference', async () => {
    shell.write('hesk-neck.pickup', hesk.replace('Sorrel', 'Teasel'));
    assert.equal((await shell.run(['compare', '--exit-code', 'HEAD:hesk-neck.pickup', 'hesk-neck.pickup'])).code, 1);
    assert.equal((await shell.run(['compare', 'HEAD:hesk-neck.pickup', 'hesk-neck.pickup'])).code, 0);
  });

  it('reads what is staged, and files that are used as they were in that revision', async () => {
    const stock = readFileSync(shell.path('parts/stock.pickup'), 'utf8');
    shell.write('parts/stock.pickup', stock.replace('measures 5.52', 'measures 5.60'));
    const data = await json('HEAD:hesk-neck.pickup', 'hesk-neck.pickup');
    const staged = await json('HEAD:hesk-neck.pickup', ':hesk-neck.pickup');
    shell.write('parts/stock.pickup', stock);
    assert.deepEqual(
      data.facts.map(({ path: at, after }) => [at, after]),
      [[['spool RYD-W7'], 'measures 5.60 ohm/m at 20 degC']],
    );
    assert.equal(staged.same, true);
  });

  const refused: readonly (readonly [side: string, says: string])[] = [
    ['nowhere:hesk-neck.pickup', 'nowhere:hesk-neck.pickup: git has no such revision'],
    ['HEAD~9:hesk-neck.pickup', 'HEAD~9:hesk-neck.pickup: git has no such revision'],
    ['--output=x:hesk-neck.pickup', ''],
    ['HEAD:gone.pickup', 'HEAD:gone.pickup: git has no such file in HEAD'],
    ['HEAD:../hesk-neck.pickup', 'HEAD:../hesk-neck.pickup: git has no such file in HEAD'],
    [':gone.pickup', ':gone.pickup: git has no such file in the index'],
    ['HEAD:', 'HEAD:: git has no such file in HEAD'],
    ['HEAD:parts', 'HEAD:parts: git has no such file in HEAD'],
    ['gone.pickup', 'gone.pickup: no such file or folder'],
  ];
  for (const [side, says] of refused) {
    it(`tells in one line: ${side}`, async () => {
      const { code, stdout, stderr } = await shell.run(['compare', side, 'hesk-neck.pickup']);
      assert.deepEqual([code, stdout], [2, '']);
      assert.equal(stderr.trimEnd().split('\n').length, 1);
      if (says !== '') assert.equal(stderr, `pickup-spec: ${says}\n`);
    });
  }

  it('in a shallow clone says how to get the rest; outside a repository that there is none', async () => {
    shell.write('note.txt', 'second');
    git('add', '.');
    git('commit', '--quiet', '-m', 'Second');
    git('clone', '--quiet', '--depth', '1', `file://${shell.folder}`, shell.path('shallow'));
    const inside = new Shell(commands);
    cpSync(shell.path('shallow'), inside.folder, { recursive: true });
    const shallow = await inside.run(['compare', 'HEAD~1:hesk-neck.pickup', 'hesk-neck.pickup']);
    assert.equal(shallow.code, 2);
    assert.match(shallow.stderr, /the clone is shallow: git fetch --unshallow brings the rest\n$/);
    rmSync(inside.path('.git'), { recursive: true });
    const outside = await inside.run(['compare', 'HEAD:hesk-neck.pickup', 'hesk-neck.pickup']);
    assert.match(outside.stderr, /this folder is in no git repository\n$/);
    inside.remove();
    rmSync(shell.path('shallow'), { recursive: true });
  });

  it('of two pickups under two names is a rename and its changes', async () => {
    shell.write('other.pickup', hesk.replaceAll('hesk-neck', 'hesk-two').replace('RYD-014', 'RYD-015'));
    const data = await json('hesk-neck.pickup', 'other.pickup');
    assert.deepEqual(
      data.facts.map(({ kind, after }) => [kind, after]),
      [
        ['renamed', 'hesk-two'],
        ['fact changed', 'serial RYD-015'],
      ],
    );
    assert.deepEqual(data.numbers, []);
  });

  it('as a page needs nothing else and runs nothing, its pictures included', async () => {
    shell.write(
      'hostile.pickup',
      hesk
        .replace('counted 5_040', 'counted 4_000')
        .replace('"Hesk, neck"', '"<script>alert(1)</script>\u202E"')
        .replace('"Sorrel, customer 12"', '"</td><img src=x onerror=alert(1)>"'),
    );
    const { code, stdout } = await shell.run(['compare', 'hesk-neck.pickup', 'hostile.pickup', '--format', 'html']);
    assert.equal(code, 0);
    assert.match(stdout, /^<!doctype html>/);
    assert.match(stdout, /default-src 'none'; style-src 'sha256-/);
    assert.doesNotMatch(stdout, /<script|<img|https?:\/\/(?!www\.w3\.org\/2000\/svg)|\u202E/);
    // Wiring before and after, and the two responses in one plot.
    assert.equal(stdout.match(/<svg /g)?.length, 3);
    const ids = [...stdout.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
    assert.equal(new Set(ids).size, ids.length);
  });

  it('writes a file once, and again only with --force', async () => {
    const words = ['compare', 'HEAD:hesk-neck.pickup', 'hesk-neck.pickup', '--format', 'html', '-o', 'page.html'];
    assert.deepEqual(await shell.run(words), { code: 0, stdout: 'page.html\n', stderr: '' });
    assert.match((await shell.run(words)).stderr, /page\.html: is already there; --force replaces it/);
    assert.equal((await shell.run([...words, '--force'])).code, 0);
  });

  it('tells a mistake that is now meant as a change of severity', async () => {
    const wrong = hesk
      .replace('    counted 5_050\n', '    counted 5_050\n    wound counterclockwise\n')
      .replace(/ {4}(kick|compass|spindle).*\n/g, '');
    shell.write('wrong.pickup', wrong);
    shell.write('meant.pickup', wrong.replace('    ground pink bare\n', '    ground pink bare\n    on purpose\n'));
    const { findings } = await json('wrong.pickup', 'meant.pickup');
    const meant = findings.changed.find(({ code }) => code === 'phase/coils-cancel');
    assert.deepEqual([meant?.severityBefore, meant?.severity], ['error', 'information']);
  });

  it('--facts prints one fact a line, which git diff can show', async () => {
    const { code, stdout } = await shell.run(['compare', '--facts', 'hesk-neck.pickup']);
    assert.equal(code, 0);
    assert.match(stdout, /^pickup hesk-neck \/ coil screw: counted 5_040$/m);
    assert.match(stdout, /^pickup hesk-neck \/ hookup: link orange grey$/m);
    assert.equal((await shell.run(['compare', '--facts', 'hesk-neck.pickup', 'x'])).code, 2);
  });

  describe('of one file', () => {
    const reworked = () =>
      `${hesk}\npickup hesk-again "Hesk, heavier" reworks hesk-neck {\n  coil slug {\n    new\n    bobbin slug-six\n    wire poly-43\n    turns 7_000\n    wound clockwise\n  }\n}\n`;

    it('shows every pickup that reworks another beside the state before', async () => {
      shell.write('rework.pickup', reworked());
      const { code, stdout } = await shell.run(['compare', 'rework.pickup']);
      assert.equal(code, 0);
      assert.match(stdout, /^hesk-neck → hesk-again\n\nfacts\n/);
      assert.match(stdout, /\+ turns 7_000\n/);
      // Of a coil that was kept nothing has changed.
      assert.doesNotMatch(stdout, /coil screw\n +turns/);
      const data = await json('rework.pickup');
      assert.deepEqual([data.before, data.after, data.comparisons], ['hesk-neck', 'hesk-again', undefined]);
      const turns = data.numbers.find(({ key, path: at }) => key === 'turns' && at[1] === 'coil slug');
      assert.equal(turns?.difference?.toldApart, true);
    });

    it('with none says that two are needed', async () => {
      const { code, stderr } = await shell.run(['compare', 'hesk-neck.pickup']);
      assert.equal(code, 2);
      assert.match(stderr, /no pickup reworks another, .*compare needs two; usage: pickup-spec compare A \[B\]\n$/);
    });

    it('two of its pickups are named behind #, in git too', async () => {
      shell.write('rework.pickup', reworked());
      const words = ['HEAD:hesk-neck.pickup#hesk-neck', 'rework.pickup#hesk-again'];
      const data = await json(...words);
      assert.deepEqual([data.before, data.after], words);
      assert.deepEqual(data.facts[0], {
        path: ['pickup hesk-again'],
        kind: 'renamed',
        before: 'hesk-neck',
        after: 'hesk-again',
      });
      assert.ok(data.facts.every(({ path: at }) => at[0] !== 'wire poly-43'));
      const unknown = await shell.run(['compare', 'rework.pickup#hesk-agian', 'rework.pickup']);
      assert.match(unknown.stderr, /rework\.pickup has no pickup hesk-agian: did you mean hesk-again\?\n$/);
    });
  });

  describe('of folders', () => {
    it('tells which files are new, gone and changed, and in what', async () => {
      shell.write('a/one.pickup', 'wire w {\n  gauge 42 AWG\n}\n');
      shell.write('a/two.pickup', 'wire w {\n  gauge 43 AWG\n}\n');
      shell.write('a/three.pickup', 'wire w {\n  gauge 44 AWG\n}\n');
      shell.write('b/one.pickup', '# Only a comment.\nwire w {\n  gauge 42 AWG\n}\n');
      shell.write('b/two.pickup', 'wire w {\n  gauge 42 AWG\n}\n');
      shell.write('b/four.pickup', 'wire w {\n  gauge 42 AWG\n}\n');
      const { code, stdout } = await shell.run(['compare', 'a', 'b', '--exit-code']);
      assert.equal(code, 1);
      assert.equal(
        stdout,
        [
          'a → b: 1 file changed, 1 file without a change of meaning',
          '  new   b/four.pickup',
          '  gone  a/three.pickup',
          '',
          'a/two.pickup → b/two.pickup',
          '',
          'facts',
          '  wire w',
          '    - gauge 43 AWG',
          '    + gauge 42 AWG',
          '',
        ].join('\n'),
      );
      const data = await json('a', 'b');
      assert.deepEqual([data.filesGone, data.filesCome], [['a/three.pickup'], ['b/four.pickup']]);
      assert.deepEqual(
        data.comparisons?.map(({ after, facts }) => [after, facts.length]),
        [['b/two.pickup', 1]],
      );
    });

    it('with itself since a revision or a day', async () => {
      shell.write('since/hesk-neck.pickup', hesk);
      git('add', 'since');
      git('commit', '--quiet', '-m', 'Third');
      shell.write('since/hesk-neck.pickup', hesk.replace('counted 5_040', 'counted 5_000'));
      const { stdout } = await shell.run(['compare', 'since', '--since', 'HEAD']);
      assert.match(stdout, /^HEAD → since: 1 file changed, 0 files without/);
      assert.match(stdout, /- counted 5_040\n +\+ counted 5_000\n/);
      const early = await shell.run(['compare', 'since', '--since', '1999']);
      assert.equal(early.stderr, 'pickup-spec: 1999: git has no commit before that day\n');
      const later = await shell.run(['compare', 'since', '--since', '2098-01']);
      assert.equal(later.stdout, stdout.replace('HEAD →', '2098-01 →'));
    });
  });

  describe('of a pickup that was swept again', () => {
    before(() => {
      cpSync(path.join(SAMPLES, 'sweeps'), shell.path('swept/sweeps'), { recursive: true });
      cpSync(path.join(SAMPLES, 'shop.pickup'), shell.path('swept/shop.pickup'));
      cpSync(path.join(SAMPLES, 'parts'), shell.path('swept/parts'), { recursive: true });
      const potted = readFileSync(path.join(SAMPLES, 'yarrow-bridge.pickup'), 'utf8');
      shell.write('swept/yarrow.pickup', potted.replace(/.*yarrow-potted.*\n/, ''));
      git('add', 'swept');
      git('commit', '--quiet', '-m', 'Before potting');
      shell.write('swept/yarrow.pickup', potted);
    });

    const capacitance = async (...words: readonly string[]) => {
      const { numbers, sweeps } = await json(...words);
      return { numbers: (numbers as { key: string }[]).filter(({ key }) => key === 'capacitanceF'), sweeps };
    };

    it('tells what has changed as measured, in a file, in git and in folders', async () => {
      for (const words of [
        ['HEAD:swept/yarrow.pickup', 'swept/yarrow.pickup'],
        ['swept', '--since', 'HEAD'],
      ]) {
        const { stdout } = await shell.run(['compare', ...words]);
        assert.match(stdout, /as measured\n {2}pickup yarrow-bridge\n {4}Capacitance has risen by 43\.\d+ ± 0\.\d+ pF/);
        const { numbers, sweeps } = await capacitance(...words);
        assert.ok(numbers.length > 0);
        assert.match(JSON.stringify(sweeps), /"capacitanceF":\{"value":4\.3\d+e-11/);
      }
      const { stdout } = await shell.run([
        'compare',
        'HEAD:swept/yarrow.pickup',
        'swept/yarrow.pickup',
        '--format',
        'html',
      ]);
      assert.match(stdout, /before and after, as measured/);
    });

    it('--without sweeps leaves nothing of it, in git and in folders too', async () => {
      for (const words of [
        ['HEAD:swept/yarrow.pickup', 'swept/yarrow.pickup'],
        ['swept', '--since', 'HEAD'],
      ])
        assert.deepEqual(await capacitance(...words, '--without', 'sweeps'), { numbers: [], sweeps: [] });
      cpSync(shell.path('swept'), shell.path('swept-before'), { recursive: true });
      shell.write(
        'swept-before/yarrow.pickup',
        readFileSync(shell.path('swept/yarrow.pickup'), 'utf8').replace(/.*yarrow-potted.*\n/, ''),
      );
      assert.deepEqual(await capacitance('swept-before', 'swept', '--without', 'sweeps'), { numbers: [], sweeps: [] });
    });
  });

  it('marks what a meter showed, beside what is computed', async () => {
    const spec = (ohm: string) =>
      `wire w {\n  diameter 0.0635 mm\n  overall 0.070 mm\n}\nbobbin b {\n  core 60 x 5.8 mm\n  window 11 x 6 mm\n}\npickup p {\n  coil a {\n    bobbin b\n    wire w\n    start blue\n    finish red\n  }\n  readings "bench" 2026-03-02 {\n    room 20 degC\n    a ${ohm} kohm\n  }\n}\n`;
    shell.write('lighter.pickup', spec('4.00'));
    shell.write('heavier.pickup', spec('6.00'));
    const { stdout } = await shell.run(['compare', 'lighter.pickup', 'heavier.pickup']);
    assert.match(stdout, /\n {4}resistance at 20 °C +4\.0\d* ± [\d.]+ kΩ, measured +→ +6\.0\d* ± [\d.]+ kΩ, measured/);
    assert.match(stdout, /\n {4}turns +[\d ]+ ± \d+ turns +→ +[\d ]+ ± \d+ turns +\(/);
  });
});
