import { getHeapSpaceStatistics, setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { KEEPS_SMALL } from './frugal-node.ts';

let collect: unknown;

/**
 * Frees what was made last and is of no use any more: a millisecond or two where nobody waits. Left to itself the engine does it in the
 * middle of a keystroke. Where it cannot be asked, it does.
 */
export function tidy(): void {
  collect ??= askedOfEngine();
  if (typeof collect !== 'function') return;
  const isSmall = bytesForNew() < ONE_KEYSTROKE;
  if (isSmall) setFlagsFromString('--semi-space-growth-factor=2');
  collect({ type: 'minor' });
  if (isSmall) setFlagsFromString(KEEPS_SMALL);
}

/** The engine's place for what is made holds one keystroke and its twin what is left of it: then nothing is freed in the midst of one. */
const ONE_KEYSTROKE = 4 * 2 ** 20;

const bytesForNew = (): number =>
  getHeapSpaceStatistics().find(({ space_name }) => space_name === 'new_space')?.space_size ?? ONE_KEYSTROKE;

/** The engine gives it to whatever context is made while a flag is set; with that flag, compiled code would not be taken for its own. */
function askedOfEngine(): unknown {
  setFlagsFromString('--expose-gc');
  try {
    return runInNewContext('globalThis.gc') ?? 'none';
  } finally {
    setFlagsFromString('--no-expose-gc');
  }
}
