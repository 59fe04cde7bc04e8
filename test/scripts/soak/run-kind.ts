/** One kind of soak in a process of its own, started by `soak.ts`. */
import { KINDS, type Message } from './kinds.ts';

const [kind = '', scale = '1', seed = '1'] = process.argv.slice(2);
const tell = (message: Message): void => {
  process.send?.(message);
};
// A server's pipes keep no process alive; who listens to its parent lives until it disconnects.
process.on('message', () => undefined);
process.on('disconnect', () => process.exit());
await KINDS[kind]?.({
  scale: Number(scale),
  seed: Number(seed),
  at: (words) => tell({ kind: 'at', words }),
  fault: (where, error) =>
    tell({ kind: 'fault', words: `${where}: ${error instanceof Error ? (error.stack ?? error.message) : error}` }),
  summary: (words) => tell({ kind: 'summary', words }),
});
process.disconnect();
