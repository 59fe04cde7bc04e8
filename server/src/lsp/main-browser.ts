import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { serve } from './server.ts';

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));
const channel = new MessageChannel();
const waiting: (() => void)[] = [];
channel.port1.onmessage = () => waiting.shift()?.();

serve(connection, {
  disk: undefined,
  // A message to oneself comes behind those already waiting, and sooner than a timer.
  soon: (callback) => {
    waiting.push(callback);
    channel.port2.postMessage(null);
  },
});
connection.listen();
