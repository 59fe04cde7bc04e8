import { readdirSync, readFileSync } from 'node:fs';

/** The shop's samples, mistakes included: path below `samples/` and text. */
export function sampleFiles(): readonly { readonly path: string; readonly text: string }[] {
  return readdirSync('samples', { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith('.pickup'))
    .sort()
    .map((path) => ({ path, text: readFileSync(`samples/${path}`, 'utf8') }));
}
