import assert from 'node:assert/strict';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { type ServerProcess, startServer } from '../protocol/server-process.ts';
import { askEverything } from '../support/any-text.ts';
import { type BadText, sampledBadTexts } from '../support/bad-texts.ts';
import { analyse } from '../support/check-fixture.ts';
import { SAMPLES, sampleText } from '../support/sample-files.ts';
import { thorough } from '../support/thorough.ts';

const SEED = 20261125;
const PARTS = { 'parts/stock.pickup': sampleText('parts/stock.pickup'), 'shop.pickup': sampleText('shop.pickup') };
/** A pickup with readings and an instrument with a selector: between them every check has something to look at. */
const SPECS = ['hesk-neck.pickup', 'fennel-bridge.pickup'];
/** The larger texts are the parser's to bear; here each is analysed whole, with what the editor asks for. */
const LONGEST = 100_000;

describe('any text at all, analysed', () => {
  for (const name of SPECS) {
    it(`made out of ${name} gives findings inside the text, estimates and answers, never an exception (seed ${SEED})`, () => {
      let count = 0;
      for (const { kind, text } of badSpecs(name, Math.ceil(61 / thorough(1)))) {
        try {
          askEverything(analyse(text, PARTS));
        } catch (error) {
          assert.fail(`${kind}: ${error instanceof Error ? (error.stack ?? error.message) : error}\n${text}`);
        }
        count++;
      }
      assert.ok(count > 25, `${count} texts`);
    });
  }
});

describe('any text at all, opened in the server', () => {
  let server: ServerProcess;
  before(async () => {
    server = await startServer({ workspace: pathToFileURL(SAMPLES).href });
  });
  after(() => server.stop());

  for (const name of SPECS) {
    it(`made out of ${name} is answered, and nothing is logged (seed ${SEED})`, async () => {
      const uri = pathToFileURL(path.join(SAMPLES, name)).href;
      let version = 1;
      server.open(uri, sampleText(name), version);
      for (const { kind, text } of badSpecs(name, Math.ceil(53 / thorough(1)))) {
        version += 1;
        server.change(uri, version, [{ text }]);
        assert.ok(Array.isArray(await server.diagnosed(uri, version)), kind);
        const asked = { textDocument: { uri } };
        assert.ok(Array.isArray(await server.request('textDocument/documentSymbol', asked)), kind);
        await server.request('textDocument/hover', { ...asked, position: { line: 8, character: 6 } });
        assert.deepEqual(server.log, [], kind);
      }
      assert.ok(version > 25, `${version} texts`);
    });
  }
});

function* badSpecs(name: string, step: number): Generator<BadText> {
  for (const bad of sampledBadTexts(sampleText(name), SEED, step)) if (bad.text.length <= LONGEST) yield bad;
}
