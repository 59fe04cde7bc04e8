import assert from 'node:assert/strict';
import { mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { commands } from '../../server/src/cli/commands.ts';
import { single } from '../support/shop.ts';
import { Shell } from './shell.ts';
import { validate } from './validate.ts';

const sample = (file: string): string => readFileSync(path.join(import.meta.dirname, '../../samples', file), 'utf8');

const CLEAN = single('hesk');
/** The lead that the hookup names is written otherwise. */
const WRONG = CLEAN.replace('ground grey', 'ground gray');

const OUT_OF_PHASE = `pickup heron {
  coil a {
    turns 5_000
    wound clockwise
    polarity north-up
    start a-in
    finish a-out
  }
  coil b {
    turns 5_000
    wound clockwise
    polarity south-up
    start b-in
    finish b-out
  }
  hookup {
    hot b-in
    link a-in b-out
    ground a-out
  }
}
`;

describe('check', () => {
  let shell: Shell;
  beforeEach(() => {
    shell = new Shell(commands);
  });
  afterEach(() => shell.remove());

  const samples = (): void => {
    for (const file of [
      'shop.pickup',
      'parts/stock.pickup',
      'mistakes/phase-coils-cancel.pickup',
      'mistakes/potting-too-hot.pickup',
    ]) {
      shell.write(file, sample(file));
    }
  };

  describe('as text', () => {
    it('shows the line, the marks under it, related lines and the fix; exit code 1', async () => {
      shell.write('hesk.pickup', WRONG);
      const { code, stdout, stderr } = await shell.run(['check', 'hesk.pickup']);
      assert.deepEqual([code, stderr], [1, '']);
      assert.deepEqual(stdout.split('\n').slice(1), [
        '  No part of this pickup brings out gray: what leaves it is grey and violet.',
        '    11       ground gray',
        '                    ━━━━',
        '  do: Name one of these, or say which part brings out gray.',
        '  fix: Change to `grey`',
        '    11 -     ground gray',
        '       +     ground grey',
        '',
        '1 error in 1 file',
        '',
      ]);
      assert.match(stdout, /^hesk\.pickup:11:12 {2}error {2}lead\/undeclared\n/);
    });
    it('tells findings as the bench of the shop has it: what is no error there ends with exit code 0', async () => {
      shell.write('shop.pickup', 'bench {\n  severity lead/undeclared information\n}\n');
      shell.write('hesk.pickup', `use "shop.pickup"\n${WRONG}`);
      const { code, stdout } = await shell.run(['check', 'hesk.pickup']);
      assert.match(stdout, /^hesk\.pickup:12:12 {2}information {2}lead\/undeclared\n/);
      assert.equal(code, 0);
    });
    it('says where nothing was found, exit code 0', async () => {
      shell.write('hesk.pickup', CLEAN);
      assert.deepEqual(await shell.run(['check']), { code: 0, stdout: 'nothing found in 1 file\n', stderr: '' });
    });
    it('tells the plans of the first files with a fault, however many files are checked', async () => {
      for (let index = 0; index < 25; index += 1) shell.write(`clean/p${index}.pickup`, CLEAN);
      for (let index = 0; index < 22; index += 1) shell.write(`faulty/p${index + 10}.pickup`, OUT_OF_PHASE);
      const { stdout } = await shell.run(['check', 'clean', 'faulty']);
      const planned = [...stdout.matchAll(/^faulty\/p(\d+)|^ {2}plan, about/gm)].map(([, file]) => file ?? 'plan');
      assert.deepEqual(planned.slice(0, 4), ['10', 'plan', '11', 'plan']);
      assert.deepEqual(planned.slice(-4), ['29', 'plan', '30', '31']);
    });

    it('is coloured on a terminal, and there only', async () => {
      shell.write('hesk.pickup', WRONG);
      const plain = await shell.run(['check']);
      const terminal = await shell.run(['check'], { terminal: true });
      const quiet = await shell.run(['check'], { terminal: true, environment: { NO_COLOR: '1' } });
      // The terminal of the tests is 72 cells wide: text is broken there, and nowhere in a pipe.
      assert.ok(terminal.stdout.includes('\u001b[31merror\u001b[0m'));
      assert.equal(
        quiet.stdout,
        plain.stdout.replace('what leaves it is grey and violet', 'what leaves it is grey and\n  violet'),
      );
      assert.ok(!plain.stdout.includes('\u001b'));
    });
    it('marks the right cells behind Ω, µ, an accent and an emoji, and names the column in UTF-16 units', async () => {
      const line = '  note "Ω µ e\u0301 😀"; ground';
      shell.write('hesk.pickup', `bobbin a {\n${line} gray\n}\n`);
      const { stdout } = await shell.run(['check']);
      const [head = '', , source = '', marks = ''] = stdout.split('\n');
      assert.match(head, new RegExp(`^hesk\\.pickup:2:${line.indexOf('ground') + 1} {2}error {2}`));
      assert.equal(source, `     2   ${line} gray`);
      // The accent takes no cell of its own, the emoji two: 19 cells before the word, behind the number and three blanks.
      assert.match(marks, /^ {9} {19}━{6}/);
    });
    it('shows control characters, escape sequences and bidirectional marks of a spec as text', async () => {
      shell.write(
        'hesk.pickup',
        WRONG.replace('pickup hesk', 'pickup hesk "\u001b]0;x\u0007\u202E\u009b2J"').replace('gray', 'gr\u202Eay'),
      );
      const { stdout, stderr } = await shell.run(['check']);
      assert.match(stdout, /<U\+202E>/);
      assert.doesNotMatch(stdout + stderr, /(?!\n)[\p{Cc}\p{Cf}]/u);
    });
  });

  describe('gives the same findings', () => {
    const findings = async (text: string): Promise<unknown> => {
      shell.write('hesk.pickup', text);
      return JSON.parse((await shell.run(['check', '--format', 'json'])).stdout);
    };
    it('for CRLF, a lone CR and a byte-order mark as for LF', async () => {
      const expected = await findings(WRONG);
      assert.deepEqual(await findings(WRONG.replaceAll('\n', '\r\n')), expected);
      assert.deepEqual(await findings(WRONG.replaceAll('\n', '\r')), expected);
      assert.deepEqual(await findings(`\uFEFF${WRONG}`), expected);
    });
    it('for standard input as for the file that it stands for, its use lines included', async () => {
      samples();
      const name = 'mistakes/potting-too-hot.pickup';
      const file = await shell.run(['check', name, '--format', 'json', '--root', '.']);
      const input = await shell.run(['check', '-', '--stdin-path', name, '--format', 'json', '--root', '.'], {
        stdin: sample(name),
      });
      assert.deepEqual(input, file);
      assert.equal(file.code, 1);
    });
  });

  describe('for machines', () => {
    it('as JSON keeps to the published schema, with ranges in UTF-16 units from zero', async () => {
      samples();
      const { code, stdout } = await shell.run(['check', '--format', 'json', '--root', '.']);
      assert.equal(code, 1);
      const data = validate('check-1', stdout);
      const [finding] =
        data.files.find(({ path: file }) => file === 'mistakes/phase-coils-cancel.pickup')?.findings ?? [];
      assert.ok(finding);
      assert.equal(finding.code, 'phase/coils-cancel');
      assert.equal(
        finding.range.start.line,
        sample('mistakes/phase-coils-cancel.pickup').split('\n').indexOf('    link orange grey'),
      );
      assert.equal(finding.range.start.character, 4);
      assert.ok(finding.fixes.length > 0 && finding.related.length > 0);
    });
    it('as SARIF keeps to the standard, lines and columns from one, every result with its rule', async () => {
      samples();
      const { stdout } = await shell.run(['check', '--format', 'sarif', '--root', '.']);
      const [run] = validate('sarif', stdout).runs;
      const result = run?.results.find(({ ruleId }) => ruleId === 'phase/coils-cancel');
      assert.ok(run && result);
      assert.equal(run.tool.driver.rules[result.ruleIndex]?.id, 'phase/coils-cancel');
      assert.deepEqual(result.locations[0]?.physicalLocation, {
        artifactLocation: { uri: 'mistakes/phase-coils-cancel.pickup' },
        region: { startLine: 36, startColumn: 5, endLine: 36, endColumn: 21 },
      });
      assert.equal(run.invocations[0]?.executionSuccessful, true);
    });
    it('as SARIF says what could not be read', async () => {
      shell.write('bad.pickup', Uint8Array.from([0xff]));
      const { code, stdout } = await shell.run(['check', '--format', 'sarif']);
      const [invocation] = validate('sarif', stdout).runs[0]?.invocations ?? [];
      assert.equal(code, 2);
      assert.equal(invocation?.executionSuccessful, false);
      assert.match(String(invocation?.toolExecutionNotifications?.[0]?.message.text), /bad\.pickup: is not UTF-8/);
    });
    it('as annotations escapes what would end them', async () => {
      shell.write('50%,a:b.pickup', WRONG);
      const { stdout } = await shell.run(['check', '--format', 'github']);
      assert.match(
        stdout,
        /^::error file=50%25%2Ca%3Ab\.pickup,line=11,endLine=11,col=12,endColumn=16,title=lead\/undeclared::No part [^\n]*%0Afix: Change to `grey`\n$/,
      );
    });
    it('as JSON holds nothing that steers a terminal', async () => {
      shell.write('hesk.pickup', WRONG.replace('gray', 'gr\u202Eay'));
      assert.doesNotMatch((await shell.run(['check', '--format', 'json'])).stdout, /(?!\n)[\p{Cc}\p{Cf}]/u);
    });
  });

  describe('of what cannot be checked', () => {
    it('says one line with the path, checks the rest, exit code 2', async () => {
      shell.write('a.pickup', CLEAN);
      shell.write('latin.pickup', Buffer.from('note "caf\u00e9"', 'latin1'));
      const { code, stdout, stderr } = await shell.run(['check', '.', 'gone.pickup']);
      assert.equal(code, 2);
      assert.equal(stdout, 'nothing found in 1 file\n');
      assert.deepEqual(stderr.split('\n'), [
        'pickup-spec: gone.pickup: no such file or folder',
        'pickup-spec: latin.pickup: is not UTF-8 text (see line 1); save it as UTF-8',
        '',
      ]);
    });
    it('names a folder where a file was meant', async () => {
      mkdirSync(shell.path('x.pickup'));
      shell.write('main.pickup', 'use "x.pickup"\n');
      const { code, stdout } = await shell.run(['check', 'main.pickup']);
      assert.equal(code, 1);
      assert.match(stdout, /use\/missing/);
    });
    it('standard input without the path that it stands for is wrong usage', async () => {
      const { code, stderr } = await shell.run(['check', '-'], { stdin: CLEAN });
      assert.equal(code, 2);
      assert.match(stderr, /--stdin-path PATH/);
    });
    it('an empty file and an empty folder are clean', async () => {
      assert.deepEqual(await shell.run(['check']), { code: 0, stdout: 'nothing found in no files\n', stderr: '' });
      shell.write('empty.pickup', '');
      assert.equal((await shell.run(['check'])).code, 0);
    });
    it('10,000 nested braces and 1 MB of comments end in findings or none, never in a crash', async () => {
      shell.write('braces.pickup', `pickup a ${'{'.repeat(10_000)}${'}'.repeat(10_000)}`);
      shell.write('deep.pickup', `pickup a {\n${'coil b {\n'.repeat(10_000)}`);
      shell.write('big.pickup', `${'# nothing to see\n'.repeat(60_000)}${WRONG}`);
      const { code, stdout, stderr } = await shell.run(['check']);
      assert.deepEqual([code, stderr], [1, '']);
      assert.match(stdout, /deep\.pickup.*syntax\/unclosed/);
      assert.match(stdout, /big\.pickup:60011:12 {2}error/);
    });
  });

  it('says on a terminal what it is doing once it takes longer than a second', async () => {
    shell.write('hesk.pickup', CLEAN);
    assert.match((await shell.run(['check'], { terminal: true, slow: 2000 })).stderr, /hesk\.pickup …/);
    assert.equal((await shell.run(['check'], { slow: 2000 })).stderr, '');
  });
});
