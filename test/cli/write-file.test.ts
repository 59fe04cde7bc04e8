import assert from 'node:assert/strict';
import { execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import {
  chmodSync,
  chownSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { rewriteFile, writeFile } from '../../server/src/cli/write-file.ts';
import { bundled, COMMAND_LINE } from '../support/bundled.ts';

describe('a file that a command writes', () => {
  let folder = '';
  beforeEach(() => {
    folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'pickup-written-')));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const at = (file: string): string => path.join(folder, file);
  const text = (file: string): string => readFileSync(at(file), 'utf8');
  const write = (file: string, content = ''): string => {
    mkdirSync(path.dirname(at(file)), { recursive: true });
    writeFileSync(at(file), content);
    return at(file);
  };
  const replaced = (file: string): Promise<void> => writeFile(at(file), 'new', { replace: true });

  it('is whole, keeps its mode, and nothing is left beside it', async () => {
    chmodSync(write('a.svg', 'old'), 0o640);
    await replaced('a.svg');
    assert.deepEqual([text('a.svg'), statSync(at('a.svg')).mode & 0o777], ['new', 0o640]);
    assert.deepEqual(readdirSync(folder), ['a.svg']);
  });

  it('keeps its owner and group', async () => {
    // Only the superuser gives a file away.
    const owner = process.getuid?.() === 0 ? 12_345 : statSync(folder).uid;
    const group = process.getuid?.() === 0 ? 23_456 : statSync(folder).gid;
    chownSync(write('a.svg', 'old'), owner, group);
    await replaced('a.svg');
    const { uid, gid } = statSync(at('a.svg'));
    assert.deepEqual([uid, gid, text('a.svg')], [owner, group, 'new']);
  });

  it('replaces another only where that is asked for, and makes the folders that are missing', async () => {
    const file = write('a.svg', 'old');
    await assert.rejects(writeFile(file, 'new', { replace: false }), /a\.svg: is already there; --force replaces it$/);
    assert.equal(text('a.svg'), 'old');
    await writeFile(at('deep/er/b.svg'), 'new', { replace: false });
    assert.equal(text('deep/er/b.svg'), 'new');
  });

  it('is written through a link, which stays', async () => {
    write('real/a.svg', 'old');
    symlinkSync('real/a.svg', at('first.svg'));
    symlinkSync('first.svg', at('second.svg'));
    await replaced('second.svg');
    assert.deepEqual([readlinkSync(at('second.svg')), readlinkSync(at('first.svg'))], ['first.svg', 'real/a.svg']);
    assert.equal(text('real/a.svg'), 'new');
    assert.deepEqual(readdirSync(at('real')), ['a.svg']);
  });

  const refused: readonly (readonly [what: string, make: () => void, says: RegExp])[] = [
    ['a folder', () => mkdirSync(at('x')), /: is a folder$/],
    ['a pipe', () => execFileSync('mkfifo', [at('x')]), /: is no plain file/],
    ['a device', () => symlinkSync('/dev/null', at('x')), /: is no plain file/],
    ['a write-protected file', () => chmodSync(write('x', 'old'), 0o444), /: is write-protected$/],
    ['one of two names of a file', () => linkSync(write('b', 'old'), at('x')), /: has another name \(a hard link\)/],
    ['a link to nothing', () => symlinkSync('nowhere', at('x')), /: is a link to nothing$/],
    ['a link to itself', () => symlinkSync('x', at('x')), /: links to itself$/],
    ['a spec under another name', () => symlinkSync(write('a.pickup', 'wire a {}'), at('x')), /: is a spec/],
  ];
  for (const [what, make, says] of refused) {
    it(`never takes the place of ${what}`, async () => {
      make();
      const before = lstatSync(at('x'));
      await assert.rejects(replaced('x'), says);
      const after = lstatSync(at('x'));
      assert.deepEqual([after.ino, after.mode, after.size], [before.ino, before.mode, before.size]);
      assert.deepEqual(
        readdirSync(folder).filter((name) => name.endsWith('.part')),
        [],
      );
    });
  }

  it('through a file fails in one line', async () => {
    write('a.svg');
    await assert.rejects(replaced('a.svg/b.svg'), /: a part of the path is not a folder$/);
  });

  it('is not the file that it was made from, whatever that is called and however it is named', async () => {
    const source = write('spec.txt', 'wire a {}');
    symlinkSync('spec.txt', at('link.svg'));
    for (const file of ['spec.txt', 'link.svg', `../${path.basename(folder)}/spec.txt`]) {
      await assert.rejects(writeFile(at(file), 'x', { replace: true, madeFrom: [source] }), /is a spec/);
    }
    assert.equal(text('spec.txt'), 'wire a {}');
  });

  it('leaves nothing behind where the disk is full', async () => {
    // What is too large for the limit on a file's size fails as a full disk does, in the middle.
    const script = `trap '' XFSZ; ulimit -f 8; exec "$0" -e "$1"`;
    const module = await bundled('server/src/cli/write-file.ts');
    const code = `require(${JSON.stringify(module)})
      .writeFile(${JSON.stringify(write('a.svg', 'old'))}, 'x'.repeat(1e6), { replace: true }).catch((error) => console.log(error.message))`;
    const said = execFileSync('bash', ['-c', script, process.execPath, code], { encoding: 'utf8' });
    assert.match(said, /a\.svg: .*\n$/);
    assert.deepEqual([text('a.svg'), readdirSync(folder)], ['old', ['a.svg']]);
  });

  describe('that is laid out anew', () => {
    const read = Buffer.from('old');
    it('is replaced where it still holds what was read', async () => {
      await rewriteFile(write('a.pickup', 'old'), read, 'new');
      assert.deepEqual([text('a.pickup'), readdirSync(folder)], ['new', ['a.pickup']]);
    });
    for (const [how, save] of [
      ['in place', () => writeFileSync(at('a.pickup'), 'newer')],
      ['by another file of the same name', () => renameSync(write('b', 'newer'), at('a.pickup'))],
    ] as const) {
      it(`stays where it was saved anew, ${how}`, async () => {
        write('a.pickup', 'old');
        save();
        await assert.rejects(rewriteFile(at('a.pickup'), read, 'new'), /left as it is, for it was saved anew/);
        assert.deepEqual([text('a.pickup'), readdirSync(folder)], ['newer', ['a.pickup']]);
      });
    }
    it('stays gone where it was removed', async () => {
      await assert.rejects(rewriteFile(at('a.pickup'), read, 'new'), /saved anew/);
      assert.deepEqual(readdirSync(folder), []);
    });
    it('stays joined to its other name', async () => {
      linkSync(write('a.pickup', 'old'), at('b.pickup'));
      await assert.rejects(rewriteFile(at('a.pickup'), read, 'new'), /has another name/);
      assert.deepEqual([text('a.pickup'), text('b.pickup')], ['old', 'old']);
    });
  });

  describe('by the program itself', () => {
    const UNTIDY = 'wire a{\n gauge   42 AWG\n}\n';

    it('loses none of 40 saves that come while it formats', async () => {
      const files = Array.from({ length: 40 }, (_, index) => `${String(index).padStart(2, '0')}.pickup`);
      for (const file of files) write(file, UNTIDY.repeat(100));
      const child = spawn(process.execPath, [await bundled(COMMAND_LINE), 'format', folder], {
        stdio: ['ignore', 'pipe', 'pipe'],
      });
      const ended = once(child, 'close');
      child.stderr.resume();
      await once(child.stdout, 'data');
      for (const file of files) {
        writeFileSync(at(file), `# saved ${file}\n${UNTIDY}`);
        await new Promise((resolve) => setTimeout(resolve, 8));
      }
      await ended;
      for (const file of files) assert.ok(text(file).startsWith(`# saved ${file}\n`), file);
    });

    it('leaves no temporary file when a signal ends it, and the file is the old or the new one', async () => {
      const parts = Array.from({ length: 60 }, (_, index) => `f${index}.pickup`);
      for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) {
        for (const part of parts) write(part, UNTIDY);
        const child = spawn(process.execPath, [await bundled(COMMAND_LINE), 'format', folder], {
          stdio: ['ignore', 'pipe', 'inherit'],
        });
        const ended = once(child, 'close');
        // The first name that is told says that writing has begun.
        await once(child.stdout, 'data');
        child.kill(signal);
        await ended;
        assert.deepEqual(readdirSync(folder).sort(), [...parts].sort(), signal);
        const contents = new Set(parts.map(text));
        assert.ok([...contents].every((each) => [UNTIDY, 'wire a {\n  gauge 42 AWG\n}\n'].includes(each)));
      }
    });
  });
});
