import {
  type Connection,
  type ConnectionOptions,
  createConnection,
  LSPErrorCodes,
  ProposedFeatures,
  StreamMessageReader,
} from 'vscode-languageserver/node';
import { nodeDisk } from './disk-node.ts';
import { serve } from './server.ts';
import { tidy } from './tidy-node.ts';
import { WholeMessageWriter } from './writer-node.ts';

const OPTIONS: ConnectionOptions = {
  connectionStrategy: {
    // A request that is cancelled while it waits is never begun.
    cancelUndispatched: () => ({
      jsonrpc: '2.0',
      id: null,
      error: { code: LSPErrorCodes.RequestCancelled, message: 'cancelled' },
    }),
  },
};

/** Over the streams or the channel that the command line names: `--stdio`, `--node-ipc`, `--socket=…`, `--pipe=…`. */
const connection = process.argv.includes('--stdio') ? overStreams() : createConnection(ProposedFeatures.all, OPTIONS);

// Over stdio the end of the stream ends this process; over a channel nobody would once the editor is gone.
process.on('disconnect', () => process.exit(0));
process.on('uncaughtException', (error) => connection.console.error(String(error.stack ?? error)));
process.on('unhandledRejection', (reason) => connection.console.error(String(reason)));

serve(connection, { disk: nodeDisk, soon: (callback) => setImmediate(callback), tidy });
connection.listen();

/** What goes wrong while the streams are read would otherwise be told to nobody. */
function overStreams(): Connection {
  const { stdin, stdout, stderr } = process;
  const reader = new StreamMessageReader(stdin);
  const writer = new WholeMessageWriter(stdout);
  const over = createConnection(ProposedFeatures.all, reader, writer, OPTIONS);
  let isShutDown = false;
  over.onShutdown(() => {
    isShutDown = true;
  });
  for (const end of ['end', 'close']) stdin.once(end, () => process.exit(isShutDown ? 0 : 1));
  reader.onError((error) => {
    stderr.write(`pickup-spec-language-server: no message of the protocol: ${error.message}\n`);
    // A bad message is passed over; behind a bad header nobody knows where the next one begins.
    if (/header|content-length/i.test(error.message)) process.exit(1);
  });
  return over;
}
