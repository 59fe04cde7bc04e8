import assert from 'node:assert/strict';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { chance, uniform } from '../support/chance.ts';
import { SINGLE } from '../support/shop.ts';
import { answersOf, layOut, playHands, randomChange } from './random-hands.ts';
import { type ServerProcess, startServer } from './server-process.ts';

const samples = path.resolve(import.meta.dirname, '..', '..', 'samples');
const workspace = pathToFileURL(samples).href;

/** With the findings that need heavy numbers. */
const stateOf = async (server: ServerProcess, uri: string, version: number): Promise<unknown> => ({
  diagnostics: await server.completelyDiagnosed(uri, version),
  ...(await answersOf(server, uri)),
});

describe('edits against a fresh open', () => {
  let edited: ServerProcess;
  let fresh: ServerProcess;
  before(async () => {
    const options = { workspace };
    [edited, fresh] = await Promise.all([startServer(options), startServer(options)]);
  });
  after(() => Promise.all([edited.stop(), fresh.stop()]));

  for (const [index, sample] of ['fennel-bridge.pickup', 'cinder-bridge.pickup', 'larkspit.pickup'].entries()) {
    it(`${sample}: after forty edits every answer is that of a server that opened the text so`, async () => {
      const random = uniform(index + 1);
      const uri = pathToFileURL(path.join(samples, sample)).href;
      const good = readFileSync(path.join(samples, sample), 'utf8');
      let document = TextDocument.create(uri, 'pickup', 1, good);
      edited.open(uri, good);
      for (let step = 1; step <= 40; step += 1) {
        const change = randomChange(document, random);
        document = TextDocument.update(document, [change], document.version + 1);
        edited.change(uri, document.version, [change]);
        if (step % 10 !== 0) continue;
        const text = document.getText();
        fresh.open(uri, text, document.version);
        assert.deepEqual(
          await stateOf(edited, uri, document.version),
          await stateOf(fresh, uri, document.version),
          `seed ${index + 1}, after edit ${step}, text:\n${text}`,
        );
        fresh.notify('textDocument/didClose', { textDocument: { uri } });
      }
      edited.notify('textDocument/didClose', { textDocument: { uri } });
    });
  }
});

describe('several files at once', () => {
  it('edited, closed, changed on the disk and asked about, they end as if they were just opened (seeds 1 to 3)', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'pickup-hands-'));
    layOut(folder);
    const options = { workspace: pathToFileURL(folder).href };
    const [edited, fresh] = await Promise.all([startServer(options), startServer(options)]);
    try {
      for (const seed of [1, 2, 3]) await playHands(edited, fresh, folder, chance(seed), 12);
    } finally {
      await Promise.all([edited.stop(), fresh.stop()]);
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

describe('findings that need inductances', () => {
  let server: ServerProcess;
  before(async () => {
    server = await startServer({ workspace });
  });
  after(() => server.stop());

  const file = path.join(samples, 'quorl.pickup');
  const uri = pathToFileURL(file).href;
  const codes = (found: readonly { readonly code?: unknown }[] | undefined) => found?.map(({ code }) => code);
  const LATE = ['hum/partly-cancelled', 'hum/partly-cancelled'];

  it('follow the others, of the same version', async () => {
    server.open(uri, readFileSync(file, 'utf8'), 3);
    const all = await server.completelyDiagnosed(uri, 3);
    const answers = server.published.filter((each) => each.uri === uri && each.version === 3);
    assert.deepEqual(codes(answers[0]?.diagnostics), []);
    assert.deepEqual(codes(all), LATE);
    assert.equal(answers.length, 2);
  });

  it('do not go and come where what they rest on stays as it is', async () => {
    const start = { line: 0, character: 0 };
    server.change(uri, 4, [{ range: { start, end: start }, text: '# one more line\n' }]);
    assert.deepEqual(codes(await server.diagnosed(uri, 4)), LATE);
  });
});

describe('a file on the way', () => {
  let server: ServerProcess;
  const uri = pathToFileURL(path.join(samples, 'typed.pickup')).href;
  const text = SINGLE.replace('parts.pickup', 'parts/stock.pickup');
  before(async () => {
    server = await startServer({ workspace });
  });
  after(() => server.stop());

  it('typed letter by letter as fast as it goes, it ends like the whole, and nothing fails', async () => {
    server.open(uri, '');
    let version = 1;
    let line = 0;
    let character = 0;
    for (const letter of text) {
      version += 1;
      const here = { line, character };
      server.change(uri, version, [{ range: { start: here, end: here }, text: letter }]);
      if (version % 5 === 0) void server.request('textDocument/completion', { textDocument: { uri }, position: here });
      if (letter === '\n') {
        line += 1;
        character = 0;
      } else character += letter.length;
    }
    assert.deepEqual(await server.diagnosed(uri, version), []);
    assert.deepEqual(server.log, []);
  });

  it('with any one of its words taken away it still answers', async () => {
    let version = 10_000;
    for (const { index, 0: word } of text.matchAll(/\S+/g)) {
      version += 1;
      server.change(uri, version, [{ text: text.slice(0, index) + text.slice(index + word.length) }]);
      assert.ok(Array.isArray(await server.diagnosed(uri, version)));
      await server.request('textDocument/hover', { textDocument: { uri }, position: { line: 6, character: 6 } });
    }
    assert.deepEqual(server.log, []);
  });
});
