import type { FileContent } from '../analysis/analysis-types.ts';

/** A spec of 10,000 lines has a third of a megabyte; what is far beyond that is not one. */
export const MOST_BYTES = 4 * 1024 * 1024;

/** Files of a workspace; no shop has as many. */
export const MOST_SPECS = 20_000;

export const tooLarge = (bytes: number): FileContent => ({
  kind: 'unreadable',
  reason: `it has ${Math.ceil(bytes / 1024 / 1024)} MB, more than the ${MOST_BYTES / 1024 / 1024} MB that a spec may have`,
});

/** UTF-8 with or without a byte-order mark; anything else is not a spec. */
export function decodeText(bytes: Uint8Array): FileContent {
  try {
    return { kind: 'text', text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return { kind: 'unreadable', reason: 'it is not UTF-8 text' };
  }
}
