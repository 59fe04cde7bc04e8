import assert from 'node:assert/strict';
import { spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, openSync } from 'node:fs';
import { bundled, COMMAND_LINE, ROOT } from '../support/bundled.ts';

describe('the process', () => {
  let main = '';
  before(async () => {
    main = await bundled(COMMAND_LINE);
  });
  const run = (words: readonly string[], input = '') =>
    spawnSync(process.execPath, [main, ...words], { cwd: ROOT, input, encoding: 'utf8' });

  it('prints results on standard output and ends with the code of the command', () => {
    const clean = run(['check', 'samples/hesk-neck.pickup']);
    assert.deepEqual([clean.status, clean.stdout, clean.stderr], [0, 'nothing found in 1 file\n', '']);
    const wrong = run(['check', 'samples/mistakes/syntax-number.pickup']);
    assert.deepEqual([wrong.status, wrong.stderr], [1, '']);
  });

  it('reads standard input', () => {
    const { status, stdout } = run(['format', '-', '--stdin-path', 'a.pickup'], 'wire a{\n}');
    assert.deepEqual([status, stdout], [0, 'wire a {\n}\n']);
  });

  it('refuses standard input without an end', async () => {
    const child = spawn(
      'sh',
      ['-c', '"$0" "$@" < /dev/zero', process.execPath, main, 'check', '-', '--stdin-path', 'a'],
      {
        cwd: ROOT,
        stdio: ['ignore', 'ignore', 'pipe'],
      },
    );
    const told: Buffer[] = [];
    child.stderr.on('data', (piece: Buffer) => told.push(piece));
    const [code] = await once(child, 'close');
    assert.deepEqual(
      [code, Buffer.concat(told).toString()],
      [2, 'pickup-spec: a (standard input): is larger than 64 MB\n'],
    );
  });

  it('says wrong usage on standard error', () => {
    const { status, stdout, stderr } = run(['chek']);
    assert.deepEqual([status, stdout, stderr], [2, '', 'pickup-spec: no command "chek": did you mean check?\n']);
  });

  it('says that nothing more fits on standard output, exit code 2', () => {
    const full = openSync('/dev/full', 'w');
    try {
      const { status, stderr } = spawnSync(process.execPath, [main, 'check', 'samples/hesk-neck.pickup'], {
        cwd: ROOT,
        stdio: ['ignore', full, 'pipe'],
        encoding: 'utf8',
      });
      assert.deepEqual([status, stderr], [2, 'pickup-spec: standard output: no space left on the device\n']);
    } finally {
      closeSync(full);
    }
  });

  it('ends with the code of what it found where standard output is closed, and tells one that takes nothing', () => {
    for (const [shell, expected] of [
      ['"$0" "$@" >&-', [1, '']],
      ['"$0" "$@" 3</dev/null >&3', [2, 'pickup-spec: standard output: is not open for writing\n']],
    ] as const) {
      const words = ['-c', shell, process.execPath, main, 'check', 'samples/mistakes/phase-coils-cancel.pickup'];
      const { status, stderr } = spawnSync('sh', words, { cwd: ROOT, encoding: 'utf8' });
      assert.deepEqual([status, stderr], expected, shell);
    }
  });

  it('ends quietly when nobody reads any more, with the code of what it found', async () => {
    const child = spawn(
      process.execPath,
      [main, 'check', 'samples/mistakes/syntax-number.pickup', '--format', 'json'],
      {
        cwd: ROOT,
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    );
    const complaints: Buffer[] = [];
    child.stderr.on('data', (piece: Buffer) => complaints.push(piece));
    child.stdout.destroy();
    const [code] = await once(child, 'close');
    assert.deepEqual([code, Buffer.concat(complaints).toString()], [1, '']);
  });
});
