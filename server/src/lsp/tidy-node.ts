import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';

let collect: unknown;

/**
 * Frees what was made last and is of no use any more: a millisecond or two where nobody waits. Left to itself the engine does it in the
 * middle of a keystroke. Where it cannot be asked, it does.
 */
export function tidy(): void {
  collect ??= askedOfEngine();
  if (typeof collect === 'function') collect({ type: 'minor' });
}

/** The engine gives it to whatever context is made while a flag is set; with that flag, compiled code would not be taken for its own. */
function askedOfEngine(): unknown {
  setFlagsFromString('--expose-gc');
  try {
    return runInNewContext('globalThis.gc') ?? 'none';
  } finally {
    setFlagsFromString('--no-expose-gc');
  }
}
