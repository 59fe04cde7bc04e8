import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { deflateRawSync } from 'node:zlib';
import { commandTitles } from '../host/manifest.ts';
import { unzip } from '../host/unzip.ts';
import { pageAddress } from '../host/vscode-server.ts';
import { totalsIn } from '../scripts/steps.ts';

describe('the test host', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'host-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  it('adds up the totals of all suites of a step and takes no other line for one', () => {
    assert.deepEqual(totalsIn('unit: 12 passed, 1 failed\nfine: 9 passed, 9 failed\neditor: 3 passed, 0 failed\n'), {
      passed: 15,
      failed: 1,
    });
    assert.equal(totalsIn('  unit: 12 passed, 0 failed, as it were\n'), undefined);
  });

  it('names a command as the palette shows it, from the manifest and its texts', () => {
    write('package.json', {
      contributes: {
        commands: [
          { command: 'x.draw', category: '%category%', title: '%draw%' },
          { command: 'x.plain', title: 'Plain' },
        ],
      },
    });
    write('package.nls.json', { category: 'Bench', draw: 'Draw Again' });
    assert.deepEqual(
      [...commandTitles(folder)],
      [
        ['x.draw', 'Bench: Draw Again'],
        ['x.plain', 'Plain'],
      ],
    );
  });

  it('tells the workbench which extension, tests and file to take, by an address on this machine', () => {
    const address = new URL(
      pageAddress(4711, { extension: '/a b/ext', tests: '/a b/tests.cjs', folder: '/specs', file: '/specs/ö.pickup' }),
    );
    assert.equal(address.origin, 'http://127.0.0.1:4711');
    assert.equal(address.searchParams.get('folder'), '/specs');
    const payload: unknown = JSON.parse(address.searchParams.get('payload') ?? '');
    assert.deepEqual(payload, [
      ['skipWelcome', 'true'],
      ['extensionDevelopmentPath', 'vscode-remote://127.0.0.1:4711/a%20b/ext'],
      ['extensionTestsPath', 'vscode-remote://127.0.0.1:4711/a%20b/tests.cjs'],
      ['openFile', 'vscode-remote://127.0.0.1:4711/specs/%C3%B6.pickup'],
    ]);
  });

  it('unpacks stored and deflated entries, and none outside its folder', () => {
    const archive = path.join(folder, 'a.zip');
    writeFileSync(archive, zip({ 'extension/a.txt': 'wound', 'b.txt': 'potted '.repeat(100) }));
    assert.deepEqual(unzip(archive, path.join(folder, 'out')), ['extension/a.txt', 'b.txt']);
    assert.equal(readFileSync(path.join(folder, 'out/extension/a.txt'), 'utf8'), 'wound');
    assert.equal(readFileSync(path.join(folder, 'out/b.txt'), 'utf8'), 'potted '.repeat(100));

    writeFileSync(archive, zip({ '../c.txt': 'no' }));
    assert.throws(() => unzip(archive, path.join(folder, 'out')), /outside: \.\.\/c\.txt/);
  });

  function write(file: string, content: unknown): void {
    mkdirSync(folder, { recursive: true });
    writeFileSync(path.join(folder, file), JSON.stringify(content));
  }
});

/** A zip archive by the published layout (PKWARE APPNOTE.TXT), without check sums; texts beyond 50 bytes deflated. */
function zip(files: Readonly<Record<string, string>>): Buffer {
  const locals: Buffer[] = [];
  const entries: Buffer[] = [];
  let offset = 0;
  for (const [name, text] of Object.entries(files)) {
    const raw = Buffer.from(text);
    const deflated = raw.length > 50;
    const content = deflated ? deflateRawSync(raw) : raw;
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(deflated ? 8 : 0, 4);
    common.writeUInt32LE(content.length, 14);
    common.writeUInt32LE(raw.length, 18);
    common.writeUInt16LE(name.length, 22);
    const local = Buffer.concat([Buffer.from('PK\x03\x04'), common, Buffer.from(name), content]);
    const tail = Buffer.alloc(14);
    tail.writeUInt32LE(offset, 10);
    entries.push(Buffer.concat([Buffer.from('PK\x01\x02'), Buffer.from([20, 0]), common, tail, Buffer.from(name)]));
    locals.push(local);
    offset += local.length;
  }
  const directory = Buffer.concat(entries);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(entries.length, 4);
  end.writeUInt16LE(entries.length, 6);
  end.writeUInt32LE(directory.length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...locals, directory, Buffer.from('PK\x05\x06'), end]);
}
