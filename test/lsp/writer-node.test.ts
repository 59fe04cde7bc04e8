import assert from 'node:assert/strict';
import { PassThrough } from 'node:stream';
import { type Message, StreamMessageReader } from 'vscode-languageserver/node';
import { WholeMessageWriter } from '../../server/src/lsp/writer-node.ts';

const range = { start: { line: 0, character: 0 }, end: { line: 0, character: 4 } };
const found = (message: string) => ({ range, message, code: 'unit/missing', severity: 1 });
const published = (diagnostics: readonly unknown[], version = 1): Message =>
  ({
    jsonrpc: '2.0',
    method: 'textDocument/publishDiagnostics',
    params: { uri: 'file:///a.pickup', version, diagnostics },
  }) as Message;

describe('messages written as a whole', () => {
  const [first, second] = [found('The gauge has no unit: "42" may be AWG, 7 kΩ is none.'), found('Line\nend 🎸')];
  const messages: readonly Message[] = [
    published([]),
    published([first]),
    published([first, second], 2),
    // The first is another object with other words, the second as it was.
    published([{ ...first, message: 'Nothing' }, second], 3),
    { jsonrpc: '2.0', id: 1, result: { contents: 'Ω' } } as Message,
  ];

  it('are read as what was said, in order', async () => {
    const stream = new PassThrough();
    const read = new Promise<readonly Message[]>((resolve) => {
      const heard: Message[] = [];
      new StreamMessageReader(stream).listen((message) => {
        heard.push(message);
        if (heard.length === messages.length) resolve(heard);
      });
    });
    const writer = new WholeMessageWriter(stream);
    for (const each of messages) await writer.write(each);
    assert.deepEqual(await read, messages);
  });

  it('reach the stream in one piece each', async () => {
    const stream = new PassThrough();
    const pieces: Buffer[] = [];
    stream.on('data', (piece: Buffer) => pieces.push(piece));
    const writer = new WholeMessageWriter(stream);
    for (const each of messages) await writer.write(each);
    assert.equal(pieces.length, messages.length);
    for (const piece of pieces) assert.match(piece.toString(), /^Content-Length: \d+\r\n\r\n\{.*\}$/s);
  });

  it('tell of a stream that fails', async () => {
    const stream = new PassThrough();
    const writer = new WholeMessageWriter(stream);
    const told: unknown[] = [];
    writer.onError(([error]) => told.push(error.message));
    stream.destroy(new Error('gone'));
    await assert.rejects(writer.write(published([])), /gone|destroyed/);
    assert.ok(told.length > 0);
  });
});
