import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { FileContent } from '../../server/src/analysis/analysis-types.ts';
import { nodeDisk } from '../../server/src/lsp/disk-node.ts';
import { createDocuments } from '../../server/src/lsp/documents.ts';
import { fileKey, isBelow } from '../../server/src/lsp/file-key.ts';
import { createFiles } from '../../server/src/lsp/files.ts';
import { MOST_BYTES } from '../../server/src/lsp/text-limits.ts';
import { plain } from '../support/geotagged.ts';

describe('file keys', () => {
  it('one file has one key, however an editor escapes it', () => {
    assert.equal(fileKey('file:///shop/a%28b%29.pickup'), fileKey('file:///shop/a(b).pickup'));
    assert.equal(fileKey('file:///C%3A/shop/a.pickup'), fileKey('file:///c:/shop/a.pickup'));
    assert.notEqual(fileKey('file:///shop/a.pickup'), fileKey('file:///shop/A.pickup'));
  });

  it('what is no URI stands for itself', () => {
    for (const odd of ['', 'not a uri: at all', 'file:///tmp/%zz', 'x:', 'untitled:Untitled-1']) {
      assert.equal(fileKey(fileKey(odd)), fileKey(odd));
    }
  });

  it('a folder holds what lies below it, not its neighbours', () => {
    assert.equal(isBelow('file:///shop/parts/a.pickup', 'file:///shop'), true);
    assert.equal(isBelow('file:///shop-2/a.pickup', 'file:///shop'), false);
  });
});

describe('files on the disk', () => {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(path.join(tmpdir(), 'pickup-files-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  const uriOf = (name: string): string => pathToFileURL(path.join(folder, name)).href;
  const write = (name: string, content: string | Uint8Array): string => {
    writeFileSync(path.join(folder, name), content);
    return uriOf(name);
  };
  const reasonOf = (content: FileContent): string => (content.kind === 'unreadable' ? content.reason : content.kind);

  it('a file that is there is read, its byte-order mark left out', () => {
    assert.deepEqual(nodeDisk.read(write('a.pickup', '\uFEFFwire')), { kind: 'text', text: 'wire' });
  });

  it('a file that is not there is missing', () => {
    assert.deepEqual(nodeDisk.read(uriOf('none.pickup')), { kind: 'missing' });
    write('file', '');
    assert.deepEqual(nodeDisk.read(uriOf('file/below.pickup')), { kind: 'missing' });
  });

  it('what cannot be a spec is told in one line', () => {
    mkdirSync(path.join(folder, 'folder.pickup'));
    assert.equal(reasonOf(nodeDisk.read(uriOf('folder.pickup'))), 'it is a folder, not a file');
    assert.equal(reasonOf(nodeDisk.read(write('b', Uint8Array.of(0x77, 0xff, 0xfe)))), 'it is not UTF-8 text');
    assert.match(reasonOf(nodeDisk.read(write('c', 'x'.repeat(MOST_BYTES + 1)))), /more than the 4 MB/);
    symlinkSync('loop', path.join(folder, 'loop'));
    assert.equal(reasonOf(nodeDisk.read(uriOf('loop'))), 'its links lead in a circle');
    assert.equal(reasonOf(nodeDisk.read('file:///dev/null')), 'it is not a regular file');
    assert.match(reasonOf(nodeDisk.read('untitled:x')), /cannot be read/);
  });

  it('the specs beside a file are listed', () => {
    const uri = write('a.pickup', '');
    write('b.pickup', '');
    write('c.txt', '');
    assert.deepEqual([...nodeDisk.siblings(uri)].sort(), ['a.pickup', 'b.pickup']);
  });

  it('a link inside the workspace does not lead out of it; a workspace behind a link is one', () => {
    mkdirSync(path.join(folder, 'out'));
    mkdirSync(path.join(folder, 'in'));
    write('out/secret.pickup', 'secret');
    write('in/own.pickup', 'own');
    symlinkSync(path.join(folder, 'out/secret.pickup'), path.join(folder, 'in/link.pickup'));
    symlinkSync(path.join(folder, 'out'), path.join(folder, 'in/linked'));
    symlinkSync(path.join(folder, 'in'), path.join(folder, 'door'));
    const disk = nodeDisk;
    const files = createFiles({ documents: createDocuments(), disk, askClient: undefined, arrived: () => undefined });
    files.setFolders([uriOf('in'), uriOf('door')]);
    const inside = (name: string): boolean => files.isInside(uriOf(name));
    for (const name of [
      'in/own.pickup',
      'in/missing.pickup',
      'in/none/x.pickup',
      'door/own.pickup',
      'door/none.pickup',
    ])
      assert.equal(inside(name), true, name);
    for (const name of ['in/link.pickup', 'in/linked/secret.pickup', 'in/linked/none.pickup', 'door/link.pickup'])
      assert.equal(inside(name), false, name);
  });

  it('is read again once it has changed, and not before', () => {
    const uri = write('a.pickup', 'one');
    let reads = 0;
    const disk = {
      ...nodeDisk,
      read: (each: string) => {
        reads += 1;
        return nodeDisk.read(each);
      },
    };
    const files = createFiles({ documents: createDocuments(), disk, askClient: undefined, arrived: () => undefined });
    files.content(uri);
    files.newRound();
    files.content(uri);
    assert.equal(reads, 1);
    write('a.pickup', 'another');
    files.newRound();
    assert.deepEqual(files.content(uri), { kind: 'text', text: 'another' });
  });
});

describe('photographs on the disk', () => {
  it('are what their bytes say, read again only when they have changed, and listed near a spec', () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'pickup-photos-'));
    const uriOf = (name: string): string => pathToFileURL(path.join(folder, name)).href;
    mkdirSync(path.join(folder, 'photos'));
    writeFileSync(path.join(folder, 'photos/A.JPG'), plain('jpg'));
    writeFileSync(path.join(folder, 'b.png'), 'no picture');
    const files = createFiles({
      documents: createDocuments(),
      disk: nodeDisk,
      askClient: undefined,
      arrived: () => undefined,
    });
    files.setFolders([pathToFileURL(folder).href]);
    assert.deepEqual(files.photosNear?.(uriOf('x.pickup')), ['b.png', 'photos/A.JPG']);
    assert.equal(files.photo?.(uriOf('photos/A.JPG'))?.kind, 'photo');
    assert.equal(files.photo?.(uriOf('b.png'))?.kind, 'unreadable');
    assert.equal(files.photo?.(uriOf('c.png'))?.kind, 'missing');
    writeFileSync(path.join(folder, 'b.png'), plain('png'));
    files.newRound();
    assert.equal(files.photo?.(uriOf('b.png'))?.kind, 'photo');
    symlinkSync(path.join(tmpdir()), path.join(folder, 'out'));
    assert.equal(files.isInside(uriOf('out/a.jpg')), false);
    rmSync(folder, { recursive: true, force: true });
  });
});

describe('files through the client', () => {
  it('photographs come as bytes, once, and are not there at first', async () => {
    const arrived: string[] = [];
    const files = createFiles({
      documents: createDocuments(),
      disk: undefined,
      askClient: {
        specs: async () => [],
        text: async () => ({ kind: 'missing' }),
        bytes: async () => ({ kind: 'bytes', bytes: plain('webp') }),
      },
      arrived: (uri) => arrived.push(uri),
    });
    assert.equal(files.photo?.('vfs:/a.webp'), undefined);
    await new Promise((resolve) => setImmediate(resolve));
    assert.equal(files.photo?.('vfs:/a.webp')?.kind, 'photo');
    assert.deepEqual(arrived, ['vfs:/a.webp']);
  });

  const open = (uri: string, text: string) => ({ textDocument: { uri, languageId: 'pickup', version: 1, text } });

  it('are asked for once, are not there at first, and arrive', async () => {
    const asked: string[] = [];
    const arrived: string[] = [];
    const files = createFiles({
      documents: createDocuments(),
      disk: undefined,
      askClient: {
        specs: async () => [],
        text: async (uri) => {
          asked.push(uri);
          return { kind: 'text', text: 'wire' };
        },
        bytes: async () => ({ kind: 'missing' }),
      },
      arrived: (uri) => arrived.push(uri),
    });
    assert.equal(files.content('vfs:/a.pickup'), undefined);
    assert.equal(files.content('vfs:/a.pickup'), undefined);
    await new Promise((resolve) => setImmediate(resolve));
    assert.deepEqual(files.content('vfs:/a.pickup'), { kind: 'text', text: 'wire' });
    assert.deepEqual([asked, arrived], [['vfs:/a.pickup'], ['vfs:/a.pickup']]);
  });

  it('a client that fails makes the file unreadable', async () => {
    const files = createFiles({
      documents: createDocuments(),
      disk: undefined,
      askClient: {
        specs: async () => [],
        text: () => Promise.reject(new Error('no')),
        bytes: () => Promise.reject(new Error('no')),
      },
      arrived: () => undefined,
    });
    files.content('vfs:/a.pickup');
    await new Promise((resolve) => setImmediate(resolve));
    assert.equal(files.content('vfs:/a.pickup')?.kind, 'unreadable');
  });

  it('an open document goes before both, under any spelling of its name', () => {
    const documents = createDocuments();
    documents.open(open('file:///shop/a%28b%29.pickup', 'open'));
    const files = createFiles({ documents, disk: nodeDisk, askClient: undefined, arrived: () => undefined });
    assert.deepEqual(files.content('file:///shop/a(b).pickup'), { kind: 'text', text: 'open' });
  });

  it('inside are the folders of the workspace, and beside a file that was opened by itself', () => {
    const documents = createDocuments();
    documents.open(open('file:///desk/loose.pickup', ''));
    const files = createFiles({ documents, disk: undefined, askClient: undefined, arrived: () => undefined });
    files.setFolders(['file:///shop']);
    assert.equal(files.isInside('file:///shop/parts/stock.pickup'), true);
    assert.equal(files.isInside('file:///desk/parts.pickup'), true);
    assert.equal(files.isInside('file:///etc/passwd'), false);
    assert.equal(files.isInside('file:///shop/../etc/passwd'), false);
  });
});
