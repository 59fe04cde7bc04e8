import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { CommandError } from '../../server/src/cli/command.ts';
import { diskHost, shownPath, specFiles, uriOf, workspaceRoot } from '../../server/src/cli/files.ts';
import { decodeText, readTextFile } from '../../server/src/cli/text-file.ts';

describe('files of the command line', () => {
  let folder = '';
  beforeEach(() => {
    folder = realpathSync(mkdtempSync(path.join(tmpdir(), 'pickup-files-')));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const at = (file: string): string => path.join(folder, file);
  const write = (file: string, content: string | Uint8Array = ''): string => {
    mkdirSync(path.dirname(at(file)), { recursive: true });
    writeFileSync(at(file), content);
    return at(file);
  };

  describe('read as text', () => {
    it('a byte-order mark is set aside, CRLF stays', () => {
      const read = readTextFile(write('a.pickup', '\uFEFFwire a {\r\n}'));
      assert.deepEqual(read, { ok: true, text: 'wire a {\r\n}', byteOrderMark: true });
    });
    it('a file of 5 MB is read whole', () => {
      const read = readTextFile(write('big.pickup', '# x\n'.repeat(1_250_000)));
      assert.equal(read.ok && read.text.length, 5_000_000);
    });
    const bad: readonly (readonly [what: string, bytes: readonly number[], problem: RegExp])[] = [
      ['a lone continuation byte in line 2', [0x61, 0x0a, 0x80], /^is not UTF-8 text \(see line 2\)/],
      ['a sequence cut off at the end', [0x61, 0xe2, 0x84], /^is not UTF-8 text \(see line 1\)/],
      ['an encoded surrogate', [0xed, 0xa0, 0x80], /^is not UTF-8/],
      ['UTF-16, little end first', [0xff, 0xfe, 0x61, 0x00], /^is UTF-16 text; save it as UTF-8$/],
      ['UTF-16, big end first', [0xfe, 0xff, 0x00, 0x61], /^is UTF-16/],
    ];
    for (const [what, bytes, problem] of bad) {
      it(`${what} is told`, () => {
        const read = decodeText(Uint8Array.from(bytes));
        assert.match(read.ok ? '' : read.problem, problem);
      });
    }
    it('a folder, a missing file, a path through a file and a name with NUL are told', () => {
      write('a.pickup');
      const problem = (file: string): string => {
        const read = readTextFile(at(file));
        return read.ok ? '' : read.problem;
      };
      assert.equal(problem('.'), 'is a folder');
      assert.equal(problem('none.pickup'), 'no such file or folder');
      assert.equal(problem('a.pickup/b'), 'a part of the path is not a folder');
      assert.equal(problem('a\0b'), 'the name holds a character that no file name can');
      assert.equal(problem('x'.repeat(5000)), 'the name is too long');
    });
    it('a device is not read', () => {
      const read = readTextFile('/dev/zero');
      assert.match(read.ok ? '' : read.problem, /^is not a file/);
    });
  });

  describe('found in folders', () => {
    it('are the specs in it and below, in order, without node_modules, dot-folders and linked folders', () => {
      for (const file of [
        'b.pickup',
        'a/z.pickup',
        'a/y.txt',
        'node_modules/n.pickup',
        '.git/g.pickup',
        '.hidden.pickup',
      ]) {
        write(file);
      }
      symlinkSync(at('a'), at('loop'));
      mkdirSync(at('folder.pickup'));
      const { files, problems } = specFiles(['.'], folder);
      assert.deepEqual(
        files.map((file) => path.relative(folder, file)),
        ['.hidden.pickup', 'a/z.pickup', 'b.pickup'],
      );
      assert.deepEqual(problems, []);
    });
    it('are found beside a circle of links; what links to itself is told when it is read', () => {
      for (const file of ['a.pickup', 'z.pickup', 'sub/m.pickup']) write(file);
      symlinkSync(at('round.pickup'), at('back.pickup'));
      symlinkSync(at('back.pickup'), at('round.pickup'));
      symlinkSync(at('self'), at('self'));
      symlinkSync(folder, at('sub/up'));
      const { files, problems } = specFiles(['.'], folder);
      assert.deepEqual(
        files.map((file) => path.relative(folder, file)),
        ['a.pickup', 'back.pickup', 'round.pickup', 'sub/m.pickup', 'z.pickup'],
      );
      assert.deepEqual(problems, []);
      const read = readTextFile(at('round.pickup'));
      assert.equal(read.ok ? '' : read.problem, 'links to itself');
    });
    it('come once for all the links to them and to their folders', () => {
      write('shop/a.pickup');
      symlinkSync(at('shop/a.pickup'), at('shop/b.pickup'));
      symlinkSync(at('shop'), at('linked'));
      const { files } = specFiles(['shop', 'linked', 'shop/b.pickup'], folder);
      assert.deepEqual(
        files.map((file) => path.relative(folder, file)),
        ['shop/a.pickup'],
      );
    });
    it('come once, a file named directly whatever its ending, a missing one as a problem', () => {
      write('a.pickup');
      write('note.txt');
      const { files, problems } = specFiles(['a.pickup', '.', 'note.txt', 'gone'], folder);
      assert.deepEqual(
        files.map((file) => path.basename(file)),
        ['a.pickup', 'note.txt'],
      );
      assert.deepEqual(problems, ['gone: no such file or folder']);
    });
  });

  describe('the workspace', () => {
    it('is the nearest folder upward with .git, else the current folder, else the folder of the file', () => {
      write('repo/.git/HEAD');
      write('repo/specs/a.pickup');
      assert.equal(workspaceRoot(at('repo/specs/a.pickup'), undefined, folder), at('repo'));
      write('plain/specs/a.pickup');
      assert.equal(workspaceRoot('specs/a.pickup', undefined, at('plain')), at('plain'));
      assert.equal(workspaceRoot(at('plain/specs/a.pickup'), undefined, at('repo')), at('plain/specs'));
    });
    it('may be stated, and must then be a folder', () => {
      write('a.pickup');
      assert.equal(workspaceRoot('x/y.pickup', '.', folder), folder);
      assert.throws(() => workspaceRoot('y.pickup', 'a.pickup', folder), CommandError);
    });
    it('holds neither what lies beside it nor what a link leads out to', () => {
      write('out/secret.pickup', 'secret');
      write('in/a.pickup');
      symlinkSync(at('out/secret.pickup'), at('in/link.pickup'));
      symlinkSync(at('out'), at('in/linked'));
      const host = diskHost(at('in'));
      const inside = (file: string): boolean => host.isInside(uriOf(at(file)));
      assert.deepEqual(
        [
          'in/a.pickup',
          'in/missing.pickup',
          'in/link.pickup',
          'in/linked/secret.pickup',
          'out/secret.pickup',
          'in2',
        ].map(inside),
        [true, true, false, false, false, false],
      );
      assert.equal(host.isInside('https://example.org/a.pickup'), false);
    });
    it('shows each file once per run, missing and unreadable told apart', () => {
      const host = diskHost(folder);
      const uri = uriOf(write('a.pickup', 'one'));
      assert.deepEqual(host.content(uri), { kind: 'text', text: 'one' });
      write('a.pickup', 'two');
      assert.deepEqual(host.content(uri), { kind: 'text', text: 'one' });
      assert.deepEqual(host.content(uriOf(at('b.pickup'))), { kind: 'missing' });
      assert.deepEqual(host.content(uriOf(folder)), { kind: 'unreadable', reason: 'is a folder' });
    });
  });

  it('are shown from the current folder, absolute outside it', () => {
    assert.equal(shownPath('/shop/specs/a.pickup', '/shop'), 'specs/a.pickup');
    assert.equal(shownPath('/other/a.pickup', '/shop'), '/other/a.pickup');
    assert.equal(shownPath('/shop/..a.pickup', '/shop'), '..a.pickup');
  });
});
