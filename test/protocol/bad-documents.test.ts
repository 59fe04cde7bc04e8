import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { SINGLE } from '../support/shop.ts';
import { type ServerProcess, startServer } from './server-process.ts';

const FILE = 'file:///shop/main.pickup';
const symbols = (server: ServerProcess) =>
  server.request('textDocument/documentSymbol', { textDocument: { uri: FILE } });

describe('documents that no one should write', () => {
  let server: ServerProcess;
  before(async () => {
    server = await startServer();
  });
  after(() => server.stop());

  const texts: Readonly<Record<string, string>> = {
    empty: '',
    'a byte-order mark with CRLF': `\uFEFF${SINGLE.replaceAll('\n', '\r\n')}`,
    'CR alone': SINGLE.replaceAll('\n', '\r'),
    'NUL, control characters, lone surrogates': `\0\x01\x1b[31m\uD83D\uDE00\uD83D\n${SINGLE}\uDE00`,
    'right-to-left marks and markup in a title': SINGLE.replace('"Wren"', '"\u202E<img src=x onerror=y>&amp;\u202C"'),
    'names of the language of this program': SINGLE.replaceAll('wren', '__proto__').replaceAll('main', 'constructor'),
    'a line of a megabyte': `${SINGLE}\n${'x'.repeat(1_000_000)}`,
    'an open text of a megabyte': `${SINGLE}\n"${'\\"'.repeat(500_000)}`,
    '10,000 nested braces': `${SINGLE}\n${'coil a {\n'.repeat(10_000)}`,
    '100,000 open braces': '{'.repeat(100_000),
    '50,000 errors': '@ '.repeat(50_000),
    'a pickup of 100 coils, each of them with a mistake': pickupOf(100),
    'nearly 4 MB of comment': '# one more line of a comment that nobody reads\n'.repeat(85_000),
  };
  let version = 0;
  for (const [name, text] of Object.entries(texts)) {
    it(`${name}: findings come, and the outline answers`, async () => {
      version += 1;
      server.open(FILE, text, version);
      assert.ok(Array.isArray(await server.diagnosed(FILE, version)));
      assert.ok(Array.isArray(await symbols(server)));
      assert.deepEqual(server.log, []);
    });
  }

  it('a text too long to be a spec gets one warning that says so', async () => {
    version += 1;
    server.open(FILE, '#'.repeat(5 * 1024 * 1024), version);
    const found = await server.diagnosed(FILE, version);
    assert.deepEqual(
      found.map(({ code }) => code),
      ['file/too-large'],
    );
  });
});

describe('files that cannot be used', () => {
  let folder = '';
  let server: ServerProcess;
  before(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'pickup-use-'));
    mkdirSync(path.join(folder, 'folder.pickup'));
    writeFileSync(path.join(folder, 'latin.pickup'), Uint8Array.of(0x77, 0xe4, 0x72));
    writeFileSync(path.join(folder, 'empty.pickup'), '');
    server = await startServer({ workspace: pathToFileURL(folder).href });
  });
  after(async () => {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  for (const [used, wanted] of [
    ['folder.pickup', /folder/],
    ['latin.pickup', /UTF-8/],
    ['none.pickup', /none\.pickup/],
  ] as const) {
    it(`${used}: one finding at the line that uses it`, async () => {
      const uri = pathToFileURL(path.join(folder, `uses-${used}`)).href;
      server.open(uri, `use "${used}"\n`);
      const found = await server.diagnosed(uri, 1);
      assert.equal(found.length, 1);
      assert.equal(found[0]?.range.start.line, 0);
      assert.match(String(found[0]?.message), wanted);
    });
  }

  it('an empty file can be used', async () => {
    const uri = pathToFileURL(path.join(folder, 'uses-empty.pickup')).href;
    server.open(uri, 'use "empty.pickup"\n');
    assert.deepEqual(await server.diagnosed(uri, 1), []);
  });

  it('a file that comes, changes and goes is noticed by those that use it', async () => {
    const uri = pathToFileURL(path.join(folder, 'uses-late.pickup')).href;
    const late = pathToFileURL(path.join(folder, 'late.pickup')).href;
    server.open(uri, 'use "late.pickup"\nspool RYD-1 {\n  wire plain-42\n}\n');
    const codes = (count: number): Promise<readonly unknown[]> =>
      server.until(() => {
        const all = server.published.filter((each) => each.uri === uri);
        return all.length < count ? undefined : all.at(-1)?.diagnostics.map(({ code }) => code);
      });
    assert.ok((await codes(1)).includes('use/missing'));
    writeFileSync(path.join(folder, 'late.pickup'), 'wire plain-42 {\n  gauge 42 AWG\n}\n');
    server.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: late, type: 1 }] });
    assert.deepEqual(await codes(2), []);
    rmSync(path.join(folder, 'late.pickup'));
    server.notify('workspace/didChangeWatchedFiles', { changes: [{ uri: late, type: 3 }] });
    assert.ok((await codes(3)).includes('use/missing'));
  });
});

/** Coils in a row, each second one against the others. */
function pickupOf(count: number): string {
  const numbers = Array.from({ length: count }, (_, index) => index);
  const coil = (index: number): string =>
    SINGLE.slice(SINGLE.indexOf('  coil main {'), SINGLE.indexOf('  cover none'))
      .replace('coil main', `coil c${index}`)
      .replace('start grey', `start ${index % 2 === 0 ? 'a' : 'b'}${index}`)
      .replace('finish violet', `finish ${index % 2 === 0 ? 'b' : 'a'}${index}`);
  const links = numbers.slice(1).map((index) => `    link b${index - 1} a${index}`);
  const hookup = ['  hookup {', '    hot a0', ...links, `    ground b${count - 1}`, '  }', '}', ''];
  return ['use "parts.pickup"', 'pickup many {', ...numbers.map(coil), ...hookup].join('\n');
}
