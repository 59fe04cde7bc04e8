import assert from 'node:assert/strict';
import { chmodSync, readFileSync } from 'node:fs';
import { commands } from '../../server/src/cli/commands.ts';
import { noAnalyser } from './no-analyser.ts';
import { Shell } from './shell.ts';

const UNTIDY = 'wire a{\n      gauge   42 AWG   # by its number\n\n\n\n}\n';
const TIDY = 'wire a {\n  gauge 42 AWG # by its number\n}\n';
const BROKEN = 'wire a {\n      gauge ) 42 AWG\n';

describe('format', () => {
  let shell: Shell;
  beforeEach(() => {
    shell = new Shell(commands, noAnalyser);
  });
  afterEach(() => shell.remove());
  const content = (file: string): string => readFileSync(shell.path(file), 'utf8');

  it('writes the one layout and names what it wrote', async () => {
    shell.write('a.pickup', UNTIDY);
    shell.write('b.pickup', TIDY);
    assert.deepEqual(await shell.run(['format']), { code: 0, stdout: 'a.pickup\n', stderr: '' });
    assert.equal(content('a.pickup'), TIDY);
    assert.deepEqual(await shell.run(['format']), { code: 0, stdout: '', stderr: '' });
  });

  it('--check changes nothing, names what would change, exit code 1', async () => {
    shell.write('a.pickup', UNTIDY);
    shell.write('b.pickup', TIDY);
    assert.deepEqual(await shell.run(['format', '--check']), { code: 1, stdout: 'a.pickup\n', stderr: '' });
    assert.equal(content('a.pickup'), UNTIDY);
    assert.equal((await shell.run(['format', '--check', 'b.pickup'])).code, 0);
  });

  it('leaves a file with syntax errors alone, formats the others, exit code 2', async () => {
    shell.write('a.pickup', BROKEN);
    shell.write('b.pickup', UNTIDY);
    const { code, stdout, stderr } = await shell.run(['format']);
    assert.equal(code, 2);
    assert.equal(stdout, 'b.pickup\n');
    assert.match(stderr, /^pickup-spec: a\.pickup: left as it is, for it has syntax errors/);
    assert.equal(content('a.pickup'), BROKEN);
  });

  for (const written of ['1e+-3 mm', '1e mm', '42e+3 AWG', '42 AWG AWG']) {
    it(`leaves ${written} as it was typed`, async () => {
      const text = `wire a {\n     gauge   ${written}\n}\n`;
      shell.write('a.pickup', text);
      const { code, stderr } = await shell.run(['format']);
      assert.deepEqual([code, content('a.pickup')], [2, text]);
      assert.match(stderr, /a\.pickup: left as it is, for it has syntax errors/);
    });
  }

  it('tells a write-protected file and goes on', async () => {
    chmodSync(shell.write('a.pickup', UNTIDY), 0o444);
    shell.write('b.pickup', UNTIDY);
    const { code, stdout, stderr } = await shell.run(['format']);
    assert.deepEqual([code, stdout, content('a.pickup')], [2, 'b.pickup\n', UNTIDY]);
    assert.match(stderr, /a\.pickup: is write-protected$/m);
  });

  it('keeps a byte-order mark and CRLF', async () => {
    shell.write('a.pickup', `\uFEFF${UNTIDY.replaceAll('\n', '\r\n')}`);
    await shell.run(['format']);
    assert.equal(content('a.pickup'), `\uFEFF${TIDY.replaceAll('\n', '\r\n')}`);
    shell.write('b.pickup', `\uFEFF${TIDY.replaceAll('\n', '\r\n')}`);
    assert.equal((await shell.run(['format', '--check', 'b.pickup'])).code, 0);
  });

  it('of standard input goes to standard output', async () => {
    const { code, stdout } = await shell.run(['format', '-', '--stdin-path', 'a.pickup'], { stdin: UNTIDY });
    assert.deepEqual([code, stdout], [0, TIDY]);
    const broken = await shell.run(['format', '-', '--stdin-path', 'a.pickup'], { stdin: BROKEN });
    assert.deepEqual([broken.code, broken.stdout], [2, '']);
  });

  it('tells in a line each what cannot be read', async () => {
    shell.write('a.pickup', Uint8Array.from([0x77, 0xff]));
    const { code, stderr } = await shell.run(['format', 'a.pickup', 'gone']);
    assert.equal(code, 2);
    assert.deepEqual(stderr.split('\n'), [
      'pickup-spec: gone: no such file or folder',
      'pickup-spec: a.pickup: is not UTF-8 text (see line 1); save it as UTF-8',
      '',
    ]);
  });
});
