import assert from 'node:assert/strict';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import {
  NEW_CHOICES_REQUEST,
  NEW_SPEC_REQUEST,
  type NewAnswers,
  type NewChoicesResult,
  type NewSpecResult,
  PROTOCOL_VERSION as protocol,
} from '../../server/src/lsp/protocol.ts';
import { PARTS } from '../support/shop.ts';
import { type ServerProcess, startServer } from './server-process.ts';

describe('a new spec by request', () => {
  let folder = '';
  let server: ServerProcess;
  before(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'pickup-new-'));
    writeFileSync(
      path.join(folder, 'parts.pickup'),
      `${PARTS}bobbin slugs like rod-six {\n  pole slug steel 4.8 x 12.5 mm\n}\n`,
    );
    server = await startServer({ workspace: pathToFileURL(folder).href });
  });
  after(async () => {
    await server.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  it('offers the colours of IEC 60757 and what lies on the shelf, each bobbin with or without magnets of its own', async () => {
    const uri = pathToFileURL(path.join(folder, 'parts.pickup')).href;
    const gone = pathToFileURL(path.join(folder, 'gone.pickup')).href;
    const { colours, shelves } = await server.request<NewChoicesResult>(NEW_CHOICES_REQUEST, {
      protocol,
      uris: [uri, gone],
    });
    assert.equal(colours.length, 14);
    for (const { swatch } of colours) assert.match(swatch, /^#[0-9a-f]{6}$/);
    assert.deepEqual(shelves, [
      {
        uri,
        bobbins: [
          { name: 'rod-six', ownMagnets: true, poles: 6 },
          { name: 'slugs', ownMagnets: false, poles: 6 },
        ],
        wires: ['plain-42'],
        spools: ['RYD-W7'],
        magnets: ['bar-5'],
      },
    ]);
  });

  it('gives the text that follows from the answers, or says what is amiss; without answers a shop', async () => {
    const answers: NewAnswers = {
      what: 'pickup',
      title: 'Wren',
      strings: 6,
      coils: 1,
      positions: ['neck'],
      leads: ['grey', 'violet'],
      parts: { kind: 'described', gauge: 42 },
    };
    const ask = (params: object) => server.request<NewSpecResult>(NEW_SPEC_REQUEST, { protocol, ...params });
    const { files } = await ask({ answers });
    assert.deepEqual(
      files.map((file) => file.path),
      ['wren.pickup'],
    );
    server.open(pathToFileURL(path.join(folder, 'wren.pickup')).href, files[0]?.text ?? '');
    const found = await server.diagnosed(pathToFileURL(path.join(folder, 'wren.pickup')).href, 1);
    assert.deepEqual(
      found.map(({ code }) => code),
      ['winding/turns-unknown'],
    );
    assert.equal(
      (await ask({ answers: { ...answers, leads: [] } })).problem,
      '2 leads are needed: start and finish of each coil.',
    );
    assert.ok((await ask({})).files.some((file) => file.path === 'parts/stock.pickup'));
    // What is no answer at all is told, and the server lives.
    assert.notEqual((await ask({ answers: { title: 7 } })).problem, undefined);
  });
});
