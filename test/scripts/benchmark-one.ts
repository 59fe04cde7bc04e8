/** Runs one benchmark file in a process of its own: what it exports as `run`. */
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [file] = process.argv.slice(2);
if (file === undefined) throw new Error('which benchmark?');
const { run } = (await import(pathToFileURL(path.resolve(file)).href)) as { readonly run: () => Promise<void> };
await run();
