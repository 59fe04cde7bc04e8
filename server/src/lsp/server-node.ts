import { createConnection, LSPErrorCodes, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeDisk } from './disk-node.ts';
import { serve } from './server.ts';

/** Over the streams or the channel that the command line names: `--stdio`, `--node-ipc`, `--socket=…`, `--pipe=…`. */
const connection = createConnection(ProposedFeatures.all, {
  connectionStrategy: {
    // A request that is cancelled while it waits is never begun.
    cancelUndispatched: () => ({
      jsonrpc: '2.0',
      id: null,
      error: { code: LSPErrorCodes.RequestCancelled, message: 'cancelled' },
    }),
  },
});

// Over stdio the end of the stream ends this process; over a channel nobody would once the editor is gone.
process.on('disconnect', () => process.exit(0));
process.on('uncaughtException', (error) => connection.console.error(String(error.stack ?? error)));
process.on('unhandledRejection', (reason) => connection.console.error(String(reason)));

serve(connection, { disk: nodeDisk, soon: (callback) => setImmediate(callback) });
connection.listen();
